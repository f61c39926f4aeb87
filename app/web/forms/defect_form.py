"""Recording a defect that somebody came upon: its kind, where, what was seen, and the job likely to have left it."""

from __future__ import annotations

from dataclasses import dataclass

from app.board.words import capital
from app.evidence.case import DefectSeen, Source
from app.problem import Problem
from app.rules.defects import DefectKind
from app.rules.words import DefectId
from app.vehicle.layout import PlaceId
from app.web.forms.evidence_fields import About, EvidenceFields, EvidenceSent, Known, evidence_fields, read_common
from app.web.forms.fields import LONGEST_TEXT, NONE, Field, FieldMaker, Problems, too_long
from app.web.forms.job_form import jobs_on_file
from app.web.views.said import say, sentence


class DefectSent(EvidenceSent):
    """`job`: the id of the job that is likely to have left it behind ("" where nobody can say).

    `picture`: the name of the photo that came with the form when it was refused.
    """

    kind: str = ""
    place: str = ""
    words: str = ""
    job: str = ""
    picture: str = ""


@dataclass(frozen=True, slots=True)
class DefectEntry:
    """`brings`: the fault that the board then takes as found, in a sentence."""

    kind: str
    name: str
    means: str
    brings: str
    cautions: tuple[str, ...]
    place: Field | None
    words: Field
    job: Field
    photo: Field
    picture: str
    common: EvidenceFields


def defect_entry(sent: DefectSent, around: About, *, problems: Problems = NONE) -> DefectEntry:
    """The form for the kind chosen."""
    kind = _kind(sent, around)
    make = FieldMaker("defect", problems, focus_on="words")
    places = around.rules.defect_places(kind, around.layout)
    options = [(place, around.layout.in_words(place)) for place in places]
    jobs = [(entry.id, say(entry.said, around.layout, around.rules)) for entry in reversed(jobs_on_file(around))]
    return DefectEntry(
        kind=kind.id,
        name=capital(kind.name),
        means=sentence(kind.means),
        brings=_brings(kind, around),
        cautions=tuple(sentence(one) for one in kind.cautions),
        place=make.choice("place", "Where?", options=[("", "choose"), *options], chosen=sent.place)
        if len(options) > 1
        else None,
        words=make.line("words", "What was seen?", value=sent.words, hint="A few words, such as: front bolt missing."),
        job=make.choice(
            "job", "Likely left behind by which job?", options=[("", "nobody can say"), *jobs], chosen=sent.job
        ),
        photo=photo_field(make, sent.picture),
        picture=sent.picture,
        common=evidence_fields(make, sent, around=around, usual=Source.SEEN_HERE),
    )


def photo_field(make: FieldMaker, picture: str) -> Field:
    """`picture`: the name of a photo that came with this form already."""
    again = "The picture you sent is kept; choose another only to send that instead."
    return make.line("photo", "Photo", hint=again if picture else "A JPEG, PNG or WebP picture of at most 10 MB.")


def knows_kind(sent: DefectSent, around: About) -> bool:
    """Whether the rules know this kind of defect, and this vehicle has a place for it."""
    kind = around.rules.defects.get(DefectId(sent.kind))
    return kind is not None and bool(around.rules.defect_places(kind, around.layout))


def read_defect(sent: DefectSent, around: About) -> tuple[DefectSeen, Known] | Problems:
    """The defect with its visit, or everything that is wrong."""
    kind = _kind(sent, around)
    known, problems = read_common(sent, around)
    problems += too_long("words", sent.words, limit=LONGEST_TEXT)
    place = _place(sent, around.rules.defect_places(kind, around.layout), problems)
    if sent.job and sent.job not in {entry.id for entry in jobs_on_file(around)}:
        problems.append(Problem("job", "This job is no longer on file in this case.", "Choose one of the list."))
    if problems:
        return Problems(problems)
    return DefectSeen(kind.id, place, known.source, words=sent.words.strip(), note=known.note), known


def _place(sent: DefectSent, places: tuple[PlaceId, ...], problems: list[Problem]) -> PlaceId:
    if len(places) == 1 and not sent.place:
        return places[0]
    if sent.place not in places:
        missing = "The place is missing." if not sent.place else "It cannot be there."
        problems.append(Problem("place", missing, "Choose where."))
    return PlaceId(sent.place)


def _kind(sent: DefectSent, around: About) -> DefectKind:
    return around.rules.defects[DefectId(sent.kind)]


def _brings(kind: DefectKind, around: About) -> str:
    if kind.brings is None:
        return "It is kept on the history and speaks for no listed fault."
    return f"The board then takes this as found: {around.rules.causes[kind.brings].name}."
