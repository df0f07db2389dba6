"""A hand put to use: against a wanted torque, and carried over to a thread it was never measured on."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from bellcrank.both_systems import torque_beside
from bellcrank.errors import OutOfRange
from bellcrank.fastening.hand import HandOnThread, span
from bellcrank.fastening.threads import Thread, stress_area
from bellcrank.measuring.refusals import refuse_unless_positive
from bellcrank.units import show

SHARES = (
    (1 / 10, "a tenth"), (1 / 5, "a fifth"), (1 / 4, "a quarter"), (1 / 3, "a third"), (1 / 2, "half"),
    (2 / 3, "two thirds"), (3 / 4, "three quarters"), (9 / 10, "nine tenths"),
)  # fmt: skip
NEAR_SHARE = 0.03  # [-] how near a share must lie to one of these to be called so
LEAST_SHARE = 0.05  # [-] below it is a little
TIMES = {2: "twice", 3: "three times", 4: "four times"}
NEAR_TIMES = 0.05  # [-] how near a ratio must lie to a whole one, over it, to be called so
TOO_FAR = 1.6  # [-] diameter over the nearest measured one beyond which nothing is carried over: M8 to M12 is 1.5
CARRIED_ERROR = 0.25  # [-] added either way for a size never measured: guess


@dataclass(frozen=True, slots=True)
class HandAgainst:
    """A hand beside the torque that is wanted."""

    off_by: float  # mean over wanted, less one: above zero too hard [-]
    sure: bool  # whether that is more than the readings' own uncertainty
    correction: float  # what to multiply the pull by [-]
    inside: bool  # whether nine of ten pulls stay in the window
    words: str


@dataclass(frozen=True, slots=True)
class CarriedHand:
    """What a hand probably does on a thread it was not measured on; torques in N·m."""

    thread: Thread
    low: float
    mean: float
    high: float
    measured_on: tuple[str, ...]

    @property
    def words(self) -> str:
        """Say the window, and that it is a carried-over one."""
        name, others = self.thread.name, " and ".join(self.measured_on)
        return (
            f"By your hand {name} probably gets {span(self.low, self.high)}: never measured, carried over from "
            f"{others} and made wider. Five readings of {name} would settle it."
        )


def hand_against(hand: HandOnThread, wanted: float, *, low: float, high: float, unit: str = "N·m") -> HandAgainst:
    """Judge a hand against a torque and its window.

    Parameters
    ----------
    hand : HandOnThread
        The hand on the thread in question. [-]
    wanted : float
        Torque it should be. [N·m]
    low, high : float
        Window that torque has. [N·m]
    unit : str
        Unit the words say torques in first. [-]

    Returns
    -------
    HandAgainst
        How far off, by what to correct, and whether feel will do. [-]

    Raises
    ------
    OutOfRange
        When the wanted torque is not inside its window.

    Notes
    -----
    A hand of 12 N·m where 9 is wanted is off by 12/9 - 1 = 1/3; correction 9/12 = 0.75, a quarter less.

    Examples
    --------
    >>> from bellcrank.fastening.hand import hand_on
    >>> from bellcrank.fastening.threads import parse_thread
    >>> hand = hand_on(parse_thread("M6"), [11.5, 12.0, 12.5, 12.0, 12.0])
    >>> hand_against(hand, 9.0, low=7.0, high=10.0).words
    'You tighten M6×1 a third too hard: 12.0 N·m where 9.0 N·m is wanted. Pull a quarter less, or use the wrench.'
    """
    refuse_unless_positive("Low end of the window", low, "N·m", "torque")
    if not low <= wanted <= high:
        raise OutOfRange(
            f"The wanted torque is {show(wanted, 'N·m', 'torque')}; it must lie in its window, {span(low, high)}. "
            "Type the three again."
        )
    off_by = hand.mean / wanted - 1
    sure = abs(hand.mean - wanted) > hand.mean_uncertainty
    inside = low <= hand.low and hand.high <= high
    words = _words(hand, (wanted, high), unit, sure=sure, inside=inside)
    return HandAgainst(off_by=off_by, sure=sure, correction=wanted / hand.mean, inside=inside, words=words)


def carry_over(hands: Sequence[HandOnThread], thread: Thread) -> CarriedHand:
    """Carry a hand over to a thread it was not measured on, wider than on any it was.

    Parameters
    ----------
    hands : sequence of HandOnThread
        The same hand on two or more sizes. [-]
    thread : Thread
        The size to carry over to. [-]

    Returns
    -------
    CarriedHand
        Window that hand probably has there. [N·m]

    Raises
    ------
    OutOfRange
        When fewer than two sizes were measured, or the thread is far from all of them.

    Notes
    -----
    A chart's torque grows as d As. Each size gives the hand's share of that, mean / (d As); the median of the shares
    holds for the new size, so that one odd size does not sway it, and its window runs from the lowest to the highest
    end any size gives, 25 % more either way (a guess). A nut factor or a strength would cancel and is left out.

    By hand: M6 7 N·m ± 40 %, M8 20 N·m ± 30 %. d As: M6 0.006 x 20.12 mm² = 0.1207, M8 0.008 x 36.61 = 0.2929, M7
    0.007 x 28.86 = 0.2020. Shares 58.0 and 68.3, median 63.1: M7 63.1 x 0.2020 = 12.8 N·m. Low ends 34.8 and 47.8, so
    34.8 x 0.2020/1.25 = 5.6 N·m; high ends 81.2 and 88.8, so 88.8 x 0.2020 x 1.25 = 22.4 N·m.

    Examples
    --------
    >>> from bellcrank.fastening.hand import hand_on
    >>> from bellcrank.fastening.threads import parse_thread
    >>> small = hand_on(parse_thread("M6"), [6.5, 7.0, 7.0, 7.5, 7.0])
    >>> large = hand_on(parse_thread("M8"), [19.0, 20.0, 20.0, 21.0, 20.0])
    >>> round(carry_over([small, large], parse_thread("M7")).mean, 1)
    12.8
    """
    sizes = sorted({hand.thread.diameter for hand in hands})
    if len(sizes) < 2:
        raise OutOfRange(
            "A hand is carried over from two sizes of thread or more; how it grows with the size is not known from "
            "one. Take five readings on another size."
        )
    apart = min(math.exp(abs(math.log(thread.diameter / size))) for size in sizes)
    if apart > TOO_FAR:
        raise OutOfRange(
            f"{thread.name} is {apart:.1f} times off the nearest size this hand was measured on; it must be "
            f"{TOO_FAR:g} times at most. Take five readings on {thread.name}, or use the wrench."
        )
    scale = _scale(thread)
    return CarriedHand(
        thread=thread,
        low=scale * min(hand.low / _scale(hand.thread) for hand in hands) / (1 + CARRIED_ERROR),
        mean=scale * median(hand.mean / _scale(hand.thread) for hand in hands),
        high=scale * max(hand.high / _scale(hand.thread) for hand in hands) * (1 + CARRIED_ERROR),
        measured_on=tuple(hand.thread.name for hand in hands),
    )


def _scale(thread: Thread) -> float:
    return thread.diameter * stress_area(thread)


def _words(hand: HandOnThread, torques: tuple[float, float], unit: str, *, sure: bool, inside: bool) -> str:
    wanted, most = torques
    name, goal = hand.thread.name, torque_beside(wanted, unit)
    feel = "By feel will do." if inside else f"But it spreads over {span(hand.low, hand.high, unit)}: use the wrench."
    if not sure:
        return f"Your hand is on {goal} for {name}, as far as {hand.count} readings can tell. {feel}"
    found = torque_beside(hand.mean, unit)
    if hand.mean > wanted:
        how, change = _too_hard(hand.mean, wanted, most), f"Pull {_share(1 - wanted / hand.mean)} less"
    else:
        how, change = f"{_share(1 - hand.mean / wanted)} too little", f"Pull {_more(wanted / hand.mean)}"
    then = "It stays inside the window." if inside else f"{change}, or use the wrench."
    return f"You tighten {name} {how}: {found} where {goal} is wanted. {then}"


def _too_hard(mean: float, wanted: float, most: float) -> str:
    """Say how much too hard; from twice on over the end of the window where that is passed twice too."""
    if mean / most >= 2 * (1 - NEAR_TIMES):
        return f"{_times(mean / most)} what the window bears"
    if mean / wanted >= 2 * (1 - NEAR_TIMES):
        return f"{_times(mean / wanted)} as hard as it should be"
    return f"{_share(mean / wanted - 1)} too hard"


def _more(ratio: float) -> str:
    return f"{_times(ratio)} as hard" if ratio >= 2 * (1 - NEAR_TIMES) else f"{_share(ratio - 1)} more"


def _share(share: float) -> str:
    """Say a share as it is said in a shop."""
    if share < LEAST_SHARE:
        return "a little"
    near, words = min(SHARES, key=lambda one: abs(one[0] - share))
    return words if abs(near - share) <= NEAR_SHARE else f"about {words}"


def _times(ratio: float) -> str:
    """Say a ratio from about two on."""
    whole = min(int(ratio / (1 - NEAR_TIMES)), max(TIMES))
    return TIMES[whole] if ratio <= whole * (1 + NEAR_TIMES) else f"more than {TIMES[whole]}"
