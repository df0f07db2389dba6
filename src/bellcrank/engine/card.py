"""What is known of an engine: every value with its range, where it comes from and how sure that is."""

from dataclasses import dataclass

from bellcrank.engine.piston import CrankDrive
from bellcrank.engine.timing import ValveTiming
from bellcrank.sources import Basis


@dataclass(frozen=True, slots=True)
class Ranged:
    """A value with the range it may lie in, SI."""

    low: float
    value: float
    high: float
    basis: Basis
    source: str


@dataclass(frozen=True, slots=True)
class EngineCard:
    """An engine, or a class of engines when it is generic; lengths in m, angles in rad."""

    id: str
    words: str
    bore: Ranged
    stroke: Ranged
    rod: Ranged  # between its eyes
    compression: Ranged  # [-]
    intake_opens: Ranged  # before top dead centre
    intake_closes: Ranged  # after bottom dead centre
    exhaust_opens: Ranged  # before bottom dead centre
    exhaust_closes: Ranged  # after top dead centre
    advance: Ranged  # of the spark, before top dead centre
    gap: Ranged  # of the plug
    voltage_per_speed: Ranged  # of the magneto [V·s/rad]

    @property
    def drive(self) -> CrankDrive:
        """Crank drive at the middle values."""
        return CrankDrive(self.bore.value, self.stroke.value, self.rod.value, self.compression.value)

    @property
    def valves(self) -> ValveTiming:
        """Valve timing at the middle values."""
        return ValveTiming(
            self.intake_opens.value, self.intake_closes.value, self.exhaust_opens.value, self.exhaust_closes.value
        )


QUANTITIES = tuple(name for name in EngineCard.__dataclass_fields__ if name not in ("id", "words"))
