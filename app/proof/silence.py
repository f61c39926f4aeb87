"""How much fault-free use makes "fixed" believable, from how soon the fault used to come back.

While the fault is there it shows after a waiting time that is exponential with an unknown rate. What is known of the
rate are the waits seen so far: n returns in a total use of T. With the uninformative prior 1/rate the rate has a gamma
distribution with shape n and rate T, and the chance that the fault stays silent for a further use s is that of a
gamma–Poisson mixture (negative binomial with no event; Lomax survival):

    P(silent for s) = (T / (T + s))^n

The plug-in estimate puts the rate at n / T and forgets how uncertain that is: exp(−n s / T). Both are shown, the first
is used. A shape other than 1 (Weibull) takes every use to that power first: above 1 the fault comes by wearing in.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, inf, log

from scipy.special import gammaincinv


@dataclass(frozen=True, slots=True)
class Waits:
    """Uses until the fault came back (`returns`), and uses without it that ended otherwise (`quiet`), in one unit.

    `shape`: of the waiting time; 1 is exponential.
    """

    returns: tuple[float, ...]
    quiet: tuple[float, ...] = ()
    shape: float = 1.0

    @property
    def count(self) -> int:
        return len(self.returns)

    @property
    def total(self) -> float:
        """The whole use, each wait taken to the power of the shape."""
        return float(sum(use**self.shape for use in (*self.returns, *self.quiet)))


def chance_silent(waits: Waits, silent: float) -> float | None:
    """P(no fault shown over this use | the fault is still there), its rate as uncertain as it is.

    None where no return is known: then nothing can be said about how long it stays silent.
    """
    if waits.count == 0:
        return None
    return float((waits.total / (waits.total + silent**waits.shape)) ** waits.count)


def chance_silent_plug_in(waits: Waits, silent: float) -> float | None:
    """The same with the rate taken as known: too sure of itself when few returns are known."""
    return None if waits.count == 0 else exp(-waits.count * silent**waits.shape / waits.total)


def use_needed(waits: Waits, at_most: float) -> float | None:
    """The silent use after which the fault, if still there, would have stayed silent with at most this chance.

    Infinite where no use is enough: for a chance of 0, or one so small that the use has no name.
    """
    if waits.count == 0:
        return None
    if at_most <= 0.0:
        return inf
    try:
        further = waits.total * (at_most ** (-1.0 / waits.count) - 1.0)
        return float(further ** (1.0 / waits.shape))
    except OverflowError:
        return inf


def chance_still_there(repair_worked: float, silent: float) -> float:
    """P(the fault is still there | it stayed silent): Bayes, with the chance that the repair worked as prior.

    `silent`: P(silent | still there). A fault that is gone is always silent.
    """
    there = (1.0 - repair_worked) * silent
    return 1.0 if repair_worked <= 0.0 else there / (there + repair_worked)


def silent_chance_for(repair_worked: float, still_there: float) -> float:
    """How small P(silent | still there) must become for P(still there | silent) to be `still_there`."""
    if repair_worked >= 1.0:
        return 1.0
    return min(1.0, still_there * repair_worked / ((1.0 - still_there) * (1.0 - repair_worked)))


def length_factor(confidence: float, failures: int = 0) -> float:
    """Use needed as a multiple of the mean wait to be demonstrated, with so many returns allowed.

    Half the chi-square quantile with 2r + 2 degrees of freedom (NIST/SEMATECH e-Handbook 8.3.1.1); with no return
    allowed −ln(1 − C).
    """
    return float(gammaincinv(failures + 1, confidence))


def longest_mean_excluded(silent: float, confidence: float) -> float:
    """After this silent use: the mean wait that is shown to be exceeded, T / −ln(1 − C) (e-Handbook 8.4.5.1)."""
    return silent / -log(1.0 - confidence)
