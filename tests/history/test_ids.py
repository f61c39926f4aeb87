"""Ids made by the program, against RFC 9562 (UUIDs), section 5.7 and the example of appendix A.6."""

from datetime import UTC, datetime
from itertools import islice
from uuid import UUID

from app.history.ids import ids_from, new_id


def test_the_example_of_the_standard_begins_the_same_way():
    """A.6: 2022-02-22 14:22:22.00 GMT-05:00 gives 017F22E2-79B0-7CC3-98C4-DC0C0C07398F (read from memory);
    the first 48 bits are the time, the next four the version."""
    made = new_id(datetime(2022, 2, 22, 19, 22, 22, tzinfo=UTC))
    assert made.startswith("017f22e2-79b0-7")


def test_version_and_variant_are_the_standards():
    made = UUID(new_id(datetime(2026, 6, 1, tzinfo=UTC)))
    assert (made.version, made.variant) == (7, "specified in RFC 4122")


def test_ten_thousand_of_one_moment_sort_as_they_were_drawn():
    drawn = list(islice(ids_from(datetime(2026, 6, 1, tzinfo=UTC)), 10_000))
    assert drawn == sorted(drawn)
    assert len(set(drawn)) == len(drawn)


def test_a_later_moment_sorts_later():
    assert new_id(datetime(2026, 6, 1, tzinfo=UTC)) < new_id(datetime(2026, 6, 2, tzinfo=UTC))
