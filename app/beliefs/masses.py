"""How likely each trigger is off and on in each column, met with all the rest at the node where its members meet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Indices, Numbers
from app.beliefs.climb import Pieces, Route, climb, no_pieces, route
from app.beliefs.downward import downward
from app.beliefs.growth import Wanted
from app.beliefs.leaves import Leaves, Shoots, leaves_of, sides
from app.beliefs.tree import Tree
from app.beliefs.triggers import Trigger
from app.beliefs.upward import Upward, once, portions

MOST_MET = 1 << 18


@dataclass(frozen=True, slots=True)
class Asked:
    """Pairs of a trigger and a column."""

    triggers: Sequence[Trigger]
    trigger: Indices
    column: Indices
    complaint: frozenset[int]


def masses(below: Upward, asked: Asked) -> Numbers:
    """(pairs, off/on): shares of 1 in each column, 0 and 0 where its reports are impossible."""
    used = np.unique(asked.trigger).tolist()
    routes = _routes(below.tree, asked.triggers, used)
    order = np.argsort(asked.trigger, kind="stable")
    sizes = np.bincount(asked.trigger)[used].tolist()
    columns = dict(zip(used, portions(asked.column[order], sizes), strict=True))
    pieces = _members(below, asked, routes, columns)
    climb(below, pieces, {t: its for t, its in routes.items() if its.steps}, columns)
    piece = np.concatenate([pieces.of[t, routes[t].meets] for t in used])
    node = np.repeat([routes[t].meets for t in used], [columns[t].size for t in used])
    found = np.empty((asked.trigger.size, 2))
    found[order] = _met(below, pieces, (node, asked.column[order], piece))
    return found


def _routes(tree: Tree, triggers: Sequence[Trigger], used: Sequence[int]) -> dict[int, Route]:
    """Triggers with the same members go the same way."""
    leaf = {hypothesis: node for node, hypothesis in enumerate(tree.hypotheses)}
    members = {t: frozenset(leaf[h] for h in triggers[t].touches if h in leaf) for t in used}
    ways = {leaves: route(leaves, tree, leaping=True) for leaves in set(members.values())}
    return {t: ways[leaves] for t, leaves in members.items()}


def _met(below: Upward, pieces: Pieces, at: tuple[Indices, Indices, Indices]) -> Numbers:
    node, column, piece = at
    needed = np.zeros(below.ids.shape, dtype=np.bool_)
    needed[node, column] = True
    down = downward(below, needed)
    shelf = np.array(below.tree.shelf)[node]
    found = np.zeros((node.size, 2))
    for one in np.unique(shelf).tolist():
        here = np.flatnonzero(shelf == one)
        worth, sides = down.shelves[one].vectors, (pieces.off[one].vectors, pieces.on[one].vectors)
        room = max(1, MOST_MET // worth.shape[0])
        for start in range(0, here.size, room):
            some = here[start : start + room]
            valued = worth[:, down.ids[node[some], column[some]]]
            for side, vectors in enumerate(sides):
                found[some, side] = np.einsum("tn,tn->n", vectors[:, piece[some]], valued)
    total = found.sum(axis=1, keepdims=True)
    shares: Numbers = np.divide(found, total, out=np.zeros_like(found), where=total > 0.0)
    return shares


def _members(below: Upward, asked: Asked, routes: dict[int, Route], columns: dict[int, Indices]) -> Pieces:
    """The pieces of all triggers at their members' leaves, shelf by shelf."""
    pieces = no_pieces(below.tree)
    by_shelf: dict[tuple[int, bool], list[tuple[int, int]]] = {}
    for t, its in routes.items():
        trigger = asked.triggers[t]
        for node in its.leaves:
            follows = trigger.event >= 0 and below.tree.hypotheses[node] in trigger.inside
            by_shelf.setdefault((below.tree.shelf[node], follows), []).append((t, node))
    for (shelf, follows), members in by_shelf.items():
        _leaf_pieces(below, asked, pieces, (shelf, follows, members, columns))
    return pieces


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
    triggers = [asked.triggers[those[at][0]] for at in which.tolist()]
    if follows:
        views = [(*wanted[at][:2], trigger.event) for at, trigger in zip(item.tolist(), triggers, strict=True)]
        off, on = _followed(views, triggers, below.shoots[shelf])
    else:
        views = [wanted[at] for at in item.tolist()]
        off, on = sides(below.leaves[shelf], item, _flags(views, triggers, below.absorbed))
        _blame(off, on, triggers, (below.tree.scopes[shelf], asked.complaint))
    first = pieces.add(shelf, off, on)
    for key, mine in zip(those, portions(first + place, sizes), strict=True):
        pieces.of[key] = mine


def _flags(views: Sequence[Wanted], triggers: Sequence[Trigger], absorbed: Absorbed) -> Numbers:
    """1 for each state that turns the trigger on by itself, item after item."""
    return np.array(
        [
            float(state.index in trigger.touches[view[0]])
            for view, trigger in zip(views, triggers, strict=True)
            for state in absorbed.hypotheses[view[0]].states
        ]
    )


def _blame(off: Numbers, on: Numbers, triggers: Sequence[Trigger], scope: tuple[Sequence[int], frozenset[int]]) -> None:
    """Where a complaint's bit is explained, a leaf on the complaint has fired."""
    blaming = np.flatnonzero([trigger.blames for trigger in triggers])
    if not blaming.size:
        return
    mask = sum(1 << at for at, bit in enumerate(scope[0]) if bit in scope[1])
    fired = np.flatnonzero(np.arange(off.shape[0]) & mask)[:, None]
    on[fired, blaming] = off[fired, blaming]
    off[fired, blaming] = 0.0


def _followed(views: Sequence[Wanted], triggers: Sequence[Trigger], shoots: Shoots) -> tuple[Numbers, Numbers]:
    """Where a switch can turn the event on: it has a bit of its own, the slowest."""
    absorbed = shoots.absorbed
    place: dict[Wanted, int] = {}
    items = np.array(
        [place.setdefault((h, context, absorbed.hypotheses[h].like[event]), len(place)) for h, context, event in views]
    )
    leaves: Leaves = leaves_of(list(place), shoots, followed=True)
    off, on = sides(leaves, items, _flags(views, triggers, absorbed))
    half = off.shape[0] // 2
    return off[:half], on[:half] + on[half:] + off[half:]
