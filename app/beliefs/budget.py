"""How much work a plan is, counted before it is done; and what to leave out where that is too much."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from math import inf, prod

from app.beliefs.absorb import Absorbed
from app.beliefs.asking import EVERYTHING, Asked, AskedReading, Dropped
from app.beliefs.climb import route
from app.beliefs.left_out import LeftOut
from app.beliefs.plan import AS_REPORTED, Plan
from app.beliefs.tree import Merge, Tree
from app.network.noisy_or import Questions

A_SECOND = 1.5e8
"""Products in about a second of one core (six to seven nanoseconds each, arrays made and moved included)."""
MOST_WORK = 4.0 * A_SECOND
"""For one call, where the caller names no share."""
MOST_NEEDED = 0.5 * A_SECOND
"""For what is never left out; where that takes more, reports are set aside."""
PER_COLUMN, PER_PAIR = 1e5, 2e3
"""What a column and a pair take besides, in small arrays and lists."""
BRANCHING = 1.0 / 30.0
"""The share for branching over the states of tests' parents: it ranks tests hardly better than the plain sum."""


class Budget:
    """The products of each column and pair of a plan, over all parts and ways of the papers."""

    def __init__(self, plan: Plan, parts: Sequence[Tree], absorbed: Absorbed, ways: int) -> None:
        self.plan, self.absorbed, self.ways = plan, absorbed, ways
        self.parts = [_PartWork(tree, absorbed) for tree in parts]
        self._routes: dict[int, float] = {}
        self._spent_columns: set[int] = set()
        self._spent_pairs: set[int] = set()

    def needed(self, asked: Asked, *, book: bool = False) -> float:
        """The work of what is never left out: posteriors, events and blame under the evidence as reported."""
        pairs = {*(pair for states in asked.states for _, pair, _ in states), *asked.events, *asked.blamed}
        if not book and (bound := self._bound(1, pairs)) <= MOST_NEEDED:
            return bound
        return self.charge([AS_REPORTED], pairs, book=book)

    def at_most(self, asked: Asked, branching_at_most: float) -> float:
        """A bound that is quickly had: every hypothesis of a pair taken up to the root by itself.

        Infinite where branching over the states of tests' parents has to be weighed.
        """
        branches = (
            reading for series in asked.informing for reading in series if reading.exact and not reading.parents
        )
        branching = sum(self.branching(reading) for reading in branches)
        if branching > branching_at_most:
            return inf
        return self._bound(len(self.plan.columns), range(len(self.plan.pairs))) + branching

    def _bound(self, columns: int, pairs: Collection[int]) -> float:
        to_root = {h: work for part in self.parts for h, work in part.to_root().items()}
        whole, widest = sum(part.whole for part in self.parts), max((part.widest for part in self.parts), default=0.0)
        followed = 0.0
        for trigger, count in Counter(self.plan.pairs[pair][0] for pair in pairs).items():
            touches = self.plan.triggers[trigger].touches
            paths = sum(to_root[h] for h in touches) if len(touches) > 1 else 0.0
            followed += count * (3.0 * min(paths, whole) + widest * len(touches))
        return self.ways * ((1.0 + columns) * whole + followed) + PER_COLUMN * columns + PER_PAIR * len(pairs)

    def charge(self, columns: Iterable[int], pairs: Iterable[int], *, book: bool = True) -> float:
        """The work of what has not been charged before; booked, it will not be charged again."""
        new_pairs = set(pairs) - self._spent_pairs
        new_columns = {*columns, *(self.plan.pairs[pair][1] for pair in new_pairs)} - self._spent_columns
        if book:
            self._spent_pairs |= new_pairs
            self._spent_columns |= new_columns
        routes = sum(self._route(self.plan.pairs[pair][0]) for pair in new_pairs)
        listed = PER_COLUMN * len(new_columns) + PER_PAIR * len(new_pairs)
        return routes + listed + sum(self._column(column) for column in new_columns)

    def branching(self, reading: AskedReading) -> float:
        """The work of branching over the states of the test's parents, with the test absent and present."""
        test = self.plan.columns[reading.column][1]
        parents = set(self.absorbed.parents.get(test, ()))
        return 2.0 * self.ways * sum(part.branching(parents, self.absorbed) for part in self.parts)

    def _route(self, trigger: int) -> float:
        if trigger not in self._routes:
            touches = self.plan.triggers[trigger].touches
            self._routes[trigger] = self.ways * sum(part.route(touches) for part in self.parts)
        return self._routes[trigger]

    def _column(self, column: int) -> float:
        """Through every part that sees a difference: up and down, for a changed context where it is changed only."""
        context, test = self.plan.columns[column]
        changed = self.plan.contexts[context].removed | self.plan.contexts[context].quiet | {test}
        everything = context == AS_REPORTED and test < 0
        seen = (part for part in self.parts if everything or not changed.isdisjoint(part.findings))
        return self.ways * (2.0 if everything else 1.0) * sum(part.whole for part in seen)


class _PartWork:
    """The products of one column, and of what is followed through it."""

    def __init__(self, tree: Tree, absorbed: Absorbed) -> None:
        self.tree = tree
        self.leaf = {hypothesis: node for node, hypothesis in enumerate(tree.hypotheses)}
        self.findings = {f for h in tree.hypotheses for f in absorbed.hypotheses[h].findings}
        self.whole = tree.work + tree.entries
        self.widest = float(max(1 << len(scope) for scope in tree.scopes))
        self.steps = [self._step(number) for number in range(len(tree.layers))]
        self._routes: dict[frozenset[int], float] = {frozenset(): 0.0}

    def to_root(self) -> dict[int, float]:
        """Of each hypothesis, all steps up."""
        work = [0.0] * self.tree.nodes
        for node in range(self.tree.nodes - 2, -1, -1):
            layer, above = self.tree.above[node]
            work[node] = self.steps[layer] + work[above]
        return {hypothesis: work[node] for hypothesis, node in self.leaf.items()}

    def route(self, hypotheses: Iterable[int]) -> float:
        """Up from them to where they meet: off, on, and off on one side with on at the other."""
        leaves = frozenset(self.leaf[h] for h in hypotheses if h in self.leaf)
        if leaves not in self._routes:
            its = route(leaves, self.tree)
            self._routes[leaves] = 3.0 * sum(self.steps[layer] for layer, _ in its.steps) + self.tree.held(its.meets)
        return self._routes[leaves]

    def branching(self, parents: set[int], absorbed: Absorbed) -> float:
        """Up from the parents, with as many vectors as there are ways the states below can be."""
        ways = {self.leaf[h]: len(absorbed.hypotheses[h].states) for h in parents if h in self.leaf}
        if not ways:
            return 0.0
        work = 2.0 * self.whole
        for number, node in route(list(ways), self.tree).steps:
            layer = self.tree.layers[number]
            below = (
                (layer.left[node - layer.out], layer.right[node - layer.out])
                if isinstance(layer, Merge)
                else (layer.node,)
            )
            ways[node] = prod(ways.get(n, 1) for n in below)
            work += ways[node] * self.steps[number]
        return work

    def _step(self, number: int) -> float:
        layer = self.tree.layers[number]
        return float(layer.joint.work) if isinstance(layer, Merge) else self.tree.held(layer.node)


def within(most: float, budget: Budget, asked: Asked) -> Dropped:
    """What to drop so that the work stays below `most`: information first, then old results, then tests.

    Of each kind the dearest first. Posteriors, events and blame are never dropped.
    """
    branching = BRANCHING * most
    if budget.at_most(asked, branching) <= most:
        return EVERYTHING
    left = most - budget.needed(asked, book=True)
    questions = _Questions(budget, asked)
    dropped: dict[str, frozenset[int]] = {}
    for kind, works in questions.in_order():
        kept, left = _cheapest(works, min(left, branching) if kind == "inexact" else left, questions)
        dropped[kind] = frozenset(works.keys() - kept)
    return Dropped(**{**dropped, "inexact": dropped["inexact"] | dropped["informing"]})


Places = tuple[list[int], list[int], float]
"""Columns, pairs, and work beside them."""


class _Questions:
    """Every question with its places, kind by kind, the last to be dropped first."""

    def __init__(self, budget: Budget, asked: Asked) -> None:
        self.budget, self.asked = budget, asked

    def in_order(self) -> Iterable[tuple[str, Mapping[int, Places]]]:
        """Tests, reports to leave out, old results, information by its sum, information by branching."""
        masses: dict[int, list[int]] = {}
        for (test, _), pair in self.asked.masses.items():
            masses.setdefault(test, []).append(pair)
        yield "tests", {t: ([column], masses.get(t, []), 0.0) for t, column in self.asked.columns.items()}
        yield "without", {n: ([], list(pairs.values()), 0.0) for n, pairs in enumerate(self.asked.without)}
        yield (
            "retests",
            {
                n: ([*r.columns.values()], [*r.events.values(), *r.masses.values()], 0.0)
                for n, r in enumerate(self.asked.retests)
            },
        )
        yield "informing", {n: self._series(readings) for n, readings in enumerate(self.asked.informing)}
        yield "inexact", {n: self._branches(readings) for n, readings in enumerate(self.asked.informing)}

    def _series(self, readings: Sequence[AskedReading]) -> Places:
        pairs = [pair for reading in readings for parent in reading.parents for pair in parent]
        return [reading.column for reading in readings], pairs, 0.0

    def _branches(self, readings: Sequence[AskedReading]) -> Places:
        branched = [reading for reading in readings if reading.exact and not reading.parents]
        return [], [], sum(self.budget.branching(reading) for reading in branched)


def _cheapest(works: Mapping[int, Places], left: float, questions: _Questions) -> tuple[set[int], float]:
    budget = questions.budget
    alone = {n: budget.charge(places[0], places[1], book=False) + places[2] for n, places in works.items()}
    kept = set()
    for n in sorted(works, key=lambda n: alone[n]):
        columns, pairs, more = works[n]
        work = budget.charge(columns, pairs, book=False) + more
        if work <= left:
            budget.charge(columns, pairs)
            left -= work
            kept.add(n)
    return kept, left


def counted(dropped: Dropped, questions: Questions, set_aside: int) -> LeftOut:
    """How much was dropped of each kind. A question that thinks no report away asks for the fate of a part."""
    parts = sum(not questions.without[number].findings for number in dropped.without)
    return LeftOut(
        len(dropped.tests),
        len(dropped.retests),
        len(dropped.without) - parts,
        parts,
        len(dropped.informing),
        set_aside,
    )
