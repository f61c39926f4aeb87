"""Groups without needless nesting."""

from __future__ import annotations

from app.network.noisy_or import Effect, Group, Leaf


def group(acts: float, shown: tuple[Effect, ...]) -> tuple[Effect, ...]:
    """A group, or nothing where nothing hangs in it; one leaf alone takes the chance into its strength."""
    if not shown:
        return ()
    if len(shown) == 1 and isinstance(shown[0], Leaf):
        return (Leaf(shown[0].finding, acts * shown[0].strength),)
    return (Group(acts, shown),)
