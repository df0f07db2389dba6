"""Reading a governor from what was typed: droop both ways, a swing, the blade it turns, how it swings."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.cutting.blade import HIGHEST_TIP_SPEED, measured_tip_speed
from bellcrank.engine.governor import DroopOf, droop, no_load_speed
from bellcrank.errors import NotFound, NotUnderstood, OutOfRange
from bellcrank.handback.proofs import BLADE_UNCERTAINTY_M, BLADES, FASTEST, SPEED_UNCERTAINTY
from bellcrank.measuring.conformity import Verdict, judge_at_most
from bellcrank.measuring.measured import Measured
from bellcrank.shop.governor_weights import OF_WEIGHTS, Weighted, weighted_from_words
from bellcrank.units import read_positive, show

BASES = {"rated": DroopOf.RATED, "no-load": DroopOf.NO_LOAD}
LEAST_PERCENT, MOST_PERCENT = 0.5, 30.0  # [%] beyond them it is a slip of the pen, or nothing that governs: guess
SWINGS = {  # how it swings with nothing to do: what that means; common practice, no source
    "steady": "it holds its speed: leave governor and spring as they are.",
    "evenly": (
        "it swings quickly and evenly: the governor is too sensitive. The spring is too soft, stretched, or hooked in "
        "a hole too near the pivot. Hook it where the maker has it; more droop is the price of standing still."
    ),
    "calms with choke": (
        "it calms with a little choke or some work to do: the idle mixture is lean. Clean the idle circuit and look "
        "for an air leak at the flange before anybody touches the governor."
    ),
    "sticks": (
        "it wanders slowly, or stays where it was pushed: linkage or throttle shaft sticks, so the governor moves too "
        "late and then too far. Free and straighten it before the spring is judged."
    ),
}
RUNNING = (
    "The blade turns while speeds are read: outdoors, nobody in line with it, hands and sleeves clear of everything.",
    "Stop the engine and take the plug lead off before a hand goes to spring or linkage.",
    "Never above the maker's top speed, not for a moment: stop at once when it runs away. A blade or rod can let go.",
)
LIMITS = (
    "Of rated speed is how the standard counts droop (ISO 8528, from memory); the trade often counts it of no-load "
    "speed. Compare only like with like.",
    "Full load is the load the lower speed was read under: a lighter one shows less droop.",
    "What a swing means is common practice, no source. Most hunting is fuel: look at the mixture first.",
)


@dataclass(frozen=True, slots=True)
class Swing:
    """How far the speed swings with the throttle left alone; speeds in rad/s."""

    low: float
    high: float
    wide: bool  # wider than from no load to full load

    @property
    def share(self) -> float:
        """Of the middle speed. [-]"""
        return 2 * (self.high - self.low) / (self.high + self.low)


@dataclass(frozen=True, slots=True)
class BladeTip:
    """What the blade's tips do at the speed without load, the blade on the crank."""

    speed: Measured  # [m/s]
    limit: float  # [m/s]
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Governed:
    """A governed engine; speeds in rad/s."""

    no_load: float
    rated: float
    asked_speed: bool  # the droop was told, the speed without load is the answer
    told_of: DroopOf | None
    means: str  # of how it swings, where that was told
    swing: Swing | None
    tip: BladeTip | None
    weighted: Weighted | None

    @property
    def of_rated(self) -> float:
        """Droop, of rated speed. [-]"""
        return droop(self.no_load, self.rated, DroopOf.RATED)

    @property
    def of_no_load(self) -> float:
        """Droop, of no-load speed. [-]"""
        return droop(self.no_load, self.rated, DroopOf.NO_LOAD)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to beware of, the blade that is too fast first."""
        if self.tip is None or self.tip.verdict is Verdict.PASSES:
            return RUNNING
        over = "over" if self.tip.verdict is Verdict.FAILS else "too close to tell from"
        tip, limit = show(self.tip.speed.value, "m/s", "velocity"), show(self.tip.limit, "m/s", "velocity")
        return (f"Blade tips at {tip} without load: {over} the {limit} allowed. Set the speed lower first.", *RUNNING)

    @property
    def notes(self) -> tuple[str, ...]:
        """What the answer rests on."""
        return (*LIMITS, *(OF_WEIGHTS if self.weighted else ()))

    @property
    def swinging(self) -> tuple[str, ...]:
        """What a wide swing of the speed means: as it was told, else all it may mean."""
        if self.means:
            return (f"{self.means[0].upper()}{self.means[1:]}",)
        return tuple(f"If {words}" for key, words in SWINGS.items() if key != "steady")


def governed_from_words(typed: Mapping[str, str]) -> Governed:
    """Read a governor: loaded with no_load, or with droop and of; where told how it swings, blade, weights."""
    rated = _speed(typed, "loaded", "Speed with full load")
    told_of = _base(typed)
    no_load = _speed(typed, "no_load", "Speed without load") if told_of is None else _from_droop(typed, rated, told_of)
    if no_load < rated:
        raise OutOfRange(
            f"Speed without load is {show(no_load, 'rpm', 'speed')} and with load {show(rated, 'rpm', 'speed')}; it "
            "must fall under load. Swap the two readings.",
            "no_load",
        )
    return Governed(
        no_load=no_load,
        rated=rated,
        asked_speed=told_of is not None,
        told_of=told_of,
        means=_means(typed.get("swings", "")),
        swing=_swing(typed, no_load - rated),
        tip=_tip(typed.get("blade", ""), no_load),
        weighted=weighted_from_words(typed),
    )


def _speed(typed: Mapping[str, str], name: str, what: str) -> float:
    speed = read_positive(typed.get(name, ""), "speed", default="rpm", what=what)
    if speed.si > FASTEST:
        raise OutOfRange(
            f"{what} is {speed.typed}; no such engine turns faster than {show(FASTEST, 'rpm', 'speed')}. Read the "
            "tachometer again.",
            name,
        )
    return speed.si


def _base(typed: Mapping[str, str]) -> DroopOf | None:
    """Give what a told droop is a share of; None when both speeds were told instead."""
    if bool(typed.get("droop")) == bool(typed.get("no_load")):
        raise NotUnderstood("Type either the speed without load, like “3600 rpm”, or the droop, like “5 %”.", "droop")
    if not typed.get("droop"):
        return None
    of = typed.get("of") or "rated"
    if of not in BASES:
        raise NotFound(f"A droop of “{of}” is not known. It must be one of {', '.join(BASES)}.", "of")
    return BASES[of]


def _from_droop(typed: Mapping[str, str], rated: float, of: DroopOf) -> float:
    told = typed["droop"]
    try:
        percent = float(told.replace("%", "").replace(",", ".").strip())
    except ValueError:
        raise NotUnderstood(f"Droop is “{told}”; it must be percent, like “5 %”.", "droop") from None
    if not LEAST_PERCENT <= percent <= MOST_PERCENT:
        raise OutOfRange(
            f"Droop is {percent:g} %; it must be from {LEAST_PERCENT:g} to {MOST_PERCENT:g} %. Type it in percent.",
            "droop",
        )
    return no_load_speed(rated, percent / 100, of)


def _means(swings: str) -> str:
    if not swings:
        return ""
    if swings not in SWINGS:
        raise NotFound(f"Swinging “{swings}” is not known. It must be one of {', '.join(SWINGS)}.", "swings")
    return SWINGS[swings]


def _swing(typed: Mapping[str, str], band: float) -> Swing | None:
    """Read the lowest and the highest speed it swings between, and hold them against the band from no to full load."""
    told = [typed.get(name, "") for name in ("swing_low", "swing_high")]
    if not any(told):
        return None
    if not all(told):
        raise NotUnderstood("Type both the lowest and the highest speed it swings between.", "swing_low")
    low = _speed(typed, "swing_low", "Lowest speed while it swings")
    high = _speed(typed, "swing_high", "Highest speed while it swings")
    if high < low:
        raise OutOfRange("The highest speed of the swing is below the lowest. Swap the two.", "swing_high")
    return Swing(low, high, high - low > band)


def _tip(typed: str, no_load: float) -> BladeTip | None:
    if not typed:
        return None
    blade = read_positive(typed, "length", default="mm", what="Blade, tip to tip").si
    shortest, longest = BLADES
    if not shortest <= blade <= longest:
        raise OutOfRange(
            f"Blade, tip to tip, is {typed}; it must be {show(shortest, 'mm', 'length', 0)} to "
            f"{show(longest, 'mm', 'length', 0)}. Check whether it was mm or in.",
            "blade",
        )
    tip = measured_tip_speed(Measured(blade, BLADE_UNCERTAINTY_M), Measured(no_load, SPEED_UNCERTAINTY * no_load))
    return BladeTip(tip, HIGHEST_TIP_SPEED, judge_at_most(tip, HIGHEST_TIP_SPEED))
