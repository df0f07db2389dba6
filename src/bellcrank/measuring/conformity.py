"""In spec or not, when the measurement itself is uncertain: guarded acceptance."""

from enum import StrEnum

from bellcrank.errors import OutOfRange
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


def judge_at_least(measured: Measured, limit: float) -> Verdict:
    """Judge a value that must not fall below a lower limit.

    Parameters
    ----------
    measured : Measured
        The value with its expanded uncertainty. [-]
    limit : float
        Lower limit, in the same unit. [-]

    Returns
    -------
    Verdict
        Passes only when value - uncertainty keeps the limit, fails only when value + uncertainty is below it. [-]

    References
    ----------
    JCGM 106:2012, guarded acceptance with a guard band of the expanded uncertainty (from memory).

    Examples
    --------
    >>> judge_at_least(Measured(9.0, 0.4), 8.5).value
    'passes'
    """
    return judge_at_most(Measured(-measured.value, measured.uncertainty), -limit)


def judge_between(measured: Measured, low: float, high: float) -> Verdict:
    """Judge a value that must keep a lower and an upper limit, such as a torque window.

    Parameters
    ----------
    measured : Measured
        The value with its expanded uncertainty. [-]
    low : float
        Lower limit, in the same unit. [-]
    high : float
        Upper limit, in the same unit. [-]

    Returns
    -------
    Verdict
        Fails when it fails either limit, passes when it passes both, else undecided. [-]

    Raises
    ------
    OutOfRange
        When the lower limit is above the upper one.

    References
    ----------
    JCGM 106:2012, guarded acceptance with a guard band of the expanded uncertainty (from memory).

    Examples
    --------
    >>> judge_between(Measured(9.0, 0.4), 8.0, 9.2).value
    'undecided'
    """
    if low > high:
        raise OutOfRange(f"The lower limit {low:g} is above the upper limit {high:g}. Type them the other way round.")
    verdicts = {judge_at_least(measured, low), judge_at_most(measured, high)}
    if Verdict.FAILS in verdicts:
        return Verdict.FAILS
    return Verdict.UNDECIDED if Verdict.UNDECIDED in verdicts else Verdict.PASSES
