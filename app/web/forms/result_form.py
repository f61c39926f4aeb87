"""Recording a result: test, place, outcome or reading; "all others clean" writes several results at once."""

from __future__ import annotations

from dataclasses import dataclass

from app.board.words import capital
from app.evidence.case import Outcome, Reading, Result, Source, Specification
from app.measurements.quantities import Quantity
from app.measurements.verdict import Verdict, verdict
from app.problem import Problem
from app.rules.tests import Test
from app.rules.words import SituationId, TestId
from app.vehicle.layout import PlaceId
from app.web.forms.evidence_fields import (
    YES_NO_UNKNOWN,
    About,
    EvidenceFields,
    EvidenceSent,
    evidence_fields,
    place_options,
    read_common,
    read_place,
)
from app.web.forms.fields import NONE, Field, FieldMaker, Problems
from app.web.forms.reading_fields import ReadingFields, ReadingSent, read_reading_fields, reading_fields
from app.web.views.said import sentence

OTHERS_CLEAN = "abnormal, all others clean"
ALL_CLEAN = "all clean"
BY_READING = "by reading"


class ResultSent(ReadingSent, EvidenceSent):
    """`outcome` is the button pressed. Blind situations come as `situation_<id>`."""

    test: str = ""
    place: str = ""
    outcome: str = ""
    after_work: str = ""


@dataclass(frozen=True, slots=True)
class Button:
    value: str
    label: str
    main: bool = False


@dataclass(frozen=True, slots=True)
class ResultEntry:
    """The form once a test is chosen."""

    test: str
    name: str
    measures: str
    method: str
    good_when: str
    covers: str
    cautions: tuple[str, ...]
    place: Field | None
    reading: ReadingFields | None
    situations: tuple[Field, ...]
    after_work: Field
    common: EvidenceFields
    buttons: tuple[Button, ...]


@dataclass(frozen=True, slots=True)
class Recorded:
    """What the form says, ready to write: one result, or one for each place."""

    results: tuple[Result, ...]
    visit: str
    minutes: float | None


def result_entry(sent: ResultSent, around: About, *, problems: Problems = NONE) -> ResultEntry:
    """The form for the test chosen, with what was typed and what is wrong with it."""
    test = _test(sent, around)
    make = FieldMaker("result", problems, focus_on="place")
    quantity = around.rules.quantities[test.quantity] if test.quantity else None
    return ResultEntry(
        test=test.id,
        name=capital(test.name),
        measures=test.measures,
        method=test.method,
        good_when=_good_when(test),
        covers=", ".join(around.rules.covers[cover].name for cover in test.needs_open),
        cautions=tuple(sentence(one) for one in test.cautions),
        place=_place_field(make, sent, around=around, test=test),
        reading=reading_fields(make, sent, quantity) if quantity else None,
        situations=_situations(make, sent, around=around, test=test),
        after_work=make.choice(
            "after_work",
            "When",
            options=[("", "before any work of this visit"), ("yes", "after the work")],
            chosen=sent.after_work,
        ),
        common=evidence_fields(
            make, sent, around=around, usual=Source.MEASURED_HERE if quantity else Source.SEEN_HERE, timed=True
        ),
        buttons=_buttons(test, several=len(around.layout.places(test.at)) > 1, quantity=quantity),
    )


def knows_test(sent: ResultSent, around: About) -> bool:
    return sent.test in around.rules.tests


def read_result(sent: ResultSent, around: About) -> Recorded | Problems:
    """The results to write, or everything that is wrong."""
    test = _test(sent, around)
    known, problems = read_common(sent, around)
    place = _read_place(sent, around, test=test, problems=problems)
    reading, limits = _reading(sent, around, test=test, problems=problems)
    judged = _judged(reading, limits, around.rules.quantities[test.quantity] if test.quantity else None)
    outcome = _outcome(sent, Outcome(judged.outcome) if judged else None, problems=problems)
    if problems or outcome is None:
        return Problems(problems)
    first = Result(
        test=test.id,
        place=place,
        outcome=outcome,
        source=known.source,
        reading=reading,
        specification=limits,
        weights=judged.weights if judged and outcome is Outcome.UNCERTAIN else None,
        situations=_given(sent, test),
        after_work=sent.after_work == "yes",
        note=known.note,
    )
    return Recorded((first, *_others(first, sent, around=around, test=test)), known.visit, known.minutes)


def _test(sent: ResultSent, around: About) -> Test:
    return around.rules.tests[TestId(sent.test)]


def _good_when(test: Test) -> str:
    rule = sentence(test.pass_rule)
    return f"{rule} Source: {sentence(test.pass_source)}" if test.pass_source else rule


def _place_field(make: FieldMaker, sent: ResultSent, *, around: About, test: Test) -> Field | None:
    options = place_options(around.layout, test.at)
    return make.choice("place", "Where?", options=options, chosen=sent.place) if len(options) > 1 else None


def _situations(make: FieldMaker, sent: ResultSent, *, around: About, test: Test) -> tuple[Field, ...]:
    """Each circumstance that can blind the test is asked for, with the reason why it matters."""
    reasons = {blind.situation: blind.reason for blind in test.blind_when}
    answers = sent.extra("situation_")
    return tuple(
        make.choice(
            f"situation_{id}",
            around.rules.situations[id].question,
            options=YES_NO_UNKNOWN,
            chosen=answers.get(id, ""),
            hint=reason,
        )
        for id, reason in reasons.items()
    )


def _given(sent: ResultSent, test: Test) -> dict[SituationId, bool]:
    answers = sent.extra("situation_")
    return {
        b.situation: answers[b.situation] == "yes" for b in test.blind_when if answers.get(b.situation) in ("yes", "no")
    }


def _buttons(test: Test, *, several: bool, quantity: Quantity | None) -> tuple[Button, ...]:
    judged = (Button(BY_READING, "Judge by the limits", main=True),) if quantity else ()
    plain = (
        Button(Outcome.ABNORMAL.value, test.abnormal_word, main=True),
        Button(Outcome.NORMAL.value, test.normal_word, main=True),
    )
    many = (
        Button(OTHERS_CLEAN, f"{test.abnormal_word}; all others: {test.normal_word}"),
        Button(ALL_CLEAN, f"all: {test.normal_word}"),
    )
    return (*judged, *plain, *(many if several else ()), Button(Outcome.UNCERTAIN.value, "not sure"))


def _read_place(sent: ResultSent, around: About, *, test: Test, problems: list[Problem]) -> PlaceId:
    places = around.layout.places(test.at)
    if sent.outcome == ALL_CLEAN:
        return places[0]
    place = read_place(sent.place, around.layout, test.at)
    if isinstance(place, Problem):
        problems.append(place)
        return places[0]
    return place


def _reading(
    sent: ResultSent, around: About, *, test: Test, problems: list[Problem]
) -> tuple[Reading | None, Specification | None]:
    if test.quantity is None:
        return None, None
    if sent.outcome == ALL_CLEAN and sent.reading.strip():
        problems.append(
            Problem("reading", "One reading cannot stand for all places.", "Leave it empty, or record place by place.")
        )
    return read_reading_fields(sent, around.rules.quantities[test.quantity], problems=problems)


def _outcome(sent: ResultSent, by_limits: Outcome | None, *, problems: list[Problem]) -> Outcome | None:
    match sent.outcome:
        case "by reading":
            if by_limits is None and not problems:
                problems.append(
                    Problem(
                        "reading",
                        "A reading and at least one limit are needed to judge.",
                        "Type them, or touch the outcome.",
                    )
                )
            return by_limits
        case "normal" | "all clean":
            return _agreeing(Outcome.NORMAL, by_limits, problems=problems)
        case "abnormal" | "abnormal, all others clean":
            return _agreeing(Outcome.ABNORMAL, by_limits, problems=problems)
        case "uncertain":
            return Outcome.UNCERTAIN
        case _:
            problems.append(Problem("outcome", "The outcome is missing.", "Touch one of the outcomes."))
            return None


def _agreeing(said: Outcome, by_limits: Outcome | None, *, problems: list[Problem]) -> Outcome:
    """What is said and what the limits say must agree; an uncertain reading leaves it to the person."""
    if by_limits not in (None, Outcome.UNCERTAIN, said):
        inside = "inside" if by_limits is Outcome.NORMAL else "outside"
        problems.append(
            Problem(
                "reading",
                f"The reading lies {inside} the limits given.",
                "Check reading and limits, or judge by the limits.",
            )
        )
    return said


def _judged(reading: Reading | None, limits: Specification | None, quantity: Quantity | None) -> Verdict | None:
    """What the limits say of the reading; None without reading or limit."""
    if reading is None or limits is None or quantity is None:
        return None
    if limits.low is not None and limits.high is not None and limits.low > limits.high:
        return None
    possible = quantity.plausible
    return verdict(reading.value, low=limits.low, high=limits.high, resolution=reading.resolution, possible=possible)


def _others(first: Result, sent: ResultSent, *, around: About, test: Test) -> tuple[Result, ...]:
    """The sound twins: every other place of this test, recorded normal in one touch."""
    if sent.outcome not in (OTHERS_CLEAN, ALL_CLEAN):
        return ()
    return tuple(
        Result(
            test=test.id,
            place=place,
            outcome=Outcome.NORMAL,
            source=first.source,
            situations=first.situations,
            after_work=first.after_work,
            note=first.note,
        )
        for place in around.layout.places(test.at)
        if place != first.place
    )
