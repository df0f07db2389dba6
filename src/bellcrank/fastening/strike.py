"""A blade strike seen from the flywheel: does its taper hold, does the key, where does the flywheel end up.

The obstacle stops the blade, and the blade the crank; what it takes to stop the blade itself never enters the crank.
The flywheel at the other end of the shaft wants to run on, and all that brings it to rest goes through its taper and
key: **its** inertia decides there, not the blade's.
"""

from dataclasses import dataclass, replace
from enum import StrEnum

from bellcrank.fastening.key_joint import GivesWay
from bellcrank.fastening.run_on import run_on_angle, stop_angle, stop_torque
from bellcrank.fastening.taper import taper_seat
from bellcrank.fastening.taper_forces import Taper, nut_force
from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive

OILY, DRY = 0.10, 0.20  # [-] friction of a flywheel taper, from memory; cone tests print 0.15 to 0.20 for dry steel
OILED_NUT, DRY_NUT = 0.15, 0.20  # [-] nut factor K of the trade charts
# [-] over the key's width: how far it is pushed before key or keyway parts, brittle zinc to soft steel; guess
LEAST_TRAVEL, MOST_TRAVEL = 0.1, 0.5
NOTHING = 1e-3  # [rad] a twentieth of a degree: no one sees it on a flywheel


class Likely(StrEnum):
    """How sure an answer is over the whole range of friction."""

    NO = "no"
    PERHAPS = "perhaps"
    YES = "yes"


@dataclass(frozen=True, slots=True)
class Blow:
    """How the crank was stopped, and what wanted to run on."""

    flywheel_inertia: float  # of flywheel, starter cup and all that hangs on them; not of the blade [kg·m²]
    speed: float  # of the crank when the blade struck [rad/s]
    stop_angle: float  # through which crank and blade came to a stop [rad]
    blade_inertia: float | None = None  # of the blade; None: not asked [kg·m²]

    @property
    def energy(self) -> float:
        """What the flywheel had in it. [J]"""
        return self.flywheel_inertia * self.speed**2 / 2

    @property
    def mean_torque(self) -> float:
        """Torque on average in the crank that stops the flywheel together with it. [N·m]"""
        return stop_torque(self.flywheel_inertia, self.speed, self.stop_angle)

    @property
    def blade_torque(self) -> float | None:
        """Torque on average that stops the blade itself; the obstacle gives it, the crank does not feel it. [N·m]"""
        if self.blade_inertia is None:
            return None
        return stop_torque(self.blade_inertia, self.speed, self.stop_angle)


def blow_in_time(
    flywheel_inertia: float, speed: float, stop_time: float, *, blade_inertia: float | None = None
) -> Blow:
    """Give a blow by the time [s] the crank took to stop, slowing evenly."""
    return Blow(flywheel_inertia, speed, stop_angle(speed, stop_time), blade_inertia)


@dataclass(frozen=True, slots=True)
class NutAndTaper:
    """The flywheel's seat as found: taper, nut and how sure the frictions are."""

    taper: Taper
    nut_diameter: float  # [m]
    nut_torque: float  # it was tightened to [N·m]
    friction: tuple[float, float] = (OILY, DRY)  # on the taper, low and high [-]
    nut_factor: tuple[float, float] = (OILED_NUT, DRY_NUT)  # low and high [-]


@dataclass(frozen=True, slots=True)
class KeyInWay:
    """The key in the flywheel, and when it or its keyway gives way."""

    low: float  # torque at which the weakest of key and keyway gives way, at the least [N·m]
    high: float  # at the most [N·m]
    width: float  # [m]
    shaft_diameter: float  # at the key [m]
    first: tuple[GivesWay, ...] = (GivesWay.SHEAR,)  # what of it may go first


@dataclass(frozen=True, slots=True)
class Grip:
    """Torque at which a taper slips: least (oily, first slip, stiff nut) to most (dry, settled, oiled nut). [N·m]"""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Strike:
    """What a blow did between crank and flywheel."""

    energy: float  # of the flywheel [J]
    mean_torque: float  # in the crank, to stop it with the crank [N·m]
    blade_torque: float | None  # to stop the blade itself, not through the crank; None: not asked [N·m]
    grip: Grip  # of the taper at the nut's torque
    half_nut_grip: Grip  # of the taper with the nut at half that torque
    taper_holds: Likely
    key_gives_way: Likely  # the key, or its keyway in the flywheel; "no" without a key
    first: tuple[GivesWay, ...]  # what of the two may go first; none without a key
    run_on_low: float  # how far the flywheel ends up ahead of the crank, in the sense of rotation, at least [rad]
    run_on_high: float  # at most [rad]
    nut_torque_to_hold: float  # from which the taper alone surely holds such a blow [N·m]


def grip_of(fit: NutAndTaper) -> Grip:
    """Give the torque at which a flywheel's taper slips, over the range of its frictions.

    Raises
    ------
    OutOfRange
        When nut torque or diameter is not above zero, or a friction or nut factor is outside its range.
    """
    refuse_unless_positive("Torque on the flywheel nut", fit.nut_torque, "N·m", "torque")
    oiled, dry = min(fit.nut_factor), max(fit.nut_factor)
    weak = taper_seat(nut_force(fit.nut_torque, fit.nut_diameter, dry), fit.taper, min(fit.friction))
    strong = taper_seat(nut_force(fit.nut_torque, fit.nut_diameter, oiled), fit.taper, max(fit.friction))
    return Grip(weak.slip_torque_low, strong.slip_torque_high)


def judge_strike(blow: Blow, fit: NutAndTaper, key: KeyInWay | None = None) -> Strike:
    """Say whether taper and key held a blow, and how far the flywheel ran ahead if not.

    Parameters
    ----------
    blow : Blow
        Inertia of the flywheel, speed, and the angle the crank stopped in. [-]
    fit : NutAndTaper
        Taper and nut with their ranges of friction. [-]
    key : KeyInWay, optional
        The key; left out, the taper is alone. [-]

    Returns
    -------
    Strike
        Torques, what held, run-on low and high, nut torque that would have held. [SI]

    Raises
    ------
    OutOfRange
        When inertia, speed, angle or a size of the seat cannot be.

    Notes
    -----
    The crank slows evenly; the taper drags with its slip torque all the way, the key adds the torque of its weakest
    part, its own shear or side or the keyway's in the flywheel, until that is pushed through. Engine torque and twist
    of the shaft are left out. Run-on is positive: the flywheel, and with it the magnet, is ahead of the crank, so the
    spark comes early and the engine kicks back.

    References
    ----------
    Energy balance of a flywheel at constant torque (own derivation).

    Examples
    --------
    >>> import math
    >>> fit = NutAndTaper(Taper(0.125, 0.0206, 0.025), nut_diameter=0.015875, nut_torque=40.0)
    >>> struck = judge_strike(Blow(0.010, 314.16, math.radians(45)), fit)
    >>> round(struck.mean_torque), struck.taper_holds
    (628, <Likely.NO: 'no'>)
    """
    grip = grip_of(fit)
    mean = blow.mean_torque
    weak, strong = (key.low, key.high) if key else (0.0, 0.0)
    return Strike(
        energy=blow.energy,
        mean_torque=mean,
        blade_torque=blow.blade_torque,
        grip=grip,
        half_nut_grip=grip_of(replace(fit, nut_torque=fit.nut_torque / 2)),
        taper_holds=_likely(mean <= grip.low, mean <= grip.high),
        key_gives_way=_likely(
            key is not None and mean > grip.high + strong, key is not None and mean > grip.low + weak
        ),
        first=key.first if key else (),
        run_on_low=_run_on(blow, grip.high, key, strong, MOST_TRAVEL),
        run_on_high=_run_on(blow, grip.low, key, weak, LEAST_TRAVEL),
        nut_torque_to_hold=fit.nut_torque * mean / grip.low,
    )


def _run_on(blow: Blow, slip_torque: float, key: KeyInWay | None, key_torque: float, travel: float) -> float:
    if key is None:
        return run_on_angle(blow.flywheel_inertia, blow.speed, blow.stop_angle, slip_torque)
    refuse_outside("Shaft diameter over key width", key.shaft_diameter / key.width, 2, 100, "Measure both again.")
    return run_on_angle(
        blow.flywheel_inertia,
        blow.speed,
        blow.stop_angle,
        slip_torque,
        key_torque=key_torque,
        key_travel=travel * key.width / (key.shaft_diameter / 2),
    )


def _likely(surely: bool, perhaps: bool) -> Likely:
    if surely:
        return Likely.YES
    return Likely.PERHAPS if perhaps else Likely.NO
