"""In which order hypotheses are put together: a tree with hypotheses as leaves.

Hypotheses that can explain the same bits stand next to each other and are put together in pairs, level by level.
What is left is put together bit by bit, the bit that ties the fewest others first. A bit whose parents are all below
a node is closed there: weighed by its report, and forgotten.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from heapq import heapify, heappop, heappush

import numpy as np

from app.beliefs.beliefs import Indices
from app.beliefs.shared_scopes import widened
from app.beliefs.union import Joint, joint

WIDE = 6
"""From so many bits on it pays to put together first what is asked about together."""


@dataclass(frozen=True, slots=True)
class Merge:
    """Nodes `left` and `right` put together, pair by pair; the new ones are numbered from `out`.

    `shelves`: where the vectors of left, right and new nodes are kept.
    """

    left: Indices
    right: Indices
    out: int
    joint: Joint
    shelves: tuple[int, int, int]

    @property
    def within(self) -> bool:
        """Whether leaves of one shelf are put together here."""
        return self.shelves[0] == self.shelves[2]

    def both(self) -> tuple[Indices, Indices, Indices]:
        """All nodes put together here, the other of each, and what the two make."""
        made = np.arange(self.out, self.out + self.left.size)
        left, right = self.left, self.right
        return np.concatenate([left, right]), np.concatenate([right, left]), np.concatenate([made, made])

    def below(self, node: int) -> tuple[int, ...]:
        """The two that make one of the new nodes."""
        return int(self.left[node - self.out]), int(self.right[node - self.out])


@dataclass(frozen=True, slots=True)
class Close:
    """The bits of one node weighed by their reports: the lowest first, each with its place once those before are gone.

    `shelves`: where the vectors of the node and of the new one, `out`, are kept.
    """

    node: int
    out: int
    bits: tuple[tuple[int, int], ...]
    shelves: tuple[int, int]

    def below(self, node: int) -> tuple[int, ...]:
        """The one that is closed."""
        return (self.node,)


Layer = Merge | Close


@dataclass(slots=True)
class Tree:
    """Nodes are numbered from the leaves up, the root last; vectors of one shelf have the same scope.

    `hypotheses[n]` is leaf n; leaves on one shelf follow each other. `above[n]`: number of the layer and its new node.
    `last_of[shelf]`: the node in which all leaves of a shelf are together.
    """

    hypotheses: list[int] = field(default_factory=list)
    scopes: list[tuple[int, ...]] = field(default_factory=list)
    shelf: list[int] = field(default_factory=list)
    layers: list[Layer] = field(default_factory=list)
    above: dict[int, tuple[int, int]] = field(default_factory=dict)
    last_of: dict[int, int] = field(default_factory=dict)

    @property
    def nodes(self) -> int:
        return len(self.shelf)

    @property
    def work(self) -> float:
        """Products for one column of all that is put together."""
        return sum(float(x.joint.work) * x.left.size for x in self.layers if isinstance(x, Merge))

    @property
    def entries(self) -> int:
        """Numbers held for one column."""
        return sum(1 << len(self.scopes[shelf]) for shelf in self.shelf)

    def held(self, node: int) -> float:
        """Numbers held for one column at this node."""
        return float(1 << len(self.scopes[self.shelf[node]]))

    def leaves_by_shelf(self) -> Iterator[tuple[int, range]]:
        """Each shelf with leaves, and which leaves."""
        start = 0
        for at in range(1, len(self.hypotheses) + 1):
            if at == len(self.hypotheses) or self.shelf[at] != self.shelf[start]:
                yield self.shelf[start], range(start, at)
                start = at


def grow(bits: Mapping[int, frozenset[int]], company: Iterable[frozenset[int]] = ()) -> Tree:
    """The tree over hypotheses, given the bits each can explain; `company`: sets that are asked about together."""
    alike: dict[tuple[int, ...], list[int]] = {}
    for hypothesis, own in widened(bits).items():
        alike.setdefault(tuple(sorted(own)), []).append(hypothesis)
    grower = _Grower(Tree())
    first: list[range] = []
    for scope, hypotheses in alike.items():
        first.append(grower.leaves(hypotheses, scope))
    smallest_first = sorted(set(company), key=lambda some: (len(some), sorted(some)))
    loose = [grower.paired(nodes, smallest_first) for nodes in first]
    grower.bit_by_bit(loose)
    return grower.tree


class _Blocks:
    """Leaves (0, 1, …) put together two by two, the least high first; new blocks are numbered on."""

    def __init__(self, leaves: Sequence[int]) -> None:
        self.above = list(range(len(leaves)))
        self.height = [0] * len(leaves)
        self.pairs: dict[int, tuple[int, int]] = {}

    def put_together(self, leaves: Iterable[int]) -> None:
        """Until these leaves are in one block."""
        waiting = [(self.height[block], block) for block in sorted({self._top(leaf) for leaf in leaves})]
        heapify(waiting)
        while len(waiting) > 1:
            (_, one), (_, other) = heappop(waiting), heappop(waiting)
            new = len(self.above)
            self.above.append(new)
            self.above[one] = self.above[other] = new
            self.height.append(1 + max(self.height[one], self.height[other]))
            self.pairs[new] = one, other
            heappush(waiting, (self.height[new], new))

    def levels(self) -> Iterator[dict[int, tuple[int, int]]]:
        """The blocks of each height with the two that make them, the lowest first."""
        found: dict[int, dict[int, tuple[int, int]]] = {}
        for block, pair in self.pairs.items():
            found.setdefault(self.height[block], {})[block] = pair
        yield from (found[height] for height in sorted(found))

    def _top(self, block: int) -> int:
        while self.above[block] != block:
            block = self.above[block]
        return block


class _Grower:
    def __init__(self, tree: Tree) -> None:
        self.tree = tree

    def leaves(self, hypotheses: Sequence[int], scope: tuple[int, ...]) -> range:
        tree = self.tree
        shelf = self._shelf(scope)
        first = tree.nodes
        tree.hypotheses += hypotheses
        tree.shelf += [shelf] * len(hypotheses)
        return range(first, tree.nodes)

    def paired(self, nodes: range, company: Sequence[frozenset[int]]) -> int:
        """Leaves of one shelf put together in pairs, level by level, on the same shelf."""
        shelf = self.tree.shelf[nodes[0]]
        scope = self.tree.scopes[shelf]
        alike = joint(scope, scope)
        blocks = _Blocks(nodes)
        if len(scope) >= WIDE:
            place = {self.tree.hypotheses[node]: at for at, node in enumerate(nodes)}
            for some in company:
                if len(mine := [place[h] for h in some if h in place]) > 1:
                    blocks.put_together(mine)
        blocks.put_together(range(len(nodes)))
        number = dict(enumerate(nodes))
        for level in blocks.levels():
            left, right = ([number[pair[side]] for pair in level.values()] for side in range(2))
            first = self._merge(left, right, alike, shelf)
            number |= {block: first + at for at, block in enumerate(level)}
        last = number[len(number) - 1]
        self.tree.last_of[shelf] = last
        return last

    def bit_by_bit(self, loose: list[int]) -> None:
        """Put together what shares a bit until every bit is closed, then the rest."""
        left = {node: self._mask(node) for node in loose}
        left = self._close_where_alone(left, left)
        while bits := _ties(left.values()):
            bit = min(bits, key=lambda bit: _price(bit, left.values()))
            tied = [node for node, mask in left.items() if mask >> bit & 1]
            rest = {node: mask for node, mask in left.items() if node not in tied}
            node = self._together(tied)
            rest[node] = self._mask(node)
            left = self._close_where_alone(rest, [node])
        if len(left) > 1:
            self._together(list(left))

    def _together(self, nodes: list[int]) -> int:
        """The two with the smallest scopes first."""
        waiting = sorted(nodes, key=lambda node: len(self._scope(node)), reverse=True)
        while len(waiting) > 1:
            one, other = waiting.pop(), waiting.pop()
            pattern = joint(self._scope(one), self._scope(other))
            node = self._merge([one], [other], pattern, self._shelf(pattern.scope))
            size = len(pattern.scope)
            at = next((at for at, x in enumerate(waiting) if len(self._scope(x)) <= size), len(waiting))
            waiting.insert(at, node)
        return waiting[0]

    def _close_where_alone(self, left: Mapping[int, int], nodes: Iterable[int]) -> dict[int, int]:
        """Close the bits of these nodes that no other node has."""
        found = dict(left)
        seen = shared = 0
        for mask in left.values():
            shared |= seen & mask
            seen |= mask
        for node in list(nodes):
            alone = found[node] & ~shared
            if alone:
                del found[node]
                new = self._close(node, alone)
                found[new] = self._mask(new)
        return found

    def _close(self, node: int, mask: int) -> int:
        tree = self.tree
        scope = self._scope(node)
        places = [at for at, bit in enumerate(scope) if mask >> bit & 1]
        bits = tuple((scope[at], at - gone) for gone, at in enumerate(places))
        shelf = self._shelf(tuple(bit for at, bit in enumerate(scope) if at not in places))
        out = tree.nodes
        tree.layers.append(Close(node, out, bits, (tree.shelf[node], shelf)))
        tree.above[node] = (len(tree.layers) - 1, out)
        tree.shelf.append(shelf)
        return out

    def _merge(self, left: Sequence[int], right: Sequence[int], pattern: Joint, shelf: int) -> int:
        tree = self.tree
        out = tree.nodes
        shelves = (tree.shelf[left[0]], tree.shelf[right[0]], shelf)
        tree.layers.append(Merge(np.array(left), np.array(right), out, pattern, shelves))
        for at, pair in enumerate(zip(left, right, strict=True)):
            tree.above |= dict.fromkeys(pair, (len(tree.layers) - 1, out + at))
        tree.shelf += [shelf] * len(left)
        return out

    def _shelf(self, scope: tuple[int, ...]) -> int:
        self.tree.scopes.append(scope)
        return len(self.tree.scopes) - 1

    def _scope(self, node: int) -> tuple[int, ...]:
        return self.tree.scopes[self.tree.shelf[node]]

    def _mask(self, node: int) -> int:
        return sum(1 << bit for bit in self._scope(node))


def _ties(masks: Iterable[int]) -> list[int]:
    every = 0
    for mask in masks:
        every |= mask
    return [bit for bit in range(every.bit_length()) if every >> bit & 1]


def _price(bit: int, masks: Iterable[int]) -> tuple[int, int, int]:
    """How many bits are tied together by putting together all that has this one."""
    tied = [mask for mask in masks if mask >> bit & 1]
    every = 0
    for mask in tied:
        every |= mask
    return every.bit_count(), len(tied), bit
