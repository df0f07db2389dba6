"""Numbers that learn: a row of chances, and a time that is log-normal, each worth so many cases beforehand."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

TENTH = 1.2815515655446004  # [-] standard deviations from the middle to what one in ten goes beyond


def updated_row(row: Sequence[float], worth: float, counts: Sequence[float]) -> tuple[float, ...]:
    """Give the mean of a Dirichlet distribution after cases were counted: (worth * row + counts) / (worth + cases).

    >>> updated_row((0.5, 0.5), 8, (2, 0))
    (0.6, 0.4)
    """
    total = worth + sum(counts)
    return tuple((worth * chance + count) / total for chance, count in zip(row, counts, strict=True))


@dataclass(frozen=True, slots=True)
class LogSums:
    """Times, kept as the sums of their logarithms and of the squares of those."""

    count: float = 0.0
    logs: float = 0.0
    squares: float = 0.0


@dataclass(frozen=True, slots=True)
class Times:
    """A time that scatters log-normally: one in ten is below the low end, one in ten above the high one."""

    low: float
    typical: float
    high: float


def sums_of(*times: float) -> LogSums:
    """Count some times, all above zero."""
    logs = [math.log(time) for time in times]
    return LogSums(len(logs), sum(logs), sum(one * one for one in logs))


def updated_times(before: Times, worth: float, seen: LogSums) -> Times:
    """Give a log-normal time after some were measured, drawn towards what was believed beforehand.

    Parameters
    ----------
    before : Times
        What was believed, in any unit of time; its ends may be equal.
    worth : float
        How many measured times that counts as. [-]
    seen : LogSums
        The measured times, in the same unit.

    Returns
    -------
    Times
        Middle and spread of both together.

    Notes
    -----
    Normal with unknown mean and variance in the logarithm, conjugate prior of equal worth for both: the mean is the
    weighted mean, the variance (worth s0^2 + S + worth n / (worth + n) (mean - m0)^2) / (worth + n).

    References
    ----------
    Gelman et al., Bayesian Data Analysis, 3rd ed., section 3.3 (from memory).

    Examples
    --------
    >>> updated_times(Times(20, 20, 20), 1, sums_of(5.0)).typical
    10.0
    """
    if not seen.count:
        return before
    middle, total = math.log(before.typical), worth + seen.count
    mean = seen.logs / seen.count
    variance = (math.log(before.high / before.low) / (2 * TENTH)) ** 2
    within = max(0.0, seen.squares - seen.count * mean * mean)
    apart = worth * seen.count / total * (mean - middle) ** 2
    learnt = (worth * middle + seen.logs) / total
    reach = TENTH * math.sqrt((worth * variance + within + apart) / total)
    return Times(math.exp(learnt - reach), math.exp(learnt), math.exp(learnt + reach))
