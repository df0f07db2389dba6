"""Refusing a number that cannot be a measurement, in words for the bench; scalars and arrays alike."""

import numpy as np
from numpy.typing import ArrayLike

from bellcrank.errors import OutOfRange
from bellcrank.units import show


def refuse_unless_positive(words: str, value: ArrayLike, unit: str, kind: str) -> None:
    """Refuse zero, negative, infinite and missing values of something that must be above zero."""
    numbers = np.atleast_1d(np.asarray(value, dtype=float))
    _refuse_unless_finite(words, numbers)
    if np.any(numbers <= 0):
        shown = show(float(numbers[numbers <= 0][0]), unit, kind)
        raise OutOfRange(f"{words} is {shown}; it must be above zero. Measure it again.")


def refuse_if_negative(words: str, value: ArrayLike, unit: str, kind: str) -> None:
    """Refuse negative, infinite and missing values of something that may be zero."""
    numbers = np.atleast_1d(np.asarray(value, dtype=float))
    _refuse_unless_finite(words, numbers)
    if np.any(numbers < 0):
        shown = show(float(numbers[numbers < 0][0]), unit, kind)
        raise OutOfRange(f"{words} is {shown}; it must be zero or more. Measure it again.")


def refuse_outside(words: str, value: ArrayLike, low: float, high: float, advice: str) -> None:
    """Refuse a bare number (a friction coefficient, a share) outside the range it can have."""
    numbers = np.atleast_1d(np.asarray(value, dtype=float))
    _refuse_unless_finite(words, numbers)
    outside = (numbers < low) | (numbers > high)
    if np.any(outside):
        raise OutOfRange(f"{words} is {float(numbers[outside][0]):g}; it must be from {low:g} to {high:g}. {advice}")


def _refuse_unless_finite(words: str, numbers: np.ndarray) -> None:
    if not np.all(np.isfinite(numbers)):
        raise OutOfRange(f"{words} is missing or not a number; it must be a plain number. Measure it again.")
