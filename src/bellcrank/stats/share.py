"""A share of so many, and how far it may be off."""

import math
from dataclasses import dataclass

from bellcrank.errors import OutOfRange

NINETEEN_IN_TWENTY = 1.959963984540054  # [-] standard deviations either side


@dataclass(frozen=True, slots=True)
class Share:
    """So many of so many, with the interval that holds the true share 19 times in 20."""

    count: int
    of: int
    low: float
    high: float

    @property
    def value(self) -> float:
        """The share itself; zero of none."""
        return self.count / self.of if self.of else 0.0


def share_of(count: int, of: int) -> Share:
    """Give a share with its interval.

    Parameters
    ----------
    count : int
        How many. [-]
    of : int
        Of how many; of none, the interval is all there is. [-]

    Returns
    -------
    Share
        With Wilson's interval at 95 %. [-]

    Raises
    ------
    OutOfRange
        When a count is below zero or more than all.

    References
    ----------
    Wilson, Probable inference, the law of succession, and statistical inference, JASA 22 (1927) 209.

    Examples
    --------
    >>> found = share_of(3, 10)
    >>> round(found.low, 4), round(found.high, 4)
    (0.1078, 0.6032)
    """
    if not 0 <= count <= of:
        raise OutOfRange(f"{count} of {of} cannot be; the first number counts some of the second. Count again.")
    if of == 0:
        return Share(0, 0, 0.0, 1.0)
    part, squared = count / of, NINETEEN_IN_TWENTY**2
    middle = (part + squared / (2 * of)) / (1 + squared / of)
    half = NINETEEN_IN_TWENTY / (1 + squared / of) * math.sqrt(part * (1 - part) / of + squared / (4 * of**2))
    low, high = max(0.0, middle - half), min(1.0, middle + half)
    return Share(count, of, low if count else 0.0, high if count < of else 1.0)  # the ends exactly, not by rounding
