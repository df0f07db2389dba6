"""Reading the pull of a flywheel from what was typed, and whether its holes will do."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.both_systems import both_lengths, both_torques
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.pull import Pull, PullAnswer, PullVerdict
from bellcrank.fastening.puller import judge_pull
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.model import Library
from bellcrank.shop.numbers import USUAL_INTO, material_named, strength_named
from bellcrank.shop.tapers import release_range
from bellcrank.units import read, read_positive, to_si

STATES = ("clean", "fretted", "not known")
BOLTS = {"two": 2, "three": 3}
USUAL_SCREW = "M8"  # in the middle of the puller
SEAT = ("ratio", "mean_diameter", "length", "nut", "nut_torque")
FORCES = ("force_low", "force_high")
WHICH = "Type the taper and the nut that was on it, or the least and the most force you know, not both."
COUNTED = {  # what the two forces stand for, where they are not those of a clean and of a fretted taper
    "clean": "Only a clean taper is counted, from oily to dry; a fretted one asks for far more.",
    "fretted": "Only a fretted taper is counted, from its least to its most.",
}
OTHER_WAYS = "a puller that grips under the hub, or gentle warmth on the hub, fuel well away and never on the magnets"
TENTH = to_si(0.1, "mm", "length")  # a depth is told in tenths, rounded up
TYPED_FORCES = "The forces were typed; taper and nut were not asked."


@dataclass(frozen=True, slots=True)
class JudgedPull:
    """A pull as it was typed, and the answer."""

    pull: Pull
    answer: PullAnswer
    counted: str | None  # what the two forces stand for; None: those of a clean and of a fretted taper


def judged_pull_from_words(library: Library, typed: Mapping[str, str]) -> JudgedPull:
    """Read a pull and say whether the holes will do.

    The keys are those of a taper and a nut with state, or force_low and force_high; bolt, strength, engaged, circle;
    and where known bolts, into, tapped, hub_depth, off_centre and screw.
    """
    pull = _pull(library, typed)
    return JudgedPull(pull, judge_pull(pull), _counted(typed))


def pull_words(pull: Pull, answer: PullAnswer, unit: str) -> str:
    """Say whether the holes will do and where to stop, torques first in ``unit``, lengths in its system."""
    stop = f"top at {both_torques(answer.screw_torque_limit, unit)} on the centre screw"
    others = f"a third hole, {OTHER_WAYS}" if pull.bolts == 2 else OTHER_WAYS
    match answer.verdict:
        case PullVerdict.ENOUGH:
            return f"Enough thread, for {_highest(pull)} too. S{stop} all the same."
        case PullVerdict.CLEAN_ONLY:
            return f"Enough thread if the taper is clean, not if it is fretted. S{stop}; if it still holds: {others}."
        case PullVerdict.LEAST_ONLY:
            return f"Enough thread for the least force, not for the most. S{stop}; if it still holds: {others}."
        case PullVerdict.ANOTHER_WAY if answer.needed_clean is None:
            return f"No depth of thread helps, the bolts would yield first. Use stronger ones, or {others}."
        case PullVerdict.ANOTHER_WAY:
            return f"The thread would strip, and the hub has no room for more of it. Use {others}."
        case PullVerdict.SCREW_IN_DEEPER:
            start, has = "Screw in", "the hole has it"
        case PullVerdict.TAP_DEEPER:
            known = pull.hub_depth is not None
            start, has = "Tap", "the hub has room" if known else "look first whether the hub has room"
    depth = both_lengths(math.ceil(answer.deeper / TENTH - 1e-9) * TENTH, unit, 1)
    lowest = "a clean taper, not for a fretted one" if pull.clean_to_fretted else "the least force, not for the most"
    whom = lowest if answer.deeper_for_least else f"{_highest(pull)} too"
    return f"{start} deeper: {depth} of full thread is enough for {whom}; {has}. As it is now, s{stop}."


def _highest(pull: Pull) -> str:
    return "a fretted taper" if pull.clean_to_fretted else "the most force"


def _pull(library: Library, typed: Mapping[str, str]) -> Pull:
    state = typed.get("state") or STATES[-1]
    if state not in STATES:
        raise NotUnderstood(f"The taper is said to be “{state}”; it must be {', '.join(STATES)}. Look at it.", "state")
    low, high = _release(typed)
    engaged = _length(typed.get("engaged", ""), "Thread engaged")
    tapped, hub_depth = typed.get("tapped", ""), typed.get("hub_depth", "")
    return Pull(
        release_low=low,
        release_high=high,
        thread=parse_thread(typed.get("bolt", "")),
        strength=strength_named(library, typed.get("strength", "")),
        hub=material_named(library, typed.get("into") or USUAL_INTO, "into"),
        engaged=engaged,
        tapped_depth=_length(tapped, "Tapped depth") if tapped else engaged,
        screw=parse_thread(typed.get("screw") or USUAL_SCREW),
        circle_radius=_length(typed.get("circle", ""), "From the middle to a bolt"),
        hub_depth=_length(hub_depth, "Depth of the hub") if hub_depth else None,
        bolts=_bolts(typed.get("bolts") or "two"),
        off_centre=_off_centre(typed.get("off_centre", "")),
        clean_to_fretted=_counted(typed) is None,
    )


def _release(typed: Mapping[str, str]) -> tuple[float, float]:
    """Give the least and the most force [N] that frees the hub: as typed, or from taper, nut and state."""
    seat, forces = ([typed.get(name, "") for name in names] for names in (SEAT, FORCES))
    if any(seat) == any(forces) or not (all(seat) or all(forces)):
        raise NotUnderstood(f"It is not clear what frees the hub. {WHICH}")
    if all(seat):
        return release_range(typed)
    if typed.get("state") in COUNTED:
        raise NotUnderstood("The state of the taper is in the forces already. Leave the state out, or type the taper.")
    least, most = (read_positive(text, "force", default="kN", what="Force to release").si for text in forces)
    return least, most


def _counted(typed: Mapping[str, str]) -> str | None:
    return TYPED_FORCES if typed.get("force_low") else COUNTED.get(typed.get("state", ""))


def _bolts(typed: str) -> int:
    if typed not in BOLTS:
        raise NotUnderstood(f"“{typed}” bolts do not pull here; it must be {' or '.join(BOLTS)}.", "bolts")
    return BOLTS[typed]


def _off_centre(typed: str) -> float:
    off = read(typed, "length", default="mm", what="Off the middle").si if typed else 0.0
    if off < 0:
        raise NotUnderstood(f"Off the middle is {typed}; it must be zero or more. Measure it again.", "off_centre")
    return off


def _length(text: str, what: str) -> float:
    return read_positive(text, "length", default="mm", what=what).si
