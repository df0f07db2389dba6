"""A hub seated on a taper: grip, pressure, stress, what pulls it off, and what is left with the nut loose."""

from dataclasses import dataclass
from typing import Generic

import numpy as np
from numpy.typing import NDArray

from bellcrank.fastening.hub_stress import Hub, hub_equivalent_stress, hub_hoop_stress, interference
from bellcrank.fastening.taper_forces import (
    ADVICE,
    LEAST_FRICTION,
    MOST_FRICTION,
    Quantity,
    Taper,
    normal_force_for_torque,
    seating_normal_force,
    slip_torque,
)
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside


@dataclass(frozen=True, slots=True)
class HubStrain(Generic[Quantity]):
    """What the seat does to the hub."""

    hoop_stress: Quantity  # at the bore [Pa]
    equivalent_stress: Quantity  # at the bore, after Tresca: against the yield strength [Pa]
    interference: Quantity  # in diameter [m]
    axial_advance: Quantity  # from hand-seated to torqued: a depth gauge sees it [m]


@dataclass(frozen=True, slots=True)
class TaperSeat(Generic[Quantity]):
    """A seated taper: from the torque of first slip to the one once it has settled."""

    normal_force: Quantity  # square to the flank, just after tightening [N]
    settled_normal_force: Quantity  # once it has slipped or shaken in [N]
    contact_area: float  # [m²]
    pressure: Quantity  # just after tightening [Pa]
    slip_torque_low: Quantity  # first slip [N·m]
    slip_torque_high: Quantity  # settled [N·m]
    release_force: Quantity  # to pull it off at the friction it was seated with; below zero it drops off [N]
    self_locking: bool | NDArray[np.bool_]  # stays on with the nut off
    hub: HubStrain[Quantity] | None  # None when the hub is not described


def taper_seat(
    axial_force: Quantity,
    taper: Taper,
    friction: Quantity,
    *,
    seating_friction: Quantity | None = None,
    hub: Hub | None = None,
) -> TaperSeat[Quantity]:
    """Seat a hub on its taper with a nut and give all that follows.

    Parameters
    ----------
    axial_force : float or array, shape (n,)
        Pull of the nut. [N]
    taper : Taper
        The seat by its sizes. [-]
    friction : float or array, shape (n,)
        Coefficient of friction round the shaft: it carries the torque. [-]
    seating_friction : float or array, shape (n,), optional
        Coefficient of friction along the flank: it eats the nut's pull; the same when left out. [-]
    hub : Hub, optional
        Outside diameter and materials, for the stresses and the advance. [-]

    Returns
    -------
    TaperSeat
        Forces, pressure, torque of slip low and high, and the hub's stresses. [SI]

    Raises
    ------
    OutOfRange
        When the pull is negative, a friction outside 0.03 to 0.5, or the hub has no wall.

    Notes
    -----
    N = F/(sin α + µ cos α) while seating; once the joint slips or shakes in, friction no longer holds the hub back
    and N rises to F/sin α. Pressure even along the flank. Stresses are those just after tightening.

    References
    ----------
    Niemann/Winter/Höhn, Maschinenelemente 1, cone press connection; Lamé, thick-walled cylinder.

    Examples
    --------
    >>> seat = taper_seat(25e3, Taper(0.125, 0.022, 0.025), 0.15)
    >>> round(seat.slip_torque_low), round(seat.slip_torque_high), seat.self_locking
    (194, 661, True)
    """
    along = friction if seating_friction is None else seating_friction
    refuse_outside("Friction on the taper", along, LEAST_FRICTION, MOST_FRICTION, ADVICE)
    normal = seating_normal_force(axial_force, taper, along)
    settled = axial_force / taper.sine
    pressure = normal / taper.contact_area
    return TaperSeat(
        normal_force=normal,
        settled_normal_force=settled,
        contact_area=taper.contact_area,
        pressure=pressure,
        slip_torque_low=slip_torque(normal, taper, friction),
        slip_torque_high=slip_torque(settled, taper, friction),
        release_force=taper_release(normal, taper, along),
        self_locking=along > taper.tangent,
        hub=None if hub is None else _strain(pressure, taper, hub),
    )


def nut_force_for_torque(
    torque: Quantity,
    taper: Taper,
    friction: Quantity,
    *,
    seating_friction: Quantity | None = None,
    margin: float = 1.0,
) -> Quantity:
    """Pull of the nut that seats a taper so that it holds a torque at the first blow.

    Parameters
    ----------
    torque : float or array, shape (n,)
        Torque to be held. [N·m]
    taper : Taper
        The seat by its sizes. [-]
    friction : float or array, shape (n,)
        Coefficient of friction round the shaft. [-]
    seating_friction : float or array, shape (n,), optional
        Coefficient of friction along the flank; the same when left out. [-]
    margin : float
        How many times the torque must be held. [-]

    Returns
    -------
    float or array, shape (n,)
        Pull F = N (sin α + µ cos α) with N = S T/(µ Dm/2). [N]

    Raises
    ------
    OutOfRange
        When torque or margin cannot be, or a friction is outside 0.03 to 0.5.

    References
    ----------
    Niemann/Winter/Höhn, Maschinenelemente 1, cone press connection.

    Examples
    --------
    >>> round(nut_force_for_torque(194.65, Taper(0.125, 0.022, 0.025), 0.15), -2)
    25000.0
    """
    along = friction if seating_friction is None else seating_friction
    refuse_outside("Friction on the taper", along, LEAST_FRICTION, MOST_FRICTION, ADVICE)
    normal = normal_force_for_torque(torque, taper, friction, margin=margin)
    return normal * (taper.sine + along * taper.cosine)


def taper_release(normal_force: Quantity, taper: Taper, friction: Quantity) -> Quantity:
    """Pull along the axis that takes a hub off its taper.

    Parameters
    ----------
    normal_force : float or array, shape (n,)
        Force square to the flank, as it was seated. [N]
    taper : Taper
        The seat by its sizes. [-]
    friction : float or array, shape (n,)
        Coefficient of friction along the flank when it breaks loose; a fretted taper reaches 0.25 to 0.35. [-]

    Returns
    -------
    float or array, shape (n,)
        Pull F = N (µ cos α − sin α); below zero the hub pushes itself off. [N]

    Raises
    ------
    OutOfRange
        When the force is negative or missing, or the friction outside 0.03 to 0.5.

    Notes
    -----
    Zero at µ = tan α, the limit of self-locking. Corrosion and adhesive are not in it.

    References
    ----------
    Wedge statics; self-locking when α < arctan µ, as on an open page on cone press connections.

    Examples
    --------
    >>> round(taper_release(100e3, Taper(0.125, 0.022, 0.025), 0.15), -1)
    8730.0
    """
    refuse_if_negative("Force on the flank", normal_force, "N", "force")
    refuse_outside("Friction on the taper", friction, LEAST_FRICTION, MOST_FRICTION, ADVICE)
    return normal_force * (friction * taper.cosine - taper.sine)


def taper_hold_loose(normal_force: Quantity, taper: Taper, friction: Quantity) -> Quantity:
    """Torque a stuck taper still holds with its nut off.

    Parameters
    ----------
    normal_force : float or array, shape (n,)
        Force square to the flank, as it was seated. [N]
    taper : Taper
        The seat by its sizes. [-]
    friction : float or array, shape (n,)
        Coefficient of friction on the flank. [-]

    Returns
    -------
    float or array, shape (n,)
        Torque N (Dm/2) √(µ² − tan² α) cos α; zero for a taper that is not self-locking. [N·m]

    Raises
    ------
    OutOfRange
        When the force is negative or missing, or the friction outside 0.03 to 0.5.

    Notes
    -----
    Part of the friction keeps the hub from climbing off; only the rest turns with the shaft. The factor cos α is on
    the safe side, by 0.2 % at 1:8.

    References
    ----------
    Wedge statics, friction force of one size in the direction of motion (own derivation).

    Examples
    --------
    >>> float(round(taper_hold_loose(100e3, Taper(0.125, 0.022, 0.025), 0.15), 1))
    149.7
    """
    refuse_if_negative("Force on the flank", normal_force, "N", "force")
    refuse_outside("Friction on the taper", friction, LEAST_FRICTION, MOST_FRICTION, ADVICE)
    left: Quantity = np.maximum(friction**2 - taper.tangent**2, 0.0) ** 0.5 * taper.cosine
    return normal_force * (taper.mean_diameter / 2) * left


def _strain(pressure: Quantity, taper: Taper, hub: Hub) -> HubStrain[Quantity]:
    taken_up = interference(pressure, taper.mean_diameter, hub)
    return HubStrain(
        hoop_stress=hub_hoop_stress(pressure, taper.mean_diameter, hub.outside_diameter),
        equivalent_stress=hub_equivalent_stress(pressure, taper.mean_diameter, hub.outside_diameter),
        interference=taken_up,
        axial_advance=taken_up / taper.ratio,
    )
