"""Timings belong in the bench: a busy machine must not turn a property red."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
