"""Torque and tension: how hard a pull on the wrench clamps, and how hard a bolt may be clamped."""

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import NotUnderstood
from bellcrank.fastening.threads import Thread, pitch_diameter, stress_area
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

LEAST_FRICTION = 0.03  # [-] below it no published table of threads and heads reaches
MOST_FRICTION = 0.5  # [-] above it threads seize rather than turn
# [-] shear over 16 T/(π d³) x d/8: a core that yields all through spreads the twist, one just yielding outside does not
TWIST_SHARES = {"plastic": 1.5, "elastic": 2.0}
FLANK_COSINE = math.cos(math.radians(30))  # [-] half the 60° thread angle


def nut_factor(
    thread: Thread,
    *,
    thread_friction: Quantity,
    head_friction: Quantity,
    bearing_diameter: float,
    hole_diameter: float,
) -> Quantity:
    """Nut factor K of T = K d F, from the friction under the head and in the thread.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]
    thread_friction : float or array, shape (n,)
        Coefficient of friction in the thread. [-]
    head_friction : float or array, shape (n,)
        Coefficient of friction under the turning head or nut. [-]
    bearing_diameter : float
        Outside diameter of the face under the head. [m]
    hole_diameter : float
        Diameter of the clearance hole under the head. [m]

    Returns
    -------
    float or array, shape (n,)
        Nut factor K. [-]

    Raises
    ------
    OutOfRange
        When a friction is outside 0.03 to 0.5, or the face is no larger than its hole.

    Notes
    -----
    K d = P/(2π) + µt d2/(2 cos 30°) + µh (dw + dh)/4; small lead angle, elastic bolt, no adhesive.

    References
    ----------
    N. Motosh's long form as in MIL-HDBK-60, Appendix B, and VDI 2230:2001.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> face = {"bearing_diameter": 0.00888, "hole_diameter": 0.0066}
    >>> round(nut_factor(parse_thread("M6"), thread_friction=0.12, head_friction=0.12, **face), 3)
    0.166
    """
    _refuse_wrong_friction(thread_friction, head_friction)
    _refuse_wrong_face(bearing_diameter, hole_diameter)
    lead_arm = thread.pitch / (2 * math.pi)
    thread_arm = thread_friction * pitch_diameter(thread) / (2 * FLANK_COSINE)
    head_arm = head_friction * (bearing_diameter + hole_diameter) / 4
    return (lead_arm + thread_arm + head_arm) / thread.diameter


def torque_for_preload(
    preload: Quantity,
    thread: Thread,
    *,
    thread_friction: Quantity,
    head_friction: Quantity,
    bearing_diameter: float,
    hole_diameter: float,
    prevailing_torque: float = 0.0,
) -> Quantity:
    """Torque that clamps with a wanted preload.

    Parameters
    ----------
    preload : float or array, shape (n,)
        Wanted clamp. [N]
    thread : Thread
        The thread by its nominal sizes. [-]
    thread_friction : float or array, shape (n,)
        Coefficient of friction in the thread. [-]
    head_friction : float or array, shape (n,)
        Coefficient of friction under the turning head or nut. [-]
    bearing_diameter : float
        Outside diameter of the face under the head. [m]
    hole_diameter : float
        Diameter of the clearance hole under the head. [m]
    prevailing_torque : float
        Torque a locking nut needs before it clamps at all. [N·m]

    Returns
    -------
    float or array, shape (n,)
        Torque at the wrench. [N·m]

    Raises
    ------
    OutOfRange
        When preload or prevailing torque is negative or missing, or as for :func:`nut_factor`.

    References
    ----------
    MIL-HDBK-60, Appendix B; VDI 2230:2001.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> face = {"bearing_diameter": 0.00888, "hole_diameter": 0.0066}
    >>> round(torque_for_preload(10_180.0, parse_thread("M6"), thread_friction=0.12, head_friction=0.12, **face), 1)
    10.1
    """
    refuse_if_negative("Preload", preload, "N", "force")
    refuse_if_negative("Prevailing torque", prevailing_torque, "N·m", "torque")
    factor = nut_factor(
        thread,
        thread_friction=thread_friction,
        head_friction=head_friction,
        bearing_diameter=bearing_diameter,
        hole_diameter=hole_diameter,
    )
    return preload * (factor * thread.diameter) + prevailing_torque


def preload_for_torque(
    torque: Quantity,
    thread: Thread,
    *,
    thread_friction: Quantity,
    head_friction: Quantity,
    bearing_diameter: float,
    hole_diameter: float,
    prevailing_torque: float = 0.0,
) -> Quantity:
    """Clamp that a torque at the wrench brings, with the friction as given.

    Parameters
    ----------
    torque : float or array, shape (n,)
        Torque at the wrench. [N·m]
    thread : Thread
        The thread by its nominal sizes. [-]
    thread_friction : float or array, shape (n,)
        Coefficient of friction in the thread. [-]
    head_friction : float or array, shape (n,)
        Coefficient of friction under the turning head or nut. [-]
    bearing_diameter : float
        Outside diameter of the face under the head. [m]
    hole_diameter : float
        Diameter of the clearance hole under the head. [m]
    prevailing_torque : float
        Torque a locking nut needs before it clamps at all. [N·m]

    Returns
    -------
    float or array, shape (n,)
        Preload. [N]

    Raises
    ------
    OutOfRange
        When the torque is negative, missing or below the prevailing torque, or as for :func:`nut_factor`.

    References
    ----------
    MIL-HDBK-60, Appendix B; VDI 2230:2001.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> face = {"bearing_diameter": 0.00888, "hole_diameter": 0.0066}
    >>> round(preload_for_torque(10.12, parse_thread("M6"), thread_friction=0.12, head_friction=0.12, **face), -2)
    10200.0
    """
    refuse_if_negative("Torque", torque, "N·m", "torque")
    refuse_if_negative("Prevailing torque", prevailing_torque, "N·m", "torque")
    refuse_if_negative("Torque left after the locking nut's own drag", torque - prevailing_torque, "N·m", "torque")
    factor = nut_factor(
        thread,
        thread_friction=thread_friction,
        head_friction=head_friction,
        bearing_diameter=bearing_diameter,
        hole_diameter=hole_diameter,
    )
    return (torque - prevailing_torque) / (factor * thread.diameter)


def preload_at_yield(
    thread: Thread,
    yield_strength: float,
    *,
    thread_friction: Quantity,
    utilisation: float = 0.9,
    twist: str = "plastic",
) -> Quantity:
    """Preload at which pull and twist together use a share of the bolt's yield strength.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]
    yield_strength : float
        Yield or 0.2 % proof strength of the bolt. [Pa]
    thread_friction : float or array, shape (n,)
        Coefficient of friction in the thread; more friction, more twist. [-]
    utilisation : float
        Share of the yield strength used, 0.9 in VDI 2230. [-]
    twist : str
        "plastic": the core yields all through (VDI 2230); "elastic": it just yields outside (MIL-HDBK-60). [-]

    Returns
    -------
    float or array, shape (n,)
        Preload while still being turned. [N]

    Raises
    ------
    OutOfRange
        When the strength is not above zero, the share not in (0, 1], or the friction outside 0.03 to 0.5.
    NotUnderstood
        When the twist is neither plastic nor elastic.

    Notes
    -----
    ν Rp As / √(1 + 3 [c (d2/d0) (P/(π d2) + 1.155 µ)]²), c = 3/2 plastic or 2 elastic, d0 = √(4 As/π).

    References
    ----------
    VDI 2230:2001, assembly preload (F_M,zul); MIL-HDBK-60, section 5.5.1.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(preload_at_yield(parse_thread("M6"), 640e6, thread_friction=0.12), -1)
    10180.0
    """
    refuse_unless_positive("Yield strength", yield_strength, "MPa", "pressure")
    refuse_outside("Share of yield", utilisation, 0.01, 1.0, "VDI 2230 uses 0.9.")
    _refuse_wrong_friction(thread_friction, thread_friction)
    if twist not in TWIST_SHARES:
        raise NotUnderstood(f"“{twist}” is no way to count the twist; it must be {' or '.join(TWIST_SHARES)}.")
    middle, area = pitch_diameter(thread), stress_area(thread)
    core = math.sqrt(4 * area / math.pi)
    sheared = TWIST_SHARES[twist] * middle / core * (thread.pitch / (math.pi * middle) + thread_friction / FLANK_COSINE)
    clamp: Quantity = utilisation * yield_strength * area / (1 + 3 * sheared**2) ** 0.5
    return clamp


def _refuse_wrong_friction(thread_friction: Quantity, head_friction: Quantity) -> None:
    advice = "Oiled steel is near 0.12, dry zinc near 0.25."
    refuse_outside("Friction in the thread", thread_friction, LEAST_FRICTION, MOST_FRICTION, advice)
    refuse_outside("Friction under the head", head_friction, LEAST_FRICTION, MOST_FRICTION, advice)


def _refuse_wrong_face(bearing_diameter: float, hole_diameter: float) -> None:
    refuse_unless_positive("Diameter of the face under the head", bearing_diameter, "mm", "length")
    refuse_unless_positive("Diameter of the hole under the head", hole_diameter, "mm", "length")
    refuse_unless_positive("Width of the face around the hole", bearing_diameter - hole_diameter, "mm", "length")
