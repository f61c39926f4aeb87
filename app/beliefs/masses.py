"""How likely each trigger is off and on in each column, met with all the rest at the node where its members meet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Flags, Indices, Numbers
from app.beliefs.climb import Pieces, Route, climb, no_pieces, route
from app.beliefs.downward import Downward, downward
from app.beliefs.growth import Wanted
from app.beliefs.leaves import Leaves, Shoots, flagged, leaves_of, row_sums
from app.beliefs.tree import Tree
from app.beliefs.triggers import Trigger
from app.beliefs.upward import Upward, once, portions

MOST_MET = 1 << 18
KEEPS_DIGITS = 1.0 / 64.0
"""A difference is taken where so large a part of what it is taken from is left."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Pairs of a trigger and a column."""

    triggers: Sequence[Trigger]
    trigger: Indices
    column: Indices
    complaint: frozenset[int]


def masses(below: Upward, asked: Asked) -> Numbers:
    """(pairs, off/on): shares of 1 in each column, 0 and 0 where its reports are impossible.

    One of the two is followed: on, or off where most hypotheses can turn the trigger on. The other is what that leaves
    of 1; where it leaves little, the other is followed as well.
    """
    routes = _routes(below.tree, asked.triggers, np.unique(asked.trigger).tolist())
    needed = np.zeros(below.ids.shape, dtype=np.bool_)
    needed[[routes[t].meets for t in asked.trigger.tolist()], asked.column] = True
    down = downward(below, needed)
    on = np.array(
        [t in routes and 2 * len(routes[t].leaves) <= len(below.tree.hypotheses) for t in range(len(asked.triggers))]
    )
    share = _shares(down, asked, routes, on)
    found = np.stack([1.0 - share, share], axis=1)
    large = np.flatnonzero(share > 1.0 - KEEPS_DIGITS)
    if large.size:
        some = replace(asked, trigger=asked.trigger[large], column=asked.column[large])
        found[large, 0] = _shares(down, some, routes, ~on)
    found[below.whole()[0][asked.column] == 0.0] = 0.0
    off = ~on[asked.trigger]
    found[off] = found[off, ::-1]
    return found


def _shares(down: Downward, asked: Asked, routes: dict[int, Route], on: Flags) -> Numbers:
    """(pairs,): the share of each column in which the trigger is on; off where `on` (triggers,) says so."""
    below, used = down.below, np.unique(asked.trigger).tolist()
    order = np.argsort(asked.trigger, kind="stable")
    sizes = np.bincount(asked.trigger)[used].tolist()
    columns = dict(zip(used, portions(asked.column[order], sizes), strict=True))
    pieces = no_pieces(below.tree, on)
    _members(below, asked, pieces, ({t: routes[t] for t in used}, columns))
    climb(below, pieces, {t: routes[t] for t in used if routes[t].steps}, columns)
    piece = np.concatenate([pieces.of[t, routes[t].meets] for t in used])
    node = np.repeat([routes[t].meets for t in used], [columns[t].size for t in used])
    found = np.empty(asked.trigger.size)
    found[order] = _met(down, pieces, (node, asked.column[order], piece))
    return found


def _routes(tree: Tree, triggers: Sequence[Trigger], used: Sequence[int]) -> dict[int, Route]:
    """Triggers with the same members go the same way."""
    leaf = {hypothesis: node for node, hypothesis in enumerate(tree.hypotheses)}
    members = {t: frozenset(leaf[h] for h in triggers[t].touches if h in leaf) for t in used}
    ways = {leaves: route(leaves, tree, leaping=True) for leaves in set(members.values())}
    return {t: ways[leaves] for t, leaves in members.items()}


def _met(down: Downward, pieces: Pieces, at: tuple[Indices, Indices, Indices]) -> Numbers:
    """Each piece as a share of all that its node is, both met with what they are worth."""
    node, column, piece = at
    below = down.below
    shelf = np.array(below.tree.shelf)[node]
    found = np.zeros(node.size)
    for one in np.unique(shelf).tolist():
        here = np.flatnonzero(shelf == one)
        worths, wholes, parts = (kept[one].vectors for kept in (down.shelves, below.shelves, pieces.shelves))
        room = max(1, MOST_MET // worths.shape[0])
        for start in range(0, here.size, room):
            some = here[start : start + room]
            place = node[some], column[some]
            worth = worths[:, down.ids[place]]
            whole = np.einsum("tn,tn->n", wholes[:, below.ids[place]], worth)
            part = np.einsum("tn,tn->n", parts[:, piece[some]], worth)
            found[some] = np.divide(part, whole, out=np.zeros_like(part), where=whole > 0.0)
    return found


def _members(below: Upward, asked: Asked, pieces: Pieces, ways: tuple[dict[int, Route], dict[int, Indices]]) -> None:
    """The pieces of all triggers at their members' leaves, shelf by shelf."""
    routes, columns = ways
    by_shelf: dict[tuple[int, bool], list[tuple[int, int]]] = {}
    for t, its in routes.items():
        trigger = asked.triggers[t]
        for node in its.leaves:
            follows = trigger.event >= 0 and below.tree.hypotheses[node] in trigger.inside
            by_shelf.setdefault((below.tree.shelf[node], follows), []).append((t, node))
    for (shelf, follows), members in by_shelf.items():
        _leaf_pieces(below, asked, pieces, (shelf, follows, members, columns))


def _leaf_pieces(
    below: Upward,
    asked: Asked,
    pieces: Pieces,
    members: tuple[int, bool, list[tuple[int, int]], dict[int, Indices]],
) -> None:
    shelf, follows, those, columns = members
    sizes = [columns[t].size for t, _ in those]
    member = np.repeat(np.arange(len(those)), sizes)
    leaf = np.concatenate([below.ids[node, columns[t]] for t, node in those])
    wanted = below.wanted[shelf]
    keys, place = once(member * len(wanted) + leaf)
    which, item = np.divmod(keys, len(wanted))
    numbers = np.array([t for t, _ in those])[which]
    triggers, on = [asked.triggers[t] for t in numbers.tolist()], pieces.on[numbers]
    if follows:
        views = [(*wanted[at][:2], trigger.event) for at, trigger in zip(item.tolist(), triggers, strict=True)]
        vectors = _followed(views, triggers, below.shoots[shelf], on)
    else:
        views = [wanted[at] for at in item.tolist()]
        vectors = flagged(below.leaves[shelf], item, _flags(views, triggers, below.absorbed, on))
        _blame(vectors, triggers, (below.tree.scopes[shelf], asked.complaint), on)
    first = pieces.shelves[shelf].add(vectors)
    for key, mine in zip(those, portions(first + place, sizes), strict=True):
        pieces.of[key] = mine


def _flags(views: Sequence[Wanted], triggers: Sequence[Trigger], absorbed: Absorbed, on: Flags) -> Numbers:
    """1 for each state in which the trigger can be on, item after item: a listed one, any that blames; or off."""
    return np.array(
        [
            float((state.index in trigger.touches[view[0]] or (sought and trigger.blames)) is sought)
            for view, trigger, sought in zip(views, triggers, on.tolist(), strict=True)
            for state in absorbed.hypotheses[view[0]].states
        ]
    )


def _blame(
    vectors: Numbers, triggers: Sequence[Trigger], scope: tuple[Sequence[int], frozenset[int]], on: Flags
) -> None:
    """Where a complaint's bit is explained, a leaf on the complaint has fired."""
    blaming = np.flatnonzero([trigger.blames for trigger in triggers])
    if not blaming.size:
        return
    mask = sum(1 << at for at, bit in enumerate(scope[0]) if bit in scope[1])
    fired = (np.arange(vectors.shape[0]) & mask) > 0
    vectors[:, blaming] *= fired[:, None] == on[blaming]


def _followed(views: Sequence[Wanted], triggers: Sequence[Trigger], shoots: Shoots, on: Flags) -> Numbers:
    """Where a switch can turn the event on: it has a bit of its own, the slowest."""
    absorbed = shoots.absorbed
    place: dict[Wanted, int] = {}
    items = np.array(
        [place.setdefault((h, context, absorbed.hypotheses[h].like[event]), len(place)) for h, context, event in views]
    )
    leaves: Leaves = leaves_of(list(place), shoots, followed=True)
    vectors = flagged(leaves, items, _flags(views, triggers, absorbed, on))
    half = vectors.shape[0] // 2
    switched: Numbers = row_sums(leaves.vectors[half:], leaves.starts)[:, items]
    return vectors[:half] + switched * on
