"""One joint many times over, with what is uncertain about it as arrays: for Monte-Carlo."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import OutOfRange
from bellcrank.fastening.clamp_limits import JointNumbers, Part
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.ways import refuse_wrong_scatter
from bellcrank.measuring.refusals import refuse_outside

Many = NDArray[np.float64]

LEAST_SHARE, MOST_SHARE = 0.05, 5.0  # [-] a strength further from the one on record is another material


@dataclass(frozen=True, slots=True)
class JointSample:
    """A joint with arrays in place of what varies; all of one length, or plain numbers. None: as the joint says."""

    joint: Joint
    friction: Many | float | None = None  # in the thread, and under the head unless that is given [-]
    head_friction: Many | float | None = None  # [-]
    engaged: Many | float | None = None  # full thread engagement [m]
    scatter: Many | float | None = None  # of the clamp [-]
    knock_down: Many | float | None = None  # share of the tapped part's strength counted on [-]
    bolt_share: Many | float = 1.0  # proof and yield, over what the class promises [-]
    hole_share: Many | float = 1.0  # shear strength of the tapped part, over what is on record [-]
    thread_share: Many | float = 1.0  # tensile strength of the screw's own thread, over what the class promises [-]
    face_share: Many | float = 1.0  # pressure limit under the head, over what is on record [-]


@dataclass(frozen=True, slots=True)
class SampledWindow:
    """The torque windows of many joints; every array of shape (n,), torques in N·m, preloads in N."""

    low: Many
    target: Many
    high: Many
    governs: NDArray[np.object_]  # the part that gives way first, a Part for each joint
    preload_low: Many
    preload_high: Many

    @property
    def counts(self) -> Mapping[Part, int]:
        """How many of the joints each part governs, the most frequent first."""
        return dict(Counter(self.governs.tolist()).most_common())


def numbers_of(joint: Joint) -> JointNumbers[float]:
    """Give the plain numbers of one joint."""
    return JointNumbers(
        thread_friction=joint.friction,
        head_friction=joint.under_head_friction,
        engaged=joint.full_thread,
        scatter=joint.spread,
        bolt_share=1.0,
        hole_share=1.0,
        thread_share=1.0,
        face_share=1.0,
    )


def sampled_numbers(sample: JointSample) -> JointNumbers[Many]:
    """Give the numbers of many joints as arrays of one length, or refuse what cannot be.

    The knock-down on record is replaced by the sample's: it counts for the hole and for the screw's own thread.
    """
    joint = sample.joint
    friction = joint.friction if sample.friction is None else sample.friction
    head = joint.head_friction if sample.head_friction is None else sample.head_friction
    knocked = 1.0 if sample.knock_down is None or joint.into is None else sample.knock_down / joint.into.knock_down
    numbers = _of_one_length(
        JointNumbers(
            thread_friction=np.asarray(friction, dtype=float),
            head_friction=np.asarray(friction if head is None else head, dtype=float),
            engaged=np.asarray(joint.full_thread if sample.engaged is None else sample.engaged, dtype=float),
            scatter=np.asarray(joint.spread if sample.scatter is None else sample.scatter, dtype=float),
            bolt_share=np.asarray(sample.bolt_share, dtype=float),
            hole_share=np.asarray(sample.hole_share * knocked, dtype=float),
            thread_share=np.asarray(sample.thread_share * knocked, dtype=float),
            face_share=np.asarray(sample.face_share, dtype=float),
        )
    )
    refuse_wrong_scatter(numbers.scatter)
    for words, share in (
        ("Strength of the bolt", numbers.bolt_share),
        ("Strength of the tapped thread", numbers.hole_share),
        ("Strength of the screw's own thread", numbers.thread_share),
        ("Pressure limit under the head", numbers.face_share),
    ):
        advice = "It is a share of the strength on record; 1 is that strength."
        refuse_outside(f"{words}, as a share of the one on record,", share, LEAST_SHARE, MOST_SHARE, advice)
    return numbers


def _of_one_length(numbers: JointNumbers[Many]) -> JointNumbers[Many]:
    given = {one.name: np.atleast_1d(getattr(numbers, one.name)) for one in fields(numbers)}
    lengths = {array.shape for array in given.values() if array.shape != (1,)}
    if len(lengths) > 1 or any(len(shape) != 1 for shape in lengths):
        told = " and ".join(" × ".join(map(str, shape)) for shape in sorted(lengths))
        raise OutOfRange(f"The sample's arrays have {told} numbers; they must all be of one length. Draw them again.")
    length = lengths.pop() if lengths else (1,)
    return JointNumbers(**{name: np.broadcast_to(array, length) for name, array in given.items()})
