"""From the leaves up: how likely exactly each set of bits is explained by all hypotheses below a node."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Indices, Numbers
from app.beliefs.contexts import Context
from app.beliefs.growth import NO_EVENT, Wanted
from app.beliefs.leaves import Leaves, Shoots, leaves_of, plain, shoots, varied
from app.beliefs.tree import Close, Merge, Tree
from app.beliefs.union import united

BLOCK = 512


class Shelf:
    """Vectors of one scope (2^bits, items), each times a power of two."""

    def __init__(self, bits: int) -> None:
        self.count = 0
        self._vectors: Numbers = np.empty((1 << bits, 0))
        self._lift: Indices = np.zeros(0, dtype=np.int64)

    @property
    def vectors(self) -> Numbers:
        return self._vectors[:, : self.count]

    @property
    def lift(self) -> Indices:
        return self._lift[: self.count]

    def add(self, vectors: Numbers, lift: Indices | None = None) -> int:
        """The number of the first of these."""
        first, more = self.count, vectors.shape[1]
        if first == 0:
            self._vectors, self._lift = vectors, np.zeros(more, dtype=np.int64)
        elif first + more > self._lift.size:
            room = max(first + more, 2 * self._lift.size)
            grown = np.empty((self._vectors.shape[0], room))
            grown[:, :first] = self.vectors
            self._vectors, self._lift = grown, np.resize(self._lift, room)
        self.count = first + more
        self._vectors[:, first : self.count] = vectors
        self._lift[first : self.count] = 0 if lift is None else lift
        return first


@dataclass(frozen=True, slots=True)
class Closing:
    """One bit closed: per column whether its report is in force as everywhere (0) or not (1), and the weights of both.

    `weights[way]`: what the unexplained half and the explained half are worth.
    """

    way: Indices
    weights: tuple[tuple[float, float], tuple[float, float]]


@dataclass(slots=True)
class Upward:
    """`ids` (nodes, columns): which vector of its shelf a node has in a column.

    `norm` · 2^`norm_power` (columns,): what was taken out of the leaves. `seen[n]`: the leaves of a shelf in order.
    """

    tree: Tree
    absorbed: Absorbed
    ids: Indices
    shelves: list[Shelf]
    leaves: dict[int, Leaves]
    wanted: dict[int, list[Wanted]]
    shoots: dict[int, Shoots]
    closing: dict[int, Closing]
    norm: Numbers
    norm_power: Indices

    @property
    def columns(self) -> int:
        return int(self.ids.shape[1])

    def whole(self) -> tuple[Numbers, Indices]:
        """Per column how likely its reports are, and times which power of two."""
        root = self.tree.nodes - 1
        shelf = self.shelves[self.tree.shelf[root]]
        found = shelf.vectors[0, self.ids[root]] * self.norm
        return found, shelf.lift[self.ids[root]] + self.norm_power


def upward(tree: Tree, contexts: Sequence[Context], absorbed: Absorbed) -> Upward:
    """Everything up to the root, for every context a column."""
    columns = len(contexts)
    pass_up = Upward(
        tree,
        absorbed,
        np.zeros((tree.nodes, columns), dtype=np.int64),
        [Shelf(len(scope)) for scope in tree.scopes],
        {},
        {},
        {},
        {},
        np.ones(columns),
        np.zeros(columns, dtype=np.int64),
    )
    _plant(pass_up, contexts)
    for layer in tree.layers:
        if isinstance(layer, Merge):
            _merge(pass_up, layer)
        else:
            for bit, _ in layer.bits:
                pass_up.closing[bit] = _closing(bit, contexts, absorbed)
            _close(pass_up, layer)
    return pass_up


def _plant(pass_up: Upward, contexts: Sequence[Context]) -> None:
    tree, absorbed = pass_up.tree, pass_up.absorbed
    changes = varied(contexts, absorbed)
    for shelf, nodes in tree.leaves_by_shelf():
        wanted = [plain(tree.hypotheses[node]) for node in nodes]
        for at, node in enumerate(nodes):
            pass_up.ids[node] = at
            for context, columns in changes.views(tree.hypotheses[node], absorbed):
                pass_up.ids[node, columns] = len(wanted)
                wanted.append((tree.hypotheses[node], context, NO_EVENT))
        pass_up.shoots[shelf] = shoots([tree.hypotheses[node] for node in nodes], tree.scopes[shelf], absorbed)
        leaves = leaves_of(wanted, pass_up.shoots[shelf], followed=False)
        pass_up.leaves[shelf], pass_up.wanted[shelf] = leaves, wanted
        pass_up.shelves[shelf].add(np.add.reduceat(leaves.vectors, leaves.starts, axis=1))
        _take_out(pass_up, leaves.totals[pass_up.ids[nodes.start : nodes.stop]])


def _take_out(pass_up: Upward, totals: Numbers) -> None:
    """Multiply these (leaves, columns) into the norm."""
    for start in range(0, totals.shape[0], BLOCK):
        mantissa, lift = np.frexp(totals[start : start + BLOCK])
        pass_up.norm, more = np.frexp(pass_up.norm * mantissa.prod(axis=0))
        pass_up.norm_power = pass_up.norm_power + lift.sum(axis=0) + more


def _closing(bit: int, contexts: Sequence[Context], absorbed: Absorbed) -> Closing:
    """A bit whose report is out of force is worth the same either way; that of a test counts where it has fired."""
    if bit == absorbed.fired_bit:
        way = [int(context.fired >= 0) for context in contexts]
        return Closing(np.array(way), ((1.0, 1.0), (0.0, 1.0)))
    way = [int(bit in context.removed) for context in contexts]
    if_absent, if_present = absorbed.weigh[bit]
    leak = absorbed.leaks[bit]
    return Closing(np.array(way), ((if_absent * (1.0 - leak) + if_present * leak, if_present), (1.0, 1.0)))


def _merge(pass_up: Upward, layer: Merge) -> None:
    left, right, out = (pass_up.shelves[shelf] for shelf in layer.shelves)
    ids = pass_up.ids
    pairs, place = once(ids[layer.left] * right.count + ids[layer.right])
    one, other = np.divmod(pairs, right.count)
    vectors = united(layer.joint, left.vectors[:, one], right.vectors[:, other])
    first = out.add(vectors, left.lift[one] + right.lift[other])
    ids[layer.out : layer.out + layer.left.size] = first + place


def _close(pass_up: Upward, layer: Close) -> None:
    below, out = (pass_up.shelves[shelf] for shelf in layer.shelves)
    ways = ways_of(layer, pass_up)
    pairs, place = once(pass_up.ids[layer.node] << len(layer.bits) | ways)
    item, way = pairs >> len(layer.bits), pairs & (1 << len(layer.bits)) - 1
    vectors = closed(layer, below.vectors[:, item], way, pass_up)
    lift = np.frexp(vectors.max(axis=0))[1].astype(np.int64)
    first = out.add(np.ldexp(vectors, -lift), below.lift[item] + lift)
    pass_up.ids[layer.out] = first + place


def ways_of(layer: Close, pass_up: Upward) -> Indices:
    """(columns,): for each closed bit whether its report is in force, as a mask."""
    ways = np.zeros(pass_up.columns, dtype=np.int64)
    for at, (bit, _) in enumerate(layer.bits):
        ways |= pass_up.closing[bit].way << at
    return ways


def closed(layer: Close, vectors: Numbers, ways: Indices, pass_up: Upward) -> Numbers:
    """Both halves of each bit weighed and added; `ways` (items,)."""
    items = vectors.shape[1]
    for at, (bit, position) in enumerate(layer.bits):
        weights = np.array(pass_up.closing[bit].weights)[ways >> at & 1]
        halves = vectors.reshape(-1, 2, 1 << position, items)
        vectors = (halves[:, 0] * weights[:, 0] + halves[:, 1] * weights[:, 1]).reshape(-1, items)
    return vectors


def portions(numbers: Indices, sizes: Iterable[int]) -> list[Indices]:
    """The numbers in portions of these sizes."""
    return [numbers[start:stop] for start, stop in pairwise(accumulate(sizes, initial=0))]


def once(keys: Indices) -> tuple[Indices, Indices]:
    """Each key once, and where among them each stands: `np.unique`, without what it does besides."""
    flat = keys.reshape(-1)
    order = flat.argsort()
    ordered = flat[order]
    fresh = np.ones(flat.size, dtype=np.bool_)
    np.not_equal(ordered[1:], ordered[:-1], out=fresh[1:])
    place = np.empty_like(order)
    place[order] = fresh.cumsum() - 1
    return ordered[fresh], place.reshape(keys.shape)
