"""What the board says about a row in words: parts renewed, jobs only told of, papers, culprits."""

from __future__ import annotations

from collections.abc import Iterable

from app.board.answered import TIED, Answered
from app.board.words import chance_in_words, joined
from app.evidence.case import Outcome, Source
from app.evidence.moments import Moment
from app.network.candidates import Cut
from app.network.noisy_or import Report
from app.network.rows import RowMembers
from app.rules.words import CauseId, Effect

WORTH_SAYING = 0.001


def sayings(number: int, answered: Answered) -> tuple[str, ...]:
    """Sentences about a row, the work on it first."""
    row = answered.network.rows[number]
    if row.job is not None:
        return _old_part(number, row, answered)
    return (*_work_on_it(row, answered), *_killed(number, answered), *_from_paper(row, answered))


def _old_part(number: int, row: RowMembers, answered: Answered) -> tuple[str, ...]:
    """What people call "replaced in vain"."""
    cut = next(cut for cut in _job_cuts(row, answered) if cut.job and cut.job.number == row.job)
    bad = chance_in_words(answered.chance(number).yes)
    taken_out = f"This is the state before {_job(cut, answered)}."
    if any(line_at > cut.at for line_at in _complaint_moments(answered)):
        still = "The complaint was there afterwards too, so this alone did not explain it."
        return (taken_out, still, f"That it was bad at all: {bad}.")
    return (taken_out, f"That it was bad: {bad}.")


def _complaint_moments(answered: Answered) -> Iterable[Moment]:
    lines, findings = answered.network.lines, answered.network.noisy_or.findings
    for line in (*lines.complaint, *lines.once):
        if findings[line.finding].report is Report.PRESENT:
            yield line.at


def _job_cuts(row: RowMembers, answered: Answered) -> list[Cut]:
    """The jobs that touched the row's own hypotheses, each once."""
    found: dict[int, Cut] = {}
    for member in row.members:
        for cut in answered.network.candidates[member].cuts:
            if cut.job is not None:
                found.setdefault(cut.job.number, cut)
    return [found[number] for number in sorted(found)]


def _job(cut: Cut, answered: Answered) -> str:
    assert cut.job is not None
    name = answered.rules.operations[cut.job.job.operation].name
    return f"job {cut.job.number} ({name}, visit {cut.job.visit.number})"


def _work_on_it(row: RowMembers, answered: Answered) -> Iterable[str]:
    for cut in _job_cuts(row, answered):
        assert cut.job is not None
        yield f"{_what_it_did(cut)} by {_job(cut, answered)}{_how_known(cut)}."
        if cut.comes >= WORTH_SAYING:
            yield f"That this work brought the fault in: about {_one_in(cut.comes)} by the rules, before any evidence."


def _what_it_did(cut: Cut) -> str:
    match cut.effect:
        case Effect.RENEWS:
            return "Renewed"
        case Effect.SETS:
            return "Set"
        case _:
            return "Laid open"


def _how_known(cut: Cut) -> str:
    assert cut.job is not None
    match cut.job.job.source:
        case Source.TOLD:
            return ", which is only told of and may not have been done"
        case Source.PAPER:
            return ", known from paper"
        case Source.TRACES:
            return ", known from traces"
        case _:
            return ""


def _one_in(chance: float) -> str:
    return f"1 in {round(1.0 / chance):,}"


def _killed(number: int, answered: Answered) -> Iterable[str]:
    """By itself, or killed by something else."""
    by_itself, killed = answered.by_itself(number), answered.killed(number)
    if by_itself is None or killed is None or killed.yes < max(0.1 * by_itself.yes, WORTH_SAYING):
        return
    names = joined(likely_culprits(number, answered))
    yield f"Failed by itself: {chance_in_words(by_itself.yes)}; killed by {names}: {chance_in_words(killed.yes)}."


def likely_culprits(number: int, answered: Answered) -> list[str]:
    """The names of the causes that may have destroyed it, the likeliest first, at most two."""
    network, rules = answered.network, answered.rules
    row = network.rows[number]
    chances: dict[CauseId, float] = {}
    for member in network.culprits[number]:
        cause = network.candidates[member].cause
        damage = next(d.how.chance for d in cause.damages if d.victim == row.cause)
        there = _presence(member, answered)
        chances[cause.id] = max(chances.get(cause.id, 0.0), there * damage)
    ranked = sorted(chances, key=lambda cause: -round(chances[cause], TIED))
    worth = [cause for cause in ranked if chances[cause] >= 0.2 * chances[ranked[0]]]
    return [rules.causes[cause].name for cause in worth[:2]]


def _presence(member: int, answered: Answered) -> float:
    """The chance that a hypothesis is there now, from the row at its own place."""
    candidate = answered.network.candidates[member]
    row = answered.network.now_at.get((candidate.cause.id, candidate.place))
    return 0.0 if row is None else answered.chance(row).yes


def _from_paper(row: RowMembers, answered: Answered) -> Iterable[str]:
    """What only a paper or a word of mouth says, with the minutes to confirm it here."""
    layout = answered.case.vehicle.layout
    done_here = {
        (line.test.id, line.place) for line in answered.network.lines.tests if line.result and line.result.source.here
    }
    for line in answered.network.lines.tests:
        if line.result is None or line.result.source.here or (line.test.id, line.place) in done_here:
            continue
        shown = any(s.cause == row.cause for s in line.test.shows)
        if shown and row.place and layout.related(row.place, line.place):
            minutes = line.test.setup_minutes + line.test.minutes_per_place
            said = "normal" if line.result.result.outcome is Outcome.NORMAL else "abnormal"
            how = "on paper only" if line.result.source is Source.PAPER else f"known {line.result.source.value} only"
            yield f"{line.test.name.capitalize()} was {said}, {how}: {minutes:.0f} minutes to confirm it here."
