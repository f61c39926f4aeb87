"""The proof in sentences that name the method: what the use so far proves, what is still needed, what a scan says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import inf, isinf

from app.proof.conditions import Conditions
from app.proof.measures import Measure, amount
from app.proof.readiness import CodeFound, CodeSays, MonitorSays, Ran, Readiness
from app.proof.silence import length_factor
from app.proof.standing import DEMONSTRATED, Shown, Standing, Verdict
from app.proof.waits import Known, Wait
from app.rules.section import capital

FARTHEST = {Measure.KM: 100_000.0, Measure.DAYS: 3_650.0}
"""Beyond this no proof by use is worth asking for."""


def percent(chance: float) -> str:
    """ "14 %", "0.4 %"; never 0 or 100, which no model gives."""
    if chance < 0.001:
        return "less than 0.1 %"
    if chance > 0.995:
        return "more than 99 %"
    return f"{chance * 100:.1f} %" if chance < 0.01 else f"{chance * 100:.0f} %"


def conditions_in_words(shown: Iterable[Conditions]) -> str:
    """ "cold, start; or hot, idle"."""
    return "; or ".join(", ".join(sorted(one)) for one in shown)


def verdict(standing: Standing, scan: Readiness | None) -> str:
    """Where the proof stands, use and scans together, in a few words."""
    if standing.verdict is Verdict.NO_REPAIR:
        return "No repair yet"
    if standing.verdict is Verdict.CAME_BACK or (scan is not None and scan.back):
        return "It came back" if standing.verdict is Verdict.CAME_BACK else "A code speaks against it"
    if standing.verdict is Verdict.PROVEN and scan is not None and scan.by_code and not scan.counts:
        return "Enough use, but no scan that counts"
    return {Verdict.PROVEN: "Proven", Verdict.NO_WAIT_KNOWN: "Not proven: nothing to go by"}.get(
        standing.verdict, "Not proven yet"
    )


def level_in_words(lead: Shown, level: float, needed: float) -> tuple[str, str, str]:
    """One line of the table of other chances: the chance, the use in all, and how much of it is missing."""
    if isinf(needed) or needed > FARTHEST.get(lead.measure, inf):
        return f"at most {percent(level)}", "no use worth asking for", ""
    missing = max(0.0, needed - lead.silent)
    more = f"{amount(missing, lead.measure)} more" if missing > 0.0 else "reached"
    return f"at most {percent(level)}", amount(needed, lead.measure), more


def proves(standing: Standing) -> tuple[str, ...]:
    """What the use since the repair proves."""
    match standing.verdict:
        case Verdict.NO_REPAIR:
            return ("No repair is on file that could have mended this complaint. Record the job first.",)
        case Verdict.CAME_BACK:
            return ("The complaint came back after the last repair. Use proves nothing more until the next repair.",)
        case Verdict.NO_WAIT_KNOWN:
            return (*_demonstrated(standing), *_left_aside(standing))
        case Verdict.NOT_YET | Verdict.PROVEN:
            return (*_silence(standing), *_left_aside(standing))


def _silence(standing: Standing) -> Iterator[str]:
    lead = standing.lead
    if lead is None:
        return
    if lead.silent <= 0.0:
        yield "No use since the repair counts yet, so nothing is proven by it."
    else:
        yield _model(lead)
        if lead.still_there is not None and standing.worked is not None:
            yield (
                f"Before any use, the repairs done had cured it with a chance of {percent(standing.worked)} (from the "
                f"board as it stood then). With that as prior, the chance that the fault is still there and has only "
                f"stayed silent is {percent(lead.still_there)}."
            )
    for one in standing.by[1:]:
        if one.silent > 0.0:
            yield f"Counted in {one.measure.value} instead: {_model(one)[0].lower()}{_model(one)[1:]}"


def _model(one: Shown) -> str:
    """The silent chance under the gamma–Poisson model, and what the plug-in exponential would say."""
    known = "one return" if one.returns == 1 else f"{one.returns} returns"
    return (
        f"If the fault were still there, it would stay silent for {amount(one.silent, one.measure)} with a chance of "
        f"{percent(one.stays_silent)} under the gamma–Poisson model, which allows for knowing only "
        f"{known}; the plug-in exponential, which takes the rate as known, would say "
        f"{percent(one.plug_in)}."
    )


def _demonstrated(standing: Standing) -> Iterator[str]:
    """Zero-failure demonstration: a bound on the mean wait, and no chance of being fixed."""
    yield "How soon the complaint comes back is not known: no return is on file with a distance or a time."
    for measure, mean in standing.excluded.items():
        yield (
            f"{capital(amount(standing.silent[measure], measure))} without it show with 95 % confidence that, if it is "
            f"still there, it comes less often than every {amount(mean, measure)} on average (zero-failure "
            "demonstration). That bounds how often it comes; it is not the chance that it is mended."
        )


def _left_aside(standing: Standing) -> Iterator[str]:
    count = len(standing.not_counted)
    if count:
        runs = "One run does" if count == 1 else f"{count} runs do"
        yield f"{runs} not count: the conditions under which the fault shows were not given."


def needs(standing: Standing) -> tuple[str, ...]:
    """What is still needed, in words for the workshop."""
    if standing.verdict in (Verdict.NO_REPAIR, Verdict.CAME_BACK):
        return ()
    return tuple(_needs(standing))


def _needs(standing: Standing) -> Iterator[str]:
    lead = standing.lead
    if lead is not None:
        yield from _amount_needed(lead, standing)
    else:
        factor = length_factor(DEMONSTRATED)
        yield (
            f"To show with 95 % confidence that it comes less often than every 100 km on average takes "
            f"{100.0 * factor:.0f} km without it ({factor:.1f} times as far; so for every other measure). Ask the "
            "customer how soon it used to come back."
        )
    if standing.shown:
        yield f"It counts when driven as the customer usually drives, or under: {conditions_in_words(standing.shown)}."
    else:
        yield "Under which conditions the fault shows is not on file, so all use counts. Ask for them."
    if standing.untried:
        yield f"Not tried since the repair: {conditions_in_words(standing.untried)}."


def _amount_needed(lead: Shown, standing: Standing) -> Iterator[str]:
    goal = f"a chance of at most {percent(standing.at_most)} that the fault is still there"
    if standing.worked is None:
        goal = f"a chance of at most {percent(standing.at_most)} that a fault still there stays silent"
    if lead.needed > FARTHEST.get(lead.measure, inf) or isinf(lead.needed):
        yield (
            f"No use worth asking for brings {goal}: too few returns are known, or the repair is too doubtful. A test "
            "can tell more."
        )
    elif lead.missing <= 0.0:
        yield f"Enough: {goal} needs {amount(lead.needed, lead.measure)} in all."
    else:
        done = f", {amount(lead.missing, lead.measure)} more" if lead.silent > 0.0 else ""
        yield f"For {goal}: {amount(lead.needed, lead.measure)} without the complaint in all{done}."
    if lead.needed <= lead.longest and lead.missing > 0.0:
        yield "That is the longest it has stayed away before: less than that is not taken as proof."


def wait_in_words(wait: Wait) -> tuple[str, str]:
    """What is known of one wait: the use, and from where."""
    use = " · ".join(amount(value, measure) for measure, value in wait.use.items())
    ends = "until it was back" if wait.returned else "without it, then repaired again"
    match wait.known:
        case Known.TOLD:
            how = f"told at visit {wait.until}: it had stayed away so long after visit {wait.since}"
        case Known.CLEARING:
            how = f"from clearing the codes to the code at visit {wait.until}"
        case Known.VISITS:
            how = f"from the repair at visit {wait.since} to visit {wait.until}, at most"
        case Known.RUNS:
            how = f"runs after the repair at visit {wait.since}"
    return f"{use} {ends}", capital(how)


def scan_says(found: Readiness) -> tuple[str, ...]:
    """What the last scan after the repair says of this complaint."""
    if not found.monitors and not found.unwatched:
        return ("No trouble code stands for this complaint, so a scan without codes proves nothing of it.",)
    if found.scan is None:
        watched = ", ".join(one.monitor.name for one in found.monitors)
        behind = f" Behind this complaint stands the monitor: {watched}." if watched else ""
        return (f"No scan after the repair is on file.{behind}",)
    lines = [*(_code_says(one) for one in found.codes), *(_monitor_says(one) for one in found.monitors)]
    if found.unwatched:
        lines.append(f"No monitor with readiness stands behind {', '.join(found.unwatched)}: use decides.")
    return tuple(lines)


def _monitor_says(one: MonitorSays) -> str:
    name, codes = f"Monitor “{one.monitor.name}”", ", ".join(one.codes)
    match one.ran:
        case Ran.RAN:
            return f"{name} has run since codes were cleared: a scan without {codes} counts."
        case Ran.RUNS_ALWAYS:
            return (
                f"{name} works all the while its conditions are met and may be reported complete at once: a scan "
                f"without {codes} counts for the use in the right conditions, no further."
            )
        case Ran.NOT_RUN:
            return f"{name} has not run since codes were cleared: a scan without {codes} proves nothing yet."
        case Ran.NOT_THERE:
            return f"{name} is not supported on this vehicle: a scan without {codes} proves nothing."
        case Ran.NOT_READ:
            return f"{name} was not read: whether a scan without {codes} proves anything is not known."


def _code_says(one: CodeFound) -> str:
    state = f"{one.code} is {one.state.value}"
    match one.says:
        case CodeSays.SEEN_AGAIN:
            return f"{state} since codes were cleared: the fault was seen again once; the next drive cycle decides."
        case CodeSays.BACK:
            return f"{state} since codes were cleared: the fault is back."
        case CodeSays.MAY_BE_OLD:
            return f"{state}, and codes were not cleared after the repair, or nobody knows: it may be from before."
        case CodeSays.ONLY_THE_VEHICLE:
            return f"{state}: it stays until the vehicle itself finds the fault gone; by itself it is no return."
