"""What is known of an engine and of who pulls it: each value with its range, its source and how sure it is."""

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
    flywheel_inertia: Ranged  # with crank and starter cup [kg·m²]
    tool_inertia: Ranged  # of what is bolted to the crank, the blade [kg·m²]
    intake_valve: Ranged  # across its head
    exhaust_valve: Ranged
    lift: Ranged  # of both valves
    carburettor: Ranged  # narrowest area in front of the intake valve [m²]
    release_lift: Ranged  # of the exhaust valve by the compression release; zero for none
    release_closes: Ranged  # before firing top dead centre
    release_speed: Ranged  # above it the release is out of work [rad/s]
    leak: Ranged  # effective area of rings and valves [m²]
    friction: Ranged  # mean pressure that turns the engine against its dry friction [Pa]
    pulley: Ranged  # radius the cord pulls at
    cord_stiffness: Ranged  # of cord and hand [N/m]
    burn_length: Ranged  # share of the bore the flame has to cross [-]
    burn_swirl: Ranged  # share of the swirl that helps it [-]
    swirl: Ranged  # left when the piston stands [m/s]
    efficiency: Ranged  # of burning [-]
    heat_factor: Ranged  # on the heat lost to the walls [-]
    least_fresh: Ranged  # share of the charge that must be fresh for a spark to light it [-]

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


@dataclass(frozen=True, slots=True)
class OperatorCard:
    """Somebody who pulls a cord; from low to high lie nine of ten pulls."""

    id: str
    words: str
    force: Ranged  # of the hand standing still [N]
    quickest: Ranged  # speed at which it pulls no more [m/s]
    stroke: Ranged
    hand: Ranged  # mass of hand and arm that moves [kg]
    grip: Ranged  # force that tears the handle away, over that of the pull [-]


OPERATOR_QUANTITIES = tuple(name for name in OperatorCard.__dataclass_fields__ if name not in ("id", "words"))
