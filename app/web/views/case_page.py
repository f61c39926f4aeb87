"""The page of a case: its head, the form that records, and the board."""

from __future__ import annotations

from dataclasses import dataclass

from app.board.words import capital
from app.history.values import CaseOnFile, CaseState
from app.rules.library import Rules
from app.vehicle.layout import Layout
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.board_view import BoardView, BoardWords, Changed
from app.web.views.driving import DriveView, drive_view
from app.web.views.entries import EntryWords, moment
from app.web.views.entry_view import EntryFormView
from app.web.views.said import at_place

NOTHING_CHANGED = Changed()


@dataclass(frozen=True, slots=True)
class CaseHead:
    title: str
    vehicle: str
    history: str
    facts: tuple[str, ...]
    words: str
    where_we_stand: str
    new_visit: str
    earlier_work: str
    putting_back: str
    close: str
    close_words: str
    proof: str
    proof_words: str
    json: str


@dataclass(frozen=True, slots=True)
class CasePage:
    """`live` is read out by screen readers when it changes."""

    frame: Frame
    head: CaseHead
    live: str
    drive: DriveView
    entry: EntryFormView
    board: BoardView


def case_page(
    frame: Frame, scene: Scene, rules: Rules, *, entry: EntryFormView, moved: Changed = NOTHING_CHANGED, since: str = ""
) -> CasePage:
    """`since`: fingerprint of the board that `moved` is told against."""
    return CasePage(
        frame=frame,
        head=case_head(scene.on_file, rules),
        live=" ".join((entry.saved, *moved.sentences)).strip(),
        drive=drive_view(scene.board.may_drive, scene.on_file.details.may_drive, case_id=scene.on_file.id),
        entry=entry,
        board=board_view(scene, rules, moved, since),
    )


def board_view(scene: Scene, rules: Rules, moved: Changed, since: str = "") -> BoardView:
    words = EntryWords(scene.on_file.vehicle.id, scene.around.layout, rules, cases={}, from_case=scene.on_file.id)
    visits = words.visits(scene.timeline, only=_visits_of(scene))
    board = BoardWords(rules, scene.around.layout, scene.on_file.id, scene.fingerprint)
    ahead = "" if scene.board.looked_ahead else f"/cases/{scene.on_file.id}/ahead?since={since}"
    return board.view(scene.board, visits=visits, changed=moved, state=_state(scene.on_file), ahead=ahead)


def case_head(on_file: CaseOnFile, rules: Rules) -> CaseHead:
    layout = on_file.vehicle.vehicle.layout
    here = f"/cases/{on_file.id}"
    closed = on_file.state is CaseState.CLOSED
    return CaseHead(
        title=complaint_name(on_file, rules),
        vehicle=vehicle_words(on_file),
        history=f"/vehicles/{on_file.vehicle.id}",
        facts=tuple(fact for fact in (_customer(on_file), _reproduced(on_file), _engine(layout)) if fact),
        words=on_file.complaint_words,
        where_we_stand=f"{here}/where-we-stand",
        new_visit=f"/vehicles/{on_file.vehicle.id}/visits/new?case={on_file.id}",
        earlier_work=f"{here}/earlier-work",
        putting_back=f"{here}/putting-back",
        close=f"{here}/snapshots" if closed else f"{here}/close",
        close_words="Closed: how it ended" if closed else "Close the case",
        proof=f"{here}/proof",
        proof_words="Under proof" if on_file.state is CaseState.UNDER_PROOF else "Proof of repair",
        json=f"{here}/board.json",
    )


def complaint_name(on_file: CaseOnFile, rules: Rules) -> str:
    """The complaint as the rules name it, with its place."""
    symptom = rules.symptoms.get(on_file.details.complaint)
    name = symptom.name if symptom else on_file.details.complaint
    return f"{capital(name)}{at_place(on_file.details.complaint_place, on_file.vehicle.vehicle.layout)}"


def vehicle_words(on_file: CaseOnFile) -> str:
    vehicle = on_file.vehicle.vehicle
    return ", ".join(part for part in (vehicle.plate, vehicle.name) if part) or vehicle.vin


def _customer(on_file: CaseOnFile) -> str:
    return f"Customer: {on_file.vehicle.customer.name}" if on_file.vehicle.customer else ""


def _reproduced(on_file: CaseOnFile) -> str:
    under = f" ({', '.join(on_file.details.reproduced_conditions)})" if on_file.details.reproduced_conditions else ""
    said = {"yes": "Reproduced here", "no": "Tried, could not be reproduced", "not tried": "Not yet tried to reproduce"}
    return f"{said[on_file.details.reproduced.value]}{under}"


def _engine(layout: Layout) -> str:
    banks = " / ".join(" ".join(str(number) for number in bank) for bank in layout.banks)
    return f"Cylinders {banks}"


def _visits_of(scene: Scene) -> set[str]:
    """The case's visits, struck-out ones too: what was struck out stays readable."""
    return {visit.id for visit in scene.timeline.visits if scene.on_file.id in visit.cases}


def _state(on_file: CaseOnFile) -> str:
    proof = on_file.proof
    begun = f" Under proof since {moment(proof.begun_at)}, {proof.begun_by}." if proof else ""
    return f"Opened by {on_file.opened_by}, {moment(on_file.opened_at)}.{begun}"
