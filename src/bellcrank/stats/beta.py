"""A chance learnt from counts: the Beta distribution, its mean and its interval.

What is believed beforehand counts like so many cases seen (the equivalent sample size); cases seen are added to it.
"""

import math
from dataclasses import dataclass

from bellcrank.errors import OutOfRange

NINETEEN_IN_TWENTY = 0.95  # [-]
MOST_TERMS = 400  # [-] of the continued fraction; about the root of the larger count is enough
CLOSE = 1e-15  # [-] relative, where the fraction stops
HALVINGS = 34  # [-] of the interval from 0 to 1: to 6e-11


@dataclass(frozen=True, slots=True)
class Beta:
    """A chance of which so many cases were seen to be so, and so many not; both may be parts of a case."""

    so: float
    not_so: float

    @property
    def mean(self) -> float:
        """The chance that the next case is so. [-]"""
        return self.so / (self.so + self.not_so)

    def after(self, so: float, not_so: float) -> "Beta":
        """Give what is believed after more cases.

        >>> Beta(2, 8).after(3, 2).mean  # 5 of 15
        0.3333333333333333
        """
        return Beta(self.so + so, self.not_so + not_so)

    def interval(self, held: float = NINETEEN_IN_TWENTY) -> tuple[float, float]:
        """Give the ends between which the chance lies with this probability, as much left out below as above."""
        return self.below((1 - held) / 2), self.below((1 + held) / 2)

    def below(self, probability: float) -> float:
        """Give the value the chance stays below with this probability."""
        low, high = 0.0, 1.0
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if beta_up_to(middle, self.so, self.not_so) < probability else (low, middle)
        return (low + high) / 2


def beta_with(mean: float, worth: float) -> Beta:
    """Give what is believed when a chance of this size is worth so many cases."""
    return Beta(worth * mean, worth * (1 - mean))


def beta_up_to(value: float, so: float, not_so: float) -> float:
    """Probability that a Beta-distributed chance is at most a value.

    Parameters
    ----------
    value : float
        The chance. [-]
    so, not_so : float
        Both counts, above zero. [-]

    Returns
    -------
    float
        The regularised incomplete beta function. [-]

    Raises
    ------
    OutOfRange
        When a count is not above zero.

    Notes
    -----
    Continued fraction, taken from the end at which it converges quickly.

    References
    ----------
    NIST Digital Library of Mathematical Functions, 8.17.22 (from memory); evaluated by the modified Lentz method.

    Examples
    --------
    >>> beta_up_to(0.25, 1.0, 1.0)
    0.25
    """
    if so <= 0 or not_so <= 0:
        raise OutOfRange(f"Counts of {so:g} and {not_so:g} say nothing of a chance; both must be above zero.")
    if value <= 0 or value >= 1:
        return 0.0 if value <= 0 else 1.0
    if value > (so + 1) / (so + not_so + 2):
        return 1 - beta_up_to(1 - value, not_so, so)
    log_scale = math.lgamma(so + not_so) - math.lgamma(so) - math.lgamma(not_so)
    scale = math.exp(log_scale + so * math.log(value) + not_so * math.log1p(-value))
    return scale / (so * _fraction(value, so, not_so))


def _fraction(value: float, so: float, not_so: float) -> float:
    """Evaluate 1 + d1/(1 + d2/(1 + ...)) forwards."""
    total, upper, lower = 1.0, 1.0, 0.0
    for number in range(1, MOST_TERMS):
        half = number // 2
        if number % 2:
            step = -(so + half) * (so + not_so + half) * value / ((so + number - 1) * (so + number))
        else:
            step = half * (not_so - half) * value / ((so + number - 1) * (so + number))
        lower = 1 / (1 + step * lower)
        upper = 1 + step / upper
        total *= upper * lower
        if abs(upper * lower - 1) < CLOSE:
            break
    return total
