"""Test results of a visit in a case file: outcomes, or readings judged against a specification."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

from app.evidence.case import Outcome, Reading, Result, Source, Specification
from app.evidence.case_file_visit import VisitReading, place_named, read_places, read_source
from app.measurements.quantities import Quantity
from app.measurements.reading import read_reading
from app.measurements.verdict import verdict
from app.problem import Problem
from app.rules.section import Section
from app.rules.tests import Test
from app.rules.tree import Text
from app.rules.words import SituationId, TestId
from app.vehicle.layout import PlaceId


@dataclass(frozen=True, slots=True)
class _Said:
    """What one entry says about its test, before the places are told apart."""

    outcome: Outcome | None
    source: Source
    specification: Specification | None
    situations: dict[SituationId, bool]
    after_work: bool
    note: str


def read_results(visit: Section, reading: VisitReading) -> tuple[Result, ...]:
    return tuple(result for section in visit.listed("results") for result in _read_entry(section, reading))


def _read_entry(section: Section, reading: VisitReading) -> tuple[Result, ...]:
    """One entry: a test at one place or several, one result for each."""
    name = section.choice("test", reading.rules.tests, "test")
    if name not in reading.rules.tests:
        return ()
    section.what = f"test “{name}”"
    test = reading.rules.tests[TestId(name)]
    quantity = None if test.quantity is None else reading.rules.quantities[test.quantity]
    said = _read_said(section, test, quantity, reading=reading)
    results = tuple(
        _result(test.id, place, measured, said=said, section=section, quantity=quantity)
        for place, measured in _places(section, test, quantity, reading=reading)
    )
    section.close()
    return results


def _read_said(section: Section, test: Test, quantity: Quantity | None, *, reading: VisitReading) -> _Said:
    return _Said(
        outcome=_read_outcome(section, test),
        source=read_source(section, here=reading.here, usual=reading.usual),
        specification=_read_specification(section, quantity),
        situations=_read_situations(section, test, reading),
        after_work=section.yes("after work"),
        note=section.optional_text("note") or "",
    )


def _read_outcome(section: Section, test: Test) -> Outcome | None:
    """The outcome in general words or in the test's own two."""
    if not section.has("outcome"):
        return None
    words = {outcome.value: outcome for outcome in Outcome}
    words |= {test.normal_word: Outcome.NORMAL, test.abnormal_word: Outcome.ABNORMAL}
    return words.get(section.choice("outcome", words, "outcome"), Outcome.UNCERTAIN)


def _read_specification(section: Section, quantity: Quantity | None) -> Specification | None:
    if not section.has("specification"):
        return None
    limits = section.section("specification")
    low, high = _read_limit(limits, "low", quantity), _read_limit(limits, "high", quantity)
    if not limits.has("low") and not limits.has("high"):
        limits.notes.refuse(limits.where, "The specification has no limit.", "Give low, high or both, with units.")
    if low is not None and high is not None and low > high:
        limits.refuse("high", "The upper limit lies below the lower one.", "Swap them.")
        low = None
    specification = Specification(low, high, limits.text("from"))
    limits.close()
    return specification


def _read_limit(limits: Section, key: str, quantity: Quantity | None) -> float | None:
    typed = limits.optional_text(key)
    if typed is None or quantity is None:
        return None
    read = read_reading(typed, quantity, limits.line(key))
    if isinstance(read, Problem):
        limits.notes.problems.append(read)
        return None
    return read.value


def _read_situations(section: Section, test: Test, reading: VisitReading) -> dict[SituationId, bool]:
    if not section.has("situations"):
        return {}
    said = section.section("situations")
    for name in said.table.entries:
        said.known(name, reading.rules.situations, kind="situation", where=said.line(name))
    return {SituationId(name): said.yes(name) for name in said.table.entries}


def _places(
    section: Section, test: Test, quantity: Quantity | None, *, reading: VisitReading
) -> Iterator[tuple[PlaceId, Reading | None]]:
    """Each place with its reading: from `readings` by place, or from `at` and `reading`."""
    if section.has("readings"):
        by_place = section.section("readings")
        if section.has("at") or section.has("reading"):
            section.refuse("readings", "“readings” already says where and what.", "Leave out “at” and “reading”.")
        for name in by_place.table.entries:
            place = place_named(Text(name, by_place.line(name)), section, test.at, layout=reading.layout)
            yield place, _read_reading(by_place, name, quantity)
        return
    places = read_places(section, "at", test.at, layout=reading.layout)
    measured = _read_reading(section, "reading", quantity)
    if measured is not None and len(places) > 1:
        section.refuse("reading", "One reading cannot be of several places.", "Write readings: {place: reading}.")
    for place in places:
        yield place, measured


def _read_reading(section: Section, key: str, quantity: Quantity | None) -> Reading | None:
    typed = section.optional_text(key)
    if typed is None:
        return None
    if quantity is None:
        section.refuse(key, "Nothing is read on a gauge in this test.", "Say the outcome instead.")
        return None
    read = read_reading(typed, quantity, section.line(key))
    if isinstance(read, Problem):
        section.notes.problems.append(read)
        return None
    return Reading(read.typed, read.value, read.unit, read.resolution)


def _result(
    test: TestId,
    place: PlaceId,
    measured: Reading | None,
    *,
    said: _Said,
    section: Section,
    quantity: Quantity | None,
) -> Result:
    outcome, weights = said.outcome, None
    if outcome is None and measured is not None and said.specification is not None:
        outcome, weights = _judged(measured, said.specification, quantity)
    if outcome is None:
        section.notes.refuse(
            section.where,
            f"What came out of test “{test}” is not said.",
            "Add “outcome”, or a reading with its specification.",
        )
    return Result(
        test=test,
        place=place,
        outcome=outcome or Outcome.UNCERTAIN,
        source=said.source,
        reading=measured,
        specification=said.specification,
        weights=weights,
        situations=said.situations,
        after_work=said.after_work,
        note=said.note,
    )


def _judged(
    measured: Reading, limits: Specification, quantity: Quantity | None
) -> tuple[Outcome, tuple[float, float] | None]:
    """The outcome that follows from the reading; weights only where it is uncertain."""
    judged = verdict(
        measured.value,
        low=limits.low,
        high=limits.high,
        resolution=measured.resolution,
        possible=quantity.plausible if quantity else (-inf, inf),
    )
    outcome = Outcome(judged.outcome)
    return outcome, judged.weights if outcome is Outcome.UNCERTAIN else None
