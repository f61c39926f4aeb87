"""The cheapest possible policy of a small problem, by exact dynamic programming, and the cost of following advice."""

from __future__ import annotations

from functools import cache

import numpy as np

from app.advice.expected_cost import advise
from app.advice.plan import Cover, Covers, Repair, Situation, Test
from app.advice.small import TableBelief, World


def a_problem(seed: int, *, faults: int = 5, tests: int = 5, single: bool = False) -> tuple[TableBelief, Situation]:
    """Seeded: faults with chances, tests that show some of them, shared covers."""
    dice = np.random.default_rng(seed)
    names = [f"fault-{n}" for n in range(faults)]
    priors = dice.dirichlet(np.ones(faults)) * (1.0 if single else 0.8)
    covers = {f"cover-{n}": Cover(float(dice.uniform(5, 40)), float(dice.uniform(5, 40))) for n in range(3)}

    def behind() -> Covers:
        return frozenset(name for name in covers if dice.random() < 0.35)

    chances: dict[World, float] = {}
    for mask in range(1, 1 << faults):
        world = frozenset(name for n, name in enumerate(names) if mask >> n & 1)
        if single and len(world) > 1:
            continue
        inside = [priors[n] if mask >> n & 1 else (1.0 if single else 1.0 - priors[n]) for n in range(faults)]
        chances[world] = float(np.prod(inside))
    whole = sum(chances.values())
    chances = {world: chance / whole for world, chance in chances.items()}
    shown = {
        f"test-{n}": {name: float(dice.choice([0.0, 0.0, 0.7, 0.92, 0.99])) for name in names} for n in range(tests)
    }
    abnormal = {
        test: {w: 1.0 - 0.97 * float(np.prod([1.0 - strengths[name] for name in w])) for w in chances}
        for test, strengths in shown.items()
    }
    repairs = tuple(Repair(n, frozenset({n}), float(dice.uniform(20, 200)), behind()) for n in names)
    some = tuple(Test(name, float(dice.uniform(2, 40)), behind()) for name in shown)
    return TableBelief(chances, abnormal), Situation(some, repairs, covers, none_of_these=600.0)


class Followed:
    """Expected costs from the start: of the optimum, of the advice, and of the plain order without a test."""

    def __init__(self, belief: TableBelief, situation: Situation) -> None:
        self.belief, self.situation = belief, situation
        self.tests = {test.id: test for test in situation.tests}
        self.worlds = list(belief.chances)

    def _believed(self, seen: tuple[tuple[str, int], ...], done: World) -> tuple[float, TableBelief] | None:
        joint = dict(self.belief.chances)
        for test, outcome in seen:
            for world in joint:
                shown = self.belief.abnormal[test][world]
                joint[world] *= shown if outcome else 1.0 - shown
        joint = {w: c for w, c in joint.items() if not w <= done}
        whole = sum(joint.values())
        if whole <= 1e-15:
            return None
        return whole, TableBelief({w: c / whole for w, c in joint.items()}, self.belief.abnormal)

    def optimum(self) -> float:
        """Over all policies: the state is what was seen, what was repaired, what is open."""

        @cache
        def cheapest(seen: frozenset[tuple[str, int]], done: World, open: Covers) -> float:
            believed = self._believed(tuple(sorted(seen)), done)
            if believed is None:
                return 0.0
            _, belief = believed
            left = [r for r in self.situation.repairs if not r.cures <= done]
            best = self.situation.none_of_these if not left else float("inf")
            for repair in left:
                cost = repair.cost + self.situation.access(repair.covers, open)
                (cured,) = belief.cured([[repair, *(Repair(n, frozenset({n}), 0.0) for n in done)]])
                best = min(best, cost + (1.0 - cured) * cheapest(seen, done | repair.cures, open | repair.covers))
            for test in self.situation.tests:
                if any(test.id == name for name, _ in seen):
                    continue
                cost = test.cost + self.situation.access(test.covers, open)
                for outcome in (0, 1):
                    shown = sum(c * belief.abnormal[test.id][w] for w, c in belief.chances.items())
                    chance = shown if outcome else 1.0 - shown
                    if chance > 1e-15:
                        cost += chance * cheapest(seen | {(test.id, outcome)}, done, open | test.covers)
                best = min(best, cost)
            return best

        return cheapest(frozenset(), frozenset(), self.situation.open)

    def advised(self, *, testing: bool = True) -> float:
        """Following the advice at every step; without `testing`, the plain repair order."""

        def cost(seen: tuple[tuple[str, int], ...], done: World, open: Covers) -> float:
            believed = self._believed(seen, done)
            if believed is None:
                return 0.0
            _, belief = believed
            left = tuple(r for r in self.situation.repairs if not r.cures <= done)
            if not left:
                return self.situation.none_of_these
            used = {name for name, _ in seen}
            tests = tuple(t for t in self.situation.tests if t.id not in used) if testing else ()
            beliefs = _Done(belief, done)
            now = Situation(tests, left, self.situation.covers, self.situation.none_of_these, open)
            advice = advise(beliefs, now)
            if advice.test is not None:
                test = advice.test
                whole = test.cost + self.situation.access(test.covers, open)
                shown = sum(c * belief.abnormal[test.id][w] for w, c in belief.chances.items())
                for outcome, chance in ((1, shown), (0, 1.0 - shown)):
                    if chance > 1e-15:
                        whole += chance * cost((*seen, (test.id, outcome)), done, open | test.covers)
                return whole
            repair = advice.repair
            assert repair is not None
            (cured,) = beliefs.cured([[repair]])
            price = repair.cost + self.situation.access(repair.covers, open)
            return price + (1.0 - cured) * cost(seen, done | repair.cures, open | repair.covers)

        return cost((), frozenset(), self.situation.open)


class _Done:
    """A belief in which some repairs were done already."""

    def __init__(self, belief: TableBelief, done: World) -> None:
        self.belief, self.done = belief, done

    def cured(self, sets):
        before = [Repair(name, frozenset({name}), 0.0) for name in self.done]
        return self.belief.cured([[*before, *repairs] for repairs in sets])

    def outcomes(self, test):
        for chance, then in self.belief.outcomes(test):
            yield chance, _Done(then, self.done)
