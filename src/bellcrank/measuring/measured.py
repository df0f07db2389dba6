"""A measured value: never a bare number, always with how far it may be off."""

from dataclasses import dataclass

from bellcrank.measuring.refusals import refuse_if_negative


@dataclass(frozen=True, slots=True)
class Measured:
    """A value and its expanded uncertainty (k = 2, about 95 %), both in the same SI unit."""

    value: float
    uncertainty: float

    def __post_init__(self) -> None:
        """Refuse an uncertainty below zero or not a number."""
        refuse_if_negative("Uncertainty", self.uncertainty, "m", "length")
