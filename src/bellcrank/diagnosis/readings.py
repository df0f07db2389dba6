"""What a reading says: which result it is, and how well each result fits it, as no instrument is exact.

A reading near a limit may belong to either side. With the instrument's standard deviation s, the results fit a reading
by the share of a normal distribution about it that lies in their range: the likelihood of the range, its true values
taken for equally likely as far as the instrument errs (assumption). What is read often enough is not repeated here.

References
----------
JCGM 106:2012, 5 and 9: probability that a measurand lies in an interval, given a measured value (from memory).
"""

from itertools import pairwise
from math import erfc, inf, sqrt

from bellcrank.engine.gauge import GaugeReadings, Release
from bellcrank.errors import OutOfRange
from bellcrank.knowledge.gauge_table import GaugeTable
from bellcrank.knowledge.model import Check
from bellcrank.knowledge.scale import Scale

NORMAL, HIGH, LOW = "normal", "high", "low"  # results of the check with the compression gauge
LOW_SHARE, LOW_SPREAD = 0.4, 0.6  # [-] of low readings: guess
SMALLEST = 1e-6  # [-] a result that fits worse than this beside the best is left out


def result_of(scale: Scale, reading: float) -> str:
    """Give the result a reading stands for, taken at its word; reading in SI."""
    if reading < 0:
        raise OutOfRange("A reading cannot be below zero. Type what the instrument shows.", "reading")
    return scale.results[sum(reading >= limit for limit in scale.limits)]


def fits_gauge(check: Check, gauge: GaugeTable, card: str, reading: float) -> tuple[float, ...]:
    """Say how well each result of the compression gauge fits a reading on an engine whose card is known. [-]

    As it should be: by the computed readings with a working release; very high: with a dead one; low: by readings about
    ``LOW_SHARE`` of the working ones, spread ``LOW_SPREAD`` (guess: holes come in all sizes).
    """
    works, dead = gauge.readings[card, Release.WORKS], gauge.readings[card, Release.DEAD]
    low = GaugeReadings(LOW_SHARE * works.median, LOW_SPREAD)
    densities = {NORMAL: works.density(reading), HIGH: dead.density(reading), LOW: low.density(reading)}
    return _beside_the_best([densities[one.id] for one in check.results])


def knows_gauge(check: Check, gauge: GaugeTable, card: str) -> bool:
    """Whether readings of this check on this engine were worked out."""
    return {one.id for one in check.results} == {NORMAL, HIGH, LOW} and (card, Release.WORKS) in gauge.readings


def fits(check: Check, scale: Scale, reading: float) -> tuple[float, ...]:
    """Say how well each result of a check fits a reading, the best with 1; in the order of the results. [-]"""
    error = scale.error(reading) * sqrt(2)
    edges = [(limit - reading) / error for limit in (-inf, *scale.limits, inf)]
    shares = dict.fromkeys((one.id for one in check.results), 0.0)
    for result, (low, high) in zip(scale.results, pairwise(edges), strict=True):
        from_above = erfc(low) - erfc(high)  # no digits are lost in the tail that is small
        from_below = erfc(-high) - erfc(-low)
        shares[result] += (from_above if low > 0 else from_below) / 2
    return _beside_the_best(list(shares.values()))


def _beside_the_best(shares: list[float]) -> tuple[float, ...]:
    best = max(shares)
    return tuple(share / best if share / best >= SMALLEST else 0.0 for share in shares)
