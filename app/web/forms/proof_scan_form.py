"""Recording a scan after the repair: the readiness of the monitors, and the codes found."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.evidence.case import CodeState, MonitorState, ScanSeen, Source
from app.problem import Problem
from app.rules.section import capital
from app.web.forms.code_form import CODE
from app.web.forms.evidence_fields import YES_NO_UNKNOWN, EvidenceSent, one_of
from app.web.forms.fields import LONGEST_TEXT, NONE, Field, FieldMaker, Problems, too_long
from app.web.forms.proof_fields import AfterRepair, read_after, source_field

MOST_CODES = 40
STORED = (CodeState.PENDING, CodeState.CONFIRMED, CodeState.PERMANENT)
SOURCES_OF_SCANS = (Source.MEASURED_HERE, Source.PAPER, Source.TOLD)


class ScanSent(EvidenceSent):
    """Monitors come as `monitor_<id>`."""

    day: str = ""
    codes: str = ""
    cleared: str = ""


@dataclass(frozen=True, slots=True)
class ScanEntry:
    """`behind`: the monitors behind the complaint; `others`: all others."""

    visit: Field
    day: Field
    cleared: Field
    behind: tuple[Field, ...]
    others: tuple[Field, ...]
    others_open: bool
    codes: Field
    source: Field
    note: Field


def scan_entry(sent: ScanSent, about: AfterRepair, *, problems: Problems = NONE, focus: str = "") -> ScanEntry:
    make = FieldMaker("scan", problems, focus_on=focus)
    said = sent.extra("monitor_")
    states = [*((state.value, state.value) for state in MonitorState), ("", "not read")]
    monitors = tuple(
        make.choice(f"monitor_{one.id}", capital(one.name), options=states, chosen=said.get(one.id, ""))
        for one in about.monitors
    )
    others = monitors[about.behind :]
    return ScanEntry(
        visit=make.choice("visit", "After which repair?", options=about.repairs, chosen=sent.visit),
        day=make.line("day", "Day", value=sent.day, hint="Leave empty if not known."),
        cleared=make.choice(
            "cleared", "Were codes cleared since the repair?", options=YES_NO_UNKNOWN, chosen=sent.cleared
        ),
        behind=monitors[: about.behind],
        others=others,
        others_open=any(field.problem or said.get(field.name[8:]) for field in others),
        codes=make.line(
            "codes", "Codes found", value=sent.codes, hint="One per line with its state, such as: P0303 pending."
        ),
        source=source_field(make, sent.source, SOURCES_OF_SCANS),
        note=make.line("note", "Note", value=sent.note),
    )


def read_scan(sent: ScanSent, about: AfterRepair, *, now: datetime) -> tuple[ScanSeen, str] | Problems:
    """The scan and the visit of its repair, or everything that is wrong."""
    problems: list[Problem] = []
    after = read_after(sent, sent.day, about, now=now, problems=problems, usual=Source.MEASURED_HERE)
    monitors, codes = _monitors(sent, about, problems), _codes(sent.codes, problems)
    if sent.cleared not in dict(YES_NO_UNKNOWN):
        problems.append(Problem("cleared", "It is not said whether they were cleared.", "Choose one."))
    if not problems and not monitors and not codes:
        mend = "Read the readiness too: without it a scan without codes proves nothing."
        problems.append(Problem("codes", "Neither a monitor nor a code was read.", mend))
    if problems:
        return Problems(problems)
    return ScanSeen(
        day=after.day,
        source=after.source,
        monitors=monitors,
        codes=codes,
        cleared={"yes": True, "no": False}.get(sent.cleared),
        note=sent.note.strip(),
    ), after.visit


def _monitors(sent: ScanSent, about: AfterRepair, problems: list[Problem]) -> dict[str, MonitorState]:
    known = {one.id for one in about.monitors}
    found: dict[str, MonitorState] = {}
    for id, word in sent.extra("monitor_").items():
        state = one_of(MonitorState, word)
        if not word:
            continue
        if id not in known:
            problems.append(Problem("monitors", f"There is no monitor “{id[:40]}” here.", "Choose from the list."))
        elif state is None:
            problems.append(Problem(f"monitor_{id}", f"“{word[:40]}” is no state of a monitor.", "Choose one."))
        else:
            found[id] = state
    return found


def _codes(typed: str, problems: list[Problem]) -> dict[str, CodeState]:
    problems += too_long("codes", typed, limit=LONGEST_TEXT)
    found: dict[str, CodeState] = {}
    lines = [line.split() for line in typed.upper().splitlines() if line.strip()]
    if len(lines) > MOST_CODES:
        problems.append(Problem("codes", f"These are {len(lines)} lines.", f"At most {MOST_CODES}."))
        return {}
    for code, *rest in lines:
        state = one_of(CodeState, " ".join(rest).lower())
        if not CODE.fullmatch(code):
            problems.append(Problem("codes", f"“{code[:20]}” is not a trouble code.", "Write such as: P0303 pending."))
        elif state not in STORED:
            mend = "Write pending, confirmed or permanent behind it."
            problems.append(Problem("codes", f"The state of {code} is missing.", mend))
        elif code in found and found[code] is not state:
            problems.append(Problem("codes", f"{code} stands there with two states.", "Keep the graver one."))
        else:
            found[code] = state
    return found
