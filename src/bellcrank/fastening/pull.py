"""A pull by the holes of a hub: what is asked, and what is answered."""

from dataclasses import dataclass
from enum import StrEnum

from bellcrank.errors import OutOfRange
from bellcrank.fastening.joint import USUAL_FRICTION
from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.strength import Material, StrengthClass
from bellcrank.fastening.threads import Thread
from bellcrank.measuring.refusals import refuse_if_negative, refuse_unless_positive
from bellcrank.units import show, to_si

USUAL_TIP = to_si(2, "mm", "length")  # mean radius at which a pointed screw rubs on the crank's end: guess
FEWEST_PITCHES = 2.0  # [-] in contact: below it the strip formulae do not hold


@dataclass(frozen=True, slots=True)
class Pull:
    """A hub, the holes in it, and what is screwed in; lengths in m, forces in N."""

    release_low: float  # of a clean taper, unless clean_to_fretted is false
    release_high: float  # of a fretted one
    thread: Thread  # of the bolts in the hub
    strength: StrengthClass
    hub: Material
    engaged: float  # full thread in contact
    tapped_depth: float  # full thread the hole has
    screw: Thread  # in the middle
    circle_radius: float  # from the crank's axis to a bolt
    hub_depth: float | None = None  # how deep the hub could be tapped; None: not known
    bolts: int = 2
    off_centre: float = 0.0  # of the screw
    core_hole: float | None = None  # measured inside the thread; None: as a tap drill leaves it
    formed_again: bool = False  # a screw formed the thread, and this is not its first use
    friction: float = USUAL_FRICTION  # of the screws and under the tip [-]
    tip_radius: float = USUAL_TIP
    clean_to_fretted: bool = True  # false: the forces are the least and the most of one and the same state


class PullVerdict(StrEnum):
    """What to do about the holes."""

    ENOUGH = "enough thread"
    CLEAN_ONLY = "enough for a clean taper only"
    LEAST_ONLY = "enough for the least force only"  # where the forces are not those of clean and fretted
    SCREW_IN_DEEPER = "screw in deeper"
    TAP_DEEPER = "tap deeper"
    ANOTHER_WAY = "use another way"


@dataclass(frozen=True, slots=True)
class Against:
    """A number against the lower force, that of a clean taper, and against the higher, that of a fretted one."""

    clean: float
    fretted: float


@dataclass(frozen=True, slots=True)
class PullAnswer:
    """Whether the holes will do, and how far to turn; forces in N, torques in N·m, lengths in m."""

    verdict: PullVerdict
    deeper: float  # full thread that is enough, where the verdict is to go deeper; else zero
    deeper_for_least: bool  # whether that is enough for the lower force only
    load: Against  # on the heaviest loaded bolt
    strip_geometric: float  # one hole, new and full
    strip_usable: float  # one pitch lost, knocked down, worn
    bolt_proof: float
    allowed: float  # on one bolt, with margin
    hole_margin: Against  # usable strip force over load [-]
    bolt_margin: Against  # proof load over load [-]
    screw_torque_limit: float  # when the screw in the middle is turned
    bolt_torque_limit: float  # on each bolt, when those are turned against a bar
    needed_clean: float | None  # full thread engaged; None when no depth helps
    needed_fretted: float | None
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...]


def refuse_a_pull_that_cannot_be(pull: Pull) -> None:
    """Refuse forces and lengths that contradict each other, in words for the bench."""
    low, high = ("a clean taper", "a fretted taper") if pull.clean_to_fretted else ("it at least", "it at most")
    refuse_if_negative(f"Force to release {low}", pull.release_low, "kN", "force")
    refuse_unless_positive(f"Force to release {high}", pull.release_high, "kN", "force")
    refuse_unless_positive("Thread engagement", pull.engaged, "mm", "length")
    if pull.release_low > pull.release_high:
        raise OutOfRange(
            f"To release {low} would take {show(pull.release_low, 'kN', 'force')} and {high} "
            f"{show(pull.release_high, 'kN', 'force')}; it must be the other way round. Swap the two."
        )
    deep = [("the hole has", pull.tapped_depth, "engaged", pull.engaged)]
    if pull.hub_depth is not None:
        deep.append(("the hub has", pull.hub_depth, "tapped", pull.tapped_depth))
    for has, most, what, length in deep:
        if not length <= most:
            raise OutOfRange(
                f"{show(length, 'mm', 'length', 1)} of thread is said to be {what}, but {has} only "
                f"{show(most, 'mm', 'length', 1)}. Measure both again with a wire."
            )
    if pull.engaged < FEWEST_PITCHES * pull.thread.pitch:
        raise OutOfRange(
            f"Only {pull.engaged / pull.thread.pitch:.1f} threads of {pull.thread.name} are engaged; it must be "
            f"{FEWEST_PITCHES:g} or more to pull at all. Screw in or tap deeper, then ask again."
        )
    _refuse_a_wrong_hole(pull)


def _refuse_a_wrong_hole(pull: Pull) -> None:
    if pull.core_hole is None:
        return
    low, high = thread_limits(pull.thread).hole_minor_min, pull.thread.diameter
    if not 0.9 * low <= pull.core_hole < high:
        raise OutOfRange(
            f"The hole inside the thread is {show(pull.core_hole, 'mm', 'length')}; for {pull.thread.name} it must be "
            f"{show(low, 'mm', 'length')} or more and under {show(high, 'mm', 'length')}. Measure between the threads."
        )
