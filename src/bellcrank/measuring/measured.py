"""A measured value: never a bare number, always with how far it may be off."""

import math
from dataclasses import dataclass

from bellcrank.measuring.refusals import refuse_outside


@dataclass(frozen=True, slots=True)
class Measured:
    """A value and its expanded uncertainty (k = 2, about 95 %), both in the same SI unit."""

    value: float
    uncertainty: float

    def __post_init__(self) -> None:
        """Refuse a value that is missing and an uncertainty below zero."""
        refuse_outside("Measured value", self.value, -math.inf, math.inf, "Measure it again.")
        refuse_outside("Uncertainty", self.uncertainty, 0.0, math.inf, "Say how far the reading may be off.")
