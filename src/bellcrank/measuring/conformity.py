"""In spec or not, when the measurement itself is uncertain: guarded acceptance."""

from enum import StrEnum

from bellcrank.measuring.measured import Measured


class Verdict(StrEnum):
    """What may be said of a measurement against a limit."""

    PASSES = "passes"
    FAILS = "fails"
    UNDECIDED = "undecided"


def judge_at_most(measured: Measured, limit: float) -> Verdict:
    """Judge a value that must not pass an upper limit.

    Parameters
    ----------
    measured : Measured
        The value with its expanded uncertainty. [-]
    limit : float
        Upper limit, in the same unit. [-]

    Returns
    -------
    Verdict
        Passes only when value + uncertainty keeps the limit, fails only when value - uncertainty is above it. [-]

    References
    ----------
    JCGM 106:2012, guarded acceptance with a guard band of the expanded uncertainty (from memory).

    Examples
    --------
    >>> judge_at_most(Measured(2.80, 0.28), 3.0).value
    'undecided'
    """
    if measured.value + measured.uncertainty <= limit:
        return Verdict.PASSES
    if measured.value - measured.uncertainty > limit:
        return Verdict.FAILS
    return Verdict.UNDECIDED
