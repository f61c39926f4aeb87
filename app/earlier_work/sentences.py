"""What the audit and the way back say, in sentences."""

from __future__ import annotations

from app.board.board import Row
from app.board.words import capital, chance_in_words, joined
from app.earlier_work.audit import Audit, DutyAudit, JobAudit, Tally
from app.earlier_work.putting_back import PuttingBack
from app.rules.library import Rules


def what_follows(duty: DutyAudit, rules: Rules) -> str:
    """What a duty left out brings: its cause and how likely that is there now, or the rule's own sentence."""
    if duty.duty.brings is None:
        return duty.duty.consequence
    name = capital(rules.causes[duty.duty.brings].name)
    more = f" {duty.duty.consequence}" if duty.duty.consequence else ""
    if duty.row is None:
        return f"{name}. Nothing reported so far points to it.{more}"
    return f"{name}. {_there_now(duty.row, duty.somewhere)}{more}"


def _there_now(row: Row, somewhere: float | None) -> str:
    """The board's present chance of the cause: at its likeliest place, and anywhere where it has several."""
    at = "" if row.place_words in ("", "vehicle", "engine") else f", {row.place_words}"
    here = chance_in_words(row.probability)
    if somewhere is None:
        return f"Is it there now{at}? {capital(here)}."
    return f"Is it there now, anywhere? {capital(chance_in_words(somewhere))}; likeliest place{at}: {here}."


def how_to_verify(duty: DutyAudit, rules: Rules) -> str:
    """By which test, or by which look."""
    test = rules.tests.get(duty.duty.verify_by_test) if duty.duty.verify_by_test else None
    return f"By a test: {test.name}." if test else duty.duty.verify_how


def counted(tally: Tally) -> str:
    """ "3 of 14 proven, 1 found wrong, 10 not known; 2 do not apply"."""
    beside = f"; {tally.not_applicable} {'does' if tally.not_applicable == 1 else 'do'} not apply"
    outside = beside if tally.not_applicable else ""
    if not tally.asked:
        return f"no duty to verify{outside}"
    return f"{tally.proven} of {tally.asked} proven, {tally.wrong} found wrong, {tally.unknown} not known{outside}"


def summary(audit: Audit) -> tuple[str, ...]:
    """The audit as it stands, in a few sentences."""
    tally = audit.tally
    if not audit.jobs:
        return ("No job is on file for this vehicle.",)
    jobs = f"{len(audit.jobs)} job{'s' if len(audit.jobs) > 1 else ''}"
    said = [f"{jobs} on file with {tally.asked} dut{'y' if tally.asked == 1 else 'ies'} to verify."]
    unknown = sum(job.operation is None for job in audit.jobs)
    if unknown:
        said.append(f"{unknown} of the jobs are not in the rules: nothing can be asked about them.")
    return tuple(said)


def job_again(job: JobAudit) -> str:
    if job.again is None:
        return ""
    return f"Done again at visit {job.again}: what was left undone here may be gone with it."


def open_items(back: PuttingBack) -> tuple[str, ...]:
    """What is still open before the vehicle leaves, each in words."""
    covers = [f"{capital(step.cover.name)}: not put back" for step in back.open_steps]
    duties = [
        f"{capital(duty.duty.text)} ({duty.operation.name}): "
        f"{'found wrong' if duty.last is not None and duty.last.state == 'found wrong' else 'not ticked'}"
        for duty in back.open_duties
    ]
    return (*covers, *duties)


def opened_for(names: list[str]) -> str:
    return f"Opened for: {joined(names)}." if names else "Said to be off or open."
