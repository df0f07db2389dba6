"""The hand: what somebody's own pull by feel is worth, from readings of bolts that hand tightened."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bellcrank.both_systems import both_torques, second_unit
from bellcrank.errors import OutOfRange
from bellcrank.fastening.threads import Thread, stress_area
from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive
from bellcrank.stats.tolerance import tolerance_factor
from bellcrank.units import convert, show

FEWEST_READINGS = 5  # [-] below it the 90/95 factor runs away: 5.4 for four, 31 for two (NASA-STD-5020B, Table 5)
FRICTION_SPREAD = 0.25  # [-] preload scatter of a torque wrench, nearly all of it friction: MIL-HDBK-60, Table I
WRENCH_ERROR = 0.06  # [-] of a reading below 10 N·m: ISO 6789, type II class A, from memory
# [-] largest over smallest reading of one thread size. The nearest units that can be told apart, N·m and in·lb, lie
# 8.9-fold apart; "good and tight" is within ±60 %, 4-fold apart.
MOST_APART = 5.0
MOST_SPREAD = 0.9  # [-] of the mean; beyond it the low end promises no clamp at all
STRONGEST = 1220e6  # [Pa] least tensile strength of class 12.9, ISO 898-1
ROUGHEST = 0.30  # [-] largest nut factor in Shigley, Table 8-15


@dataclass(frozen=True, slots=True)
class HandOnThread:
    """What one hand does on one size of thread; torques in N·m."""

    thread: Thread
    count: int
    mean: float
    mean_uncertainty: float  # expanded, about 95 %
    deviation: float  # sample standard deviation, divisor count - 1
    factor: float  # 90/95 two-sided tolerance factor [-]
    spread: float  # Γ = factor x deviation / mean [-]
    low: float  # nine of ten pulls lie between low and high, the wrench's own error counted
    high: float
    scatter: float  # of the preload, friction counted, for a joint tightened by this hand [-]

    @property
    def words(self) -> str:
        """Say the window of this hand."""
        return self.said("N·m")

    def said(self, unit: str) -> str:
        """Say the window of this hand in a unit of torque."""
        return f"By your hand {self.thread.name} gets {span(self.low, self.high, unit)} (from {self.count} readings)."


def hand_on(thread: Thread, readings: Sequence[float]) -> HandOnThread:
    """Give what a hand does on one size of thread.

    Parameters
    ----------
    thread : Thread
        The size all readings are of. [-]
    readings : sequence of float
        Torques at which bolts tightened by feel just moved on. [N·m]

    Returns
    -------
    HandOnThread
        Mean, spread and window of that hand. [N·m]

    Raises
    ------
    OutOfRange
        When there are fewer than five readings, one cannot be, or they lie too far apart to promise anything.

    Notes
    -----
    Γ = k s / mean with the exact two-sided 90/95 factor k. Window: mean (1 ± √(Γ² + 0.06²)), the 0.06 being the wrench
    the readings were taken with. Uncertainty of the mean: 2 s/√n √((n - 1)/(n - 3)).

    By hand: 6, 7, 7, 8, 7 N·m give mean 7, s = √((1 + 0 + 0 + 1 + 0)/4) = 0.707, k(5) = 4.291, so
    Γ = 4.291 x 0.707/7 = 0.433, with the wrench √(0.433² + 0.06²) = 0.438, window 7 x 0.562 to 7 x 1.438, that is 3.9
    to 10.1 N·m; preload scatter √(0.433² + 0.25²) = 0.500.

    References
    ----------
    NASA-STD-5020B (2021), Appendix A.2 and Table 5; JCGM 101:2008, 6.4.9.4 (uncertainty of a mean, from memory).

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> hand_on(parse_thread("M6"), [6.0, 7.0, 7.0, 8.0, 7.0]).words
    'By your hand M6×1 gets 3.9 to 10.1 N·m (from 5 readings).'
    """
    refuse_readings_that_cannot_be(thread, readings)
    count = len(readings)
    if count < FEWEST_READINGS:
        there = "is 1 reading" if count == 1 else f"are {count} readings"
        raise OutOfRange(
            f"There {there} of {thread.name}; it must be {FEWEST_READINGS} or more to know a hand. "
            "Tighten more of them by feel and read where each just moves on; ten is better."
        )
    mean = sum(readings) / count
    deviation = math.sqrt(sum((reading - mean) ** 2 for reading in readings) / (count - 1))
    factor = tolerance_factor(count)
    spread = factor * deviation / mean
    half = math.hypot(spread, WRENCH_ERROR)
    if half > MOST_SPREAD:
        raise OutOfRange(
            f"The readings of {thread.name} run from {_span_beside(readings)}; {count} of them promise no "
            "window. Take more readings, ten or more, or use the torque wrench on this size."
        )
    return HandOnThread(
        thread=thread,
        count=count,
        mean=mean,
        mean_uncertainty=2 * deviation / math.sqrt(count) * math.sqrt((count - 1) / (count - 3)),
        deviation=deviation,
        factor=factor,
        spread=spread,
        low=mean * (1 - half),
        high=mean * (1 + half),
        scatter=preload_scatter(spread),
    )


def preload_scatter(torque_spread: float, friction_spread: float = FRICTION_SPREAD) -> float:
    """Scatter of the clamp when the torque scatters by itself and the friction does too.

    Parameters
    ----------
    torque_spread : float
        Share of the mean by which the torque may be off, as Γ of a hand. [-]
    friction_spread : float
        Share by which friction moves the clamp at one and the same torque; 0.25 oiled, 0.35 dry. [-]

    Returns
    -------
    float
        Share of the mean clamp by which it may be off. [-]

    Raises
    ------
    OutOfRange
        When a spread is below zero or above 0.9.

    Notes
    -----
    √(Γ² + f²): the hand does not know the friction, so the two are independent. The whole ±25 % of a torque wrench is
    taken as friction; its own few per cent are inside.

    References
    ----------
    MIL-HDBK-60, Table I (±25 % by torque wrench); root sum of squares as in NASA-TM-106943 for independent scatter
    (from memory).

    Examples
    --------
    >>> round(preload_scatter(0.60, 0.25), 2)
    0.65
    """
    refuse_outside("Spread of the torque", torque_spread, 0.0, MOST_SPREAD, "Take more readings.")
    refuse_outside("Spread by friction", friction_spread, 0.0, MOST_SPREAD, "Oiled is near 0.25, dry 0.35.")
    return math.hypot(torque_spread, friction_spread)


def refuse_readings_that_cannot_be(thread: Thread, readings: Sequence[float]) -> None:
    """Refuse what no hand can have done: nothing, below nothing, more than the bolt holds, several-fold apart."""
    refuse_unless_positive(f"A reading of {thread.name}", list(readings), "N·m", "torque")
    if not readings:
        return
    most = ROUGHEST * thread.diameter * STRONGEST * stress_area(thread)
    low, high = min(readings), max(readings)
    if high > most:
        raise OutOfRange(
            f"A reading of {thread.name} is {both_torques(high)}; the strongest bolt of that size breaks "
            f"below {both_torques(most)}. Was it in·lb or ft·lb? Read the wrench's scale again."
        )
    if high > MOST_APART * low:
        raise OutOfRange(
            f"The readings of {thread.name} run from {_span_beside(readings)}; one hand is not {high / low:.0f} times "
            "apart. Was one typed in another unit, or was it another bolt? Take it back and type it again."
        )


def span(low: float, high: float, unit: str = "N·m") -> str:
    """Say a range of torques, as many digits as it deserves, with N·m beside any other unit.

    >>> span(3.93, 10.07)
    '3.9 to 10.1 N·m'
    >>> span(14.2, 26.9, "ft·lb")
    '10 to 20 ft·lb (14 to 27 N·m)'
    """
    said = _span_in(low, high, unit)
    return said if unit == "N·m" else f"{said} ({_span_in(low, high, 'N·m')})"


def _span_beside(readings: Sequence[float]) -> str:
    """Say how far readings lie apart in both systems, so that what was typed is found again."""
    low, high = min(readings), max(readings)
    return f"{_span_in(low, high, 'N·m')} ({_span_in(low, high, second_unit(high))})"


def _span_in(low: float, high: float, unit: str) -> str:
    least = convert(low, unit, "torque")
    digits = 0 if least >= 10 else 1 if least >= 1 else 2
    return f"{least:.{digits}f} to {show(high, unit, 'torque', digits)}"
