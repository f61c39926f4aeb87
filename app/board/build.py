"""From a case and the rules to the board: what is known, how, what the tests could not show, and what is next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.beliefs.beliefs import Beliefs, Contradiction
from app.beliefs.budget import A_SECOND
from app.beliefs.infer import infer
from app.beliefs.left_out import LeftOut
from app.beliefs.narrow import leaving_out
from app.board.actions import promising_actions
from app.board.ahead import InOrder, look_ahead, look_everywhere
from app.board.alike import told_apart_by_repair
from app.board.answered import Answered
from app.board.asking import Asked, ask, complaint_findings
from app.board.board import Board, CauseGroup, Matrix, Row, Status
from app.board.columns import columns
from app.board.entry_words import entry_words
from app.board.first_of_all import first_of_all, may_drive
from app.board.next_steps import next_steps
from app.board.old_results import old_results
from app.board.rank import earlier, groups, in_order
from app.board.words import capital
from app.evidence.case import Case
from app.evidence.observe import observe
from app.network.build import CaseNetwork, build_network
from app.network.noisy_or import Questions
from app.rules.library import Rules

CLEAR_LEAD = 2.0
RANKING, LOOKING_BACK = 0.7 * A_SECOND, 0.15 * A_SECOND
"""The shares of a board's time; what is to come next has its own (`ahead.py`)."""


@dataclass(frozen=True, slots=True)
class Ranked:
    """A case answered as far as its ranking goes: `board` has no next steps yet, nor what speaks for and against.

    What the results so far can and cannot show is there after looking back.
    """

    answers: Answered
    ordered: InOrder
    board: Board


def build_board(case: Case, rules: Rules) -> Board:
    """What is known about this case, how, what the tests so far cannot show, and what to do next."""
    return look_further(look_back(rank(case, rules)))


def rank(case: Case, rules: Rules) -> Ranked | Board:
    """The ranking and its statuses; a whole board where the entries cannot all be true."""
    network = build_network(case, observe(case, rules), rules)
    asked = ask(network, case.vehicle.layout)
    beliefs = infer(network.noisy_or, asked.first, most_work=RANKING)
    if isinstance(beliefs, Contradiction):
        return _contradictory(beliefs, network, case, rules)
    answers = _answered(case, rules, network, asked, beliefs)
    ordered = in_order(answers)
    all_groups = groups(answers, (), ordered, {})
    board = Board(
        rules_version=rules.version,
        complaint_words=complaint_words(case, rules),
        groups=_open(all_groups, rules),
        confirmed=_rows_with(Status.CONFIRMED, all_groups),
        ruled_out=_rows_with(Status.RULED_OUT, all_groups),
        earlier=earlier(answers),
        not_listed=answers.beliefs.blamed[answers.asked.all_listed].no,
        unexplained=_unexplained(all_groups, answers.network),
        clear_lead=_clear_lead(all_groups),
        results=(),
        next=(),
        first_of_all=first_of_all(case, rules),
        may_drive=may_drive(case, rules),
        missing=answers.network.evidence.missing,
        contradiction=(),
        left_out=_in_words(answers.beliefs.not_asked, answers),
        looked_ahead=False,
    )
    return Ranked(answers, ordered, board)


def _answered(case: Case, rules: Rules, network: CaseNetwork, asked: Asked, beliefs: Beliefs) -> Answered:
    """Reports that had to be set aside stay so for all that is asked further."""
    aside = beliefs.set_aside
    words = entry_words(network, case, rules) if aside else {}
    network = replace(network, noisy_or=leaving_out(network.noisy_or, aside))
    told = zip(asked.first.without, beliefs.without, strict=True)
    fates = {event: chance for without, found in told if not without.findings for event, chance in found.items()}
    return Answered(case, rules, network, asked, beliefs, fates, tuple(words[finding] for finding in sorted(aside)))


def look_back(ranked: Ranked | Board) -> Ranked | Board:
    """With what each result so far shows and cannot show."""
    if isinstance(ranked, Board) or not ranked.answers.asked.further.retests:
        return ranked
    answers = _told_more(ranked.answers)
    return replace(ranked, answers=answers, board=replace(ranked.board, results=old_results(answers)))


def look_further(looked_back: Ranked | Board) -> Board:
    """The whole board: the next steps too, and what speaks for and against each leading row."""
    if isinstance(looked_back, Board):
        return looked_back
    answers, ordered, board = looked_back.answers, looked_back.ordered, looked_back.board
    actions = promising_actions(answers, leader=ordered[0][1][0]) if ordered else ()
    ahead = look_ahead(answers, ordered, actions)
    all_groups = groups(answers, board.results, ordered, ahead.speaks)
    return replace(
        board,
        groups=_open(all_groups, answers.rules),
        confirmed=_rows_with(Status.CONFIRMED, all_groups),
        ruled_out=_rows_with(Status.RULED_OUT, all_groups),
        earlier=earlier(answers),
        next=next_steps(actions, ahead, all_groups, columns(answers, ahead), layout=answers.case.vehicle.layout),
        left_out=_in_words(answers.beliefs.not_asked.beside(ahead.left_out), answers),
        looked_ahead=True,
    )


def build_matrix(looked_back: Ranked | Board) -> Matrix:
    """Every test, done or to come, with its mark for each leading row; empty where nothing can be ranked."""
    if isinstance(looked_back, Board):
        return Matrix((), None)
    answers = looked_back.answers
    ahead = look_everywhere(answers, looked_back.ordered)
    return Matrix(columns(answers, ahead), _in_words(answers.beliefs.not_asked.beside(ahead.left_out), answers))


def _in_words(left_out: LeftOut, answers: Answered) -> str | None:
    """With the names of the reports that were not used."""
    said = left_out.in_words()
    return f"{said} Not used: {'; '.join(answers.unused)}." if answers.unused else said


def _told_more(answers: Answered) -> Answered:
    """The further questions answered too."""
    first = answers.beliefs
    more = infer(answers.network.noisy_or, answers.asked.further, most_work=LOOKING_BACK, absorbed=first.absorbed)
    assert isinstance(more, Beliefs)
    beliefs = replace(first, retests=more.retests, not_asked=first.not_asked.beside(more.not_asked))
    return replace(answers, beliefs=beliefs)


def _open(all_groups: Sequence[CauseGroup], rules: Rules) -> tuple[CauseGroup, ...]:
    return told_apart_by_repair([group for group in all_groups if not _settled(group)], rules)


def complaint_words(case: Case, rules: Rules) -> str:
    return capital(rules.symptoms[case.complaint].name)


def _settled(group: CauseGroup) -> bool:
    return all(row.status in (Status.CONFIRMED, Status.RULED_OUT) for row in group.rows)


def _rows_with(status: Status, all_groups: Sequence[CauseGroup]) -> tuple[Row, ...]:
    return tuple(row for group in all_groups for row in group.rows if row.status is status)


def _clear_lead(all_groups: Sequence[CauseGroup]) -> bool:
    return len(all_groups) < 2 or all_groups[0].to_blame >= CLEAR_LEAD * all_groups[1].to_blame


def _unexplained(all_groups: Sequence[CauseGroup], network: CaseNetwork) -> float:
    """P(no confirmed hypothesis produces the complaint); 1 while nothing is confirmed."""
    confirmed = {row.id.cause: row.id.place for row in _rows_with(Status.CONFIRMED, all_groups)}
    members = tuple(
        number
        for number, candidate in enumerate(network.candidates)
        if confirmed.get(candidate.cause.id) == candidate.place
    )
    if not members:
        return 1.0
    asked = Questions(complaint=complaint_findings(network), blamed=(members,), states=False)
    return _ask_more(network, asked).blamed[0].no


def _ask_more(network: CaseNetwork, questions: Questions) -> Beliefs:
    answers = infer(replace(network.noisy_or, events=()), questions)
    assert isinstance(answers, Beliefs)
    return answers


def _contradictory(found: Contradiction, network: CaseNetwork, case: Case, rules: Rules) -> Board:
    """No ranking can be had from entries that cannot all be true; the board names them."""
    words = entry_words(network, case, rules)
    return Board(
        rules_version=rules.version,
        complaint_words=complaint_words(case, rules),
        groups=(),
        confirmed=(),
        ruled_out=(),
        earlier=(),
        not_listed=0.0,
        unexplained=1.0,
        clear_lead=False,
        results=(),
        next=(),
        first_of_all=(),
        may_drive=may_drive(case, rules),
        missing=network.evidence.missing,
        contradiction=tuple(words[finding] for finding in found.findings),
        left_out=None,
        contradicting=tuple(filter(None, (network.book.entries.get(finding) for finding in found.findings))),
    )
