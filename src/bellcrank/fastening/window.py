"""The torque nobody published: what limits the joint, and the window that stays clear of it."""

from dataclasses import dataclass
from typing import overload

import numpy as np

from bellcrank.both_systems import both_lengths, both_torques
from bellcrank.fastening.clamp_limits import limits_of
from bellcrank.fastening.galvanised import galvanised_words
from bellcrank.fastening.joint import Joint, refuse_wrong_joint
from bellcrank.fastening.joint_sample import JointSample, SampledWindow, sampled_numbers
from bellcrank.fastening.widening import Limit, wider, worded_limits
from bellcrank.sources import Basis

TARGET_SHARE = 0.90  # [-] of the window's upper end, so that a wrench off by a tenth is still inside
LOW_SHARE = 0.75  # [-] of the upper end: below it the clamp may halve with the scatter


@dataclass(frozen=True, slots=True)
class TorqueWindow:
    """A torque with what it rests on; torques in N·m, preloads in N."""

    low: float
    target: float
    high: float
    governs: str
    widen: str
    widened_high: float | None  # the upper end when that is done; None: it depends on what is fitted
    basis: Basis
    preload_low: float  # the least clamp inside the window, scatter counted
    preload_high: float  # the most
    scatter: float  # of the clamp, counted either side of its mean [-]
    limits: tuple[Limit, ...]  # the governing one first
    assumptions: tuple[str, ...]


@overload
def recommend_torque(joint: Joint) -> TorqueWindow: ...
@overload
def recommend_torque(joint: JointSample) -> SampledWindow: ...


def recommend_torque(joint: Joint | JointSample) -> TorqueWindow | SampledWindow:
    """Give the torque window of a joint, the limit that governs it, and what would widen it.

    Parameters
    ----------
    joint : Joint or JointSample
        The screw and what it holds; a sample holds arrays of shape (n,) in place of what varies. [-]

    Returns
    -------
    TorqueWindow or SampledWindow
        Window and target with the governing limit; for a sample, arrays of shape (n,). [N·m]

    Raises
    ------
    OutOfRange
        When the joint cannot be computed: plastic, too few threads, a class not made in that size.
    NotUnderstood
        When the head or the way of tightening is not known.

    Notes
    -----
    The most preload is the least of 0.75 proof load (or 0.9 yield with the twist counted), low strip force / 1.5,
    face pressure limit x pressed area, and what neck and gasket bear where there are such; the upper end of the window
    is the torque whose mean preload stays below it by the scatter of the tool. The shares of low and target are taken
    of what clamps, a locking nut's own torque comes on top. A nut is taken as full height and as strong as its bolt.

    References
    ----------
    MIL-HDBK-60 (Table I, Appendix B); FED-STD-H28/2B, Table II.B.1; VDI 2230:2003, limit pressures under the head.

    Examples
    --------
    >>> from bellcrank.fastening.strength import Material, StrengthClass, StrengthRange
    >>> from bellcrank.fastening.threads import parse_thread
    >>> steel = StrengthRange(0.0016, 0.016, 800e6, 640e6, 580e6, Basis.TABLE, "iso-898-1")
    >>> cast = Material("cast", "die-cast aluminium", 324e6, 190e6, 290e6, 0.7, Basis.TABLE, "nadca")
    >>> bolt = StrengthClass("8.8", "class 8.8", (steel,))
    >>> joint = Joint(parse_thread("M6"), bolt, cast, cast, "hex", 0.012, 0.12)
    >>> round(recommend_torque(joint).high, 1)
    6.4
    >>> recommend_torque(JointSample(joint, friction=np.array([0.12, 0.15]))).high.round(1).tolist()
    [6.4, 7.7]
    """
    if isinstance(joint, JointSample):
        return _sampled(joint)
    refuse_wrong_joint(joint)
    limits = worded_limits(joint)
    governing, widening = limits[0], wider(joint, limits)
    own = joint.prevailing_torque
    return TorqueWindow(
        low=own + LOW_SHARE * (governing.torque - own),
        target=own + TARGET_SHARE * (governing.torque - own),
        high=governing.torque,
        governs=governing.words,
        widen=widening.words,
        widened_high=widening.high,
        basis=Basis.COMPUTED,
        preload_low=LOW_SHARE * (governing.preload / (1 + joint.spread)) * (1 - joint.spread),
        preload_high=governing.preload,
        scatter=joint.spread,
        limits=limits,
        assumptions=_assumptions(joint),
    )


def _sampled(sample: JointSample) -> SampledWindow:
    refuse_wrong_joint(sample.joint)
    numbers = sampled_numbers(sample)
    limits = limits_of(sample.joint, numbers)
    preloads = np.stack([one.preload for one in limits.values()])
    torques = np.stack([one.torque for one in limits.values()])
    first = preloads.argmin(axis=0)[np.newaxis]
    preload, torque = (np.take_along_axis(array, first, axis=0)[0] for array in (preloads, torques))
    own = sample.joint.prevailing_torque
    return SampledWindow(
        low=own + LOW_SHARE * (torque - own),
        target=own + TARGET_SHARE * (torque - own),
        high=torque,
        governs=np.array(list(limits), dtype=object)[first[0]],
        preload_low=LOW_SHARE * (preload / (1 + numbers.scatter)) * (1 - numbers.scatter),
        preload_high=preload,
    )


def _assumptions(joint: Joint) -> tuple[str, ...]:
    made = [_friction_words(joint)]
    face = joint.turned_face
    if face.assumed:
        made.append(face.assumed)
    if joint.into is not None and joint.engaged is None:
        made.append(
            f"Full thread engaged was not measured; {both_lengths(joint.full_thread, digits=1)}, one diameter of the "
            "screw, is assumed. Measure it with a wire."
        )
    how = f"Tightened by {joint.tightened_by}" if joint.scatter is None else "By the scatter you gave"
    made.append(f"{how}: the clamp scatters ±{joint.spread:.0%}.")
    if joint.prevailing_torque > 0:
        own = both_torques(joint.prevailing_torque)
        made.append(f"The locking nut's own {own} is in the torque; measure it while the nut turns and does not clamp.")
    if joint.into is not None:
        made.append(f"Thread in the {joint.into.words} sound; {joint.into.knock_down:.0%} of its strength counted on.")
    return (*galvanised_words(joint), *made)


def _friction_words(joint: Joint) -> str:
    grease = "grease lowers it and overloads the joint."
    if joint.head_friction is None:
        return f"Friction {joint.friction:g} in the thread and under the head; {grease}"
    return f"Friction {joint.friction:g} in the thread, {joint.head_friction:g} under the head; {grease}"
