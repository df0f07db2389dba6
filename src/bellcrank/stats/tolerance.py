"""How far a few readings vouch for the many that were not taken: the exact two-sided normal tolerance factor."""

import math

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import OutOfRange

FEWEST, MOST = 2, 1000  # [-] readings: one has no spread; beyond a thousand the factor no longer changes
COVERAGE, CONFIDENCE = 0.90, 0.95  # [-] the "90/95" of NASA-STD-5020B
FARTHEST = 8.0  # [-] standard errors of the mean that are looked at; what lies beyond weighs less than 1e-14
NODES = 64  # [-] Gauss-Legendre points over that range: the answer no longer changes in the tenth digit
HALVINGS = 60  # [-] of a bracket; leaves less than one unit of the last digit a float holds
STEPS = 12  # [-] of Newton; more no longer change a float
WIDEST_FACTOR = 1000.0  # [-] no factor of the range of counts, coverages and confidences taken here is larger
LIKELIEST = 0.99  # [-] coverage and confidence up to which that holds


def tolerance_factor(count: int, *, coverage: float = COVERAGE, confidence: float = CONFIDENCE) -> float:
    """Factor k: mean ± k standard deviations holds a share of all values, with a confidence, from ``count`` readings.

    Parameters
    ----------
    count : int
        Readings the mean and the standard deviation (divisor count - 1) come from, 2 to 1000. [-]
    coverage : float
        Share of all values that shall lie inside. [-]
    confidence : float
        How often, over many series of readings, at least that share does lie inside. [-]

    Returns
    -------
    float
        Two-sided tolerance factor of a normal distribution. [-]

    Raises
    ------
    OutOfRange
        When the count is not 2 to 1000, or coverage or confidence not 0.5 to 0.99.

    Notes
    -----
    The k for which √(2/π) ∫ e^(-t²/2) P(χ²(n-1) > (n-1) r²/k²) dt over t > 0 is the confidence, r being the half width
    with Φ(t/√n + r) - Φ(t/√n - r) = coverage. Nothing is approximated but the integral, to ten digits.

    References
    ----------
    A. Wald, J. Wolfowitz, Tolerance limits for a normal distribution, Annals of Mathematical Statistics 17, 1946 (the
    integral, from memory); every row of NASA-STD-5020B (2021), Table 5, is met in tests/published.

    Examples
    --------
    >>> round(tolerance_factor(10), 3)
    2.856
    """
    _refuse_what_no_table_has(count, coverage, confidence)
    places, weights = np.polynomial.legendre.leggauss(NODES)
    errors = FARTHEST / 2 * (places + 1)
    weights = FARTHEST / 2 * weights * math.sqrt(2 / math.pi) * np.exp(-(errors**2) / 2)
    half_widths = np.array([_half_width(error / math.sqrt(count), coverage) for error in errors])
    low, high = 0.0, WIDEST_FACTOR
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        reached = weights @ _chi_square_above((count - 1) * (half_widths / middle) ** 2, count - 1)
        low, high = (middle, high) if reached < confidence else (low, middle)
    return high


def _half_width(offset: float, coverage: float) -> float:
    """Half width of the band round ``offset`` that holds the coverage of a standard normal distribution.

    Newton's steps from a band that ends at zero: it holds under half, and from there on what is held grows ever slower,
    so the steps never pass the answer.
    """
    width = offset
    for _ in range(STEPS):
        upper, lower = offset + width, offset - width
        inside = (math.erf(upper / math.sqrt(2)) - math.erf(lower / math.sqrt(2))) / 2
        slope = (math.exp(-(upper**2) / 2) + math.exp(-(lower**2) / 2)) / math.sqrt(2 * math.pi)
        width += (coverage - inside) / slope
    return width


def _chi_square_above(values: NDArray[np.float64], degrees: int) -> NDArray[np.float64]:
    """Chance that chi-square with whole degrees of freedom lies above: a finite sum, for odd degrees with an erfc."""
    halves = values / 2
    odd = degrees % 2
    steps = np.arange(degrees // 2) + odd / 2
    logs = np.array([math.lgamma(step + 1) for step in steps])
    terms = np.exp(steps * np.log(halves)[:, np.newaxis] - halves[:, np.newaxis] - logs)
    start = np.array([math.erfc(math.sqrt(half)) for half in halves]) if odd else 0.0
    above: NDArray[np.float64] = start + terms.sum(axis=1)
    return above


def _refuse_what_no_table_has(count: int, coverage: float, confidence: float) -> None:
    if not FEWEST <= count <= MOST:
        raise OutOfRange(f"{count} readings were given; it must be {FEWEST} to {MOST}. Take more, or keep the newest.")
    for words, share in (("share of values inside", coverage), ("confidence", confidence)):
        if not 0.5 <= share <= LIKELIEST:
            raise OutOfRange(f"The {words} is {share:g}; it must be 0.5 to {LIKELIEST:g}. 0.9 and 0.95 are usual.")
