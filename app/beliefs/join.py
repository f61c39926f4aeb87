"""Independent parts put together by products: quiet if all are quiet, on if any is on."""

from __future__ import annotations

import numpy as np

from app.beliefs.beliefs import Numbers


def join_columns(one: Numbers, other: Numbers) -> Numbers:
    """Last axis: quiet, and where it is followed, fired."""
    quiet = one[..., 0] * other[..., 0]
    if one.shape[-1] == 1:
        return quiet[..., None]
    fired = one[..., 1] * (other[..., 0] + other[..., 1]) + one[..., 0] * other[..., 1]
    return np.stack([quiet, fired], axis=-1)


def join_masses(one: Numbers, other: Numbers) -> Numbers:
    """The same for a trigger as well; the last axis but one is off, on."""
    off = join_columns(one[..., 0, :], other[..., 0, :])
    either = other[..., 0, :] + other[..., 1, :]
    on = join_columns(one[..., 1, :], either) + join_columns(one[..., 0, :], other[..., 1, :])
    return np.stack([off, on], axis=-2)


def leak_columns(leaks: Numbers, ways: int, halves: int) -> Numbers:
    """(columns, ways, halves): before any hypothesis a test fires by its leak alone."""
    both = np.stack([1.0 - leaks, leaks], axis=-1)[:, None, :halves]
    return np.repeat(both, ways, axis=1)


def as_masses(columns: Numbers) -> Numbers:
    """A column without its trigger: all of it off."""
    return np.stack([columns, np.zeros_like(columns)], axis=-2)
