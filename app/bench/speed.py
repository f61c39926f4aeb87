"""How fast the engine is, beside general libraries on the same networks in the same run."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from statistics import median
from types import ModuleType

from app.advice.expected_cost import advise
from app.beliefs.beliefs import Beliefs
from app.beliefs.infer import infer
from app.bench.agrum import LARGEST_CLIQUE, Agrum, Tested
from app.bench.differences import relative
from app.bench.large_networks import Size, large, posteriors_only, whole_board, width
from app.bench.optimum import a_problem
from app.bench.peers import Missing, peer
from app.bench.pgm import Pgm
from app.bench.report import Cell, Goal, Report, Table, Taken
from app.bench.sizes import Sizes
from app.bench.timing import milliseconds
from app.network.noisy_or import NoisyOr, Questions

SMALL = Size(60, 40, 4, 10, reach=4, parents=(3, 8))
FULL = Size()
DENSE = Size(reach=12, parents=(30, 60))
MANY = Size(2000, 200, 20, 100, reach=6)
TINY = Size(20, 8, 4, 4, reach=4, parents=(3, 6))
NAMED = {"small": SMALL, "full": FULL, "dense": DENSE, "many": MANY, "tiny": TINY}
RANKED = 5
"""Tests that a peer ranks while the clock runs; its time for all is that many times as long as they are more."""
FAULTS, ACTIONS = 20, 40
NOT_ASKED = "–"


@dataclass(frozen=True, slots=True)
class Ours:
    """The engine on one network: width, and milliseconds for three sets of questions."""

    network: NoisyOr
    width: int
    posteriors: float
    ratios: float
    board: float
    believed: Beliefs


@dataclass(frozen=True, slots=True)
class Theirs:
    """A peer on one network, in milliseconds, and the largest relative difference; None: not asked, and `why`."""

    posteriors: float | None = None
    ranking: float | None = None
    apart: float = 0.0
    why: str = ""


def speed(sizes: Sizes) -> Report:
    """The engine on networks of every size, the peers on those they can do."""
    ours = {name: [our_times(network, sizes) for network in drawn(size, sizes)] for name, size in NAMED.items()}
    gum, pgmpy = peer("pyagrum"), peer("pgmpy", "pgmpy.inference", "pgmpy.models", "pgmpy.factors.discrete")
    theirs: list[tuple[str, str, list[Theirs]]] = []
    if not isinstance(gum, Missing):
        for name in ("small", "full", "dense"):
            for way, chains in (("pyAgrum, its own noisy-OR", False), ("pyAgrum, chains by hand", True)):
                asked = [agrum_times(gum, one, sizes, chains=chains) for one in ours[name]]
                theirs.append((name, way, asked))
    if not isinstance(pgmpy, Missing):
        theirs.append(("tiny", "pgmpy, variable elimination", [pgm_times(pgmpy, one, sizes) for one in ours["tiny"]]))
    tables = (_of_ours(ours, sizes), _of_theirs(ours, theirs))
    goals = (*_own_goals(ours), *_against(ours, theirs), _next_action(sizes))
    return Report("speed", tables, goals=goals, missing=tuple(str(p) for p in (gum, pgmpy) if isinstance(p, Missing)))


def drawn(size: Size, sizes: Sizes) -> list[NoisyOr]:
    return [large(sizes.seed + number, size) for number in range(sizes.drawn)]


def our_times(network: NoisyOr, sizes: Sizes) -> Ours:
    """Each call from the bare network on: nothing is kept between calls but what depends on shapes alone."""
    board = whole_board(network)
    ratios = replace(board, informing=())

    def taken(questions: Questions) -> float:
        return milliseconds(lambda: infer(network, questions), sizes.runs)

    believed = infer(network, board)
    assert isinstance(believed, Beliefs)
    times = taken(posteriors_only()), taken(ratios), taken(board)
    return Ours(network, width(network, board), *times, believed)


def agrum_times(gum: ModuleType, ours: Ours, sizes: Sizes, *, chains: bool) -> Theirs:
    """Posteriors of all, then each test assumed normal; the answers are compared with ours."""
    asked = Agrum(gum, ours.network, chains=chains)
    clique = asked.clique()
    if clique > LARGEST_CLIQUE:
        return Theirs(why=f"a table of 2^{clique} numbers")
    tests = list(ours.believed.tests)[:RANKED]

    def rank() -> list[Tested]:
        evidence = asked.evidence()
        return [asked.tested(test, evidence) for test in tests]

    apart = [relative(ours.believed.states[h][1], chance) for h, chance in asked.posteriors().items()]
    for test, tested in zip(tests, rank(), strict=True):
        apart.append(relative(ours.believed.tests[test].no, tested.normal))
        for h, chance in tested.posteriors.items():
            masses = ours.believed.masses[test, h]
            apart.append(relative(masses.on_absent / (masses.on_absent + masses.off_absent), chance))
    scale = len(ours.believed.tests) / max(len(tests), 1)
    return Theirs(
        milliseconds(asked.posteriors, sizes.runs), milliseconds(rank, sizes.runs) * scale, max(apart, default=0.0)
    )


def pgm_times(pgmpy: ModuleType, ours: Ours, sizes: Sizes) -> Theirs:
    asked = Pgm(pgmpy, ours.network)
    apart = [relative(ours.believed.states[h][1], chance) for h, chance in asked.posteriors().items()]
    return Theirs(milliseconds(asked.posteriors, sizes.runs), apart=max(apart, default=0.0))


def _of_ours(ours: dict[str, list[Ours]], sizes: Sizes) -> Table:
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (
            f"{name}: {NAMED[name]}",
            f"{min(one.width for one in some)} to {max(one.width for one in some)}",
            *(Taken(median(part(one) for one in some)) for part in (_posteriors, _ratios, _board)),
            sum(one.believed.left_out is not None for one in some),
        )
        for name, some in ours.items()
    )
    return Table(
        "Speed of the engine",
        ("network", "width", "posteriors", "+ ratios of all tests", "+ their information", "left something out"),
        rows,
        f"Median of {sizes.runs} runs, then of {sizes.drawn} networks; from the bare network to the answers.",
    )


def _posteriors(one: Ours) -> float:
    return one.posteriors


def _ratios(one: Ours) -> float:
    return one.ratios


def _board(one: Ours) -> float:
    return one.board


def _of_theirs(ours: dict[str, list[Ours]], theirs: Iterable[tuple[str, str, list[Theirs]]]) -> Table:
    rows: list[tuple[Cell, ...]] = []
    for name, way, asked in theirs:
        answered = [one for one in asked if one.posteriors is not None]
        if not answered:
            rows.append((name, way, NOT_ASKED, NOT_ASKED, NOT_ASKED, NOT_ASKED, f"cannot: {asked[0].why}"))
            continue
        first = _ratio(ours[name], asked, _posteriors, lambda one: one.posteriors)
        second = _ratio(ours[name], asked, _ratios, lambda one: one.ranking)
        rows.append(
            (
                name,
                way,
                Taken(median(one.posteriors for one in answered if one.posteriors is not None)),
                NOT_ASKED if first is None else Taken(first, "x"),
                *_ranking(answered, second),
                Taken(max(one.apart for one in answered), "relative"),
            )
        )
    return Table(
        "Beside general libraries on the same networks",
        ("network", "peer", "posteriors", "our gain", "ranking", "our gain", "largest difference"),
        tuple(rows),
        f"A peer's network is built before its clock runs, ours while it runs. Ranking: the posteriors with each test "
        f"assumed normal, timed for {RANKED} tests and taken as many times; ours has the ratios of all tests.",
    )


def _ranking(answered: Sequence[Theirs], gain: float | None) -> tuple[Cell, Cell]:
    times = [one.ranking for one in answered if one.ranking is not None]
    return (Taken(median(times)), Taken(gain, "x")) if times and gain is not None else (NOT_ASKED, NOT_ASKED)


def _ratio(
    ours: Sequence[Ours],
    theirs: Sequence[Theirs],
    mine: Callable[[Ours], float],
    other: Callable[[Theirs], float | None],
) -> float | None:
    """How many times as long the peer takes: median over the networks it could do."""
    pairs = [(mine(one), other(peers)) for one, peers in zip(ours, theirs, strict=True)]
    ratios = [their / our for our, their in pairs if their is not None]
    return median(ratios) if ratios else None


def _own_goals(ours: dict[str, list[Ours]]) -> tuple[Goal, ...]:
    def middle(name: str, part: Callable[[Ours], float]) -> Taken:
        return Taken(median(part(one) for one in ours[name]))

    return (
        Goal(f"whole board, {FULL} (ms)", middle("full", _board), most=15.0),
        Goal("the same, ratios only (ms)", middle("full", _ratios), most=15.0),
        Goal("whole board, dense (ms)", middle("dense", _board), most=150.0),
        Goal(f"posteriors only, {FULL} (ms)", middle("full", _posteriors), most=1.0),
        Goal(f"posteriors only, {MANY} (ms)", middle("many", _posteriors), most=60.0),
    )


def _against(ours: dict[str, list[Ours]], theirs: Iterable[tuple[str, str, list[Theirs]]]) -> list[Goal]:
    goals = []
    for name, way, asked in theirs:
        first = _ratio(ours[name], asked, _posteriors, lambda one: one.posteriors)
        second = _ratio(ours[name], asked, _ratios, lambda one: one.ranking)
        if name == "full" and first is not None and second is not None:
            goals.append(Goal(f"posteriors against {way}", Taken(first, "x"), least=20.0))
            goals.append(Goal(f"ranking against {way}", Taken(second, "x"), least=500.0))
    return goals


def _next_action(sizes: Sizes) -> Goal:
    table, situation = a_problem(sizes.seed, faults=FAULTS, tests=ACTIONS, single=True)
    taken = Taken(milliseconds(lambda: advise(table, situation), sizes.runs))
    return Goal(
        f"next action by expected cost, {FAULTS} faults, {ACTIONS} tests, one step ahead (ms)", taken, most=20.0
    )
