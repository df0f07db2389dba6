"""Judging one answer of the release list: yes or no, a stop time, a tip speed, a torque put on a blade bolt."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from bellcrank.cutting.blade import HIGHEST_TIP_SPEED, measured_tip_speed
from bellcrank.cutting.stopping import stop_limit, thumb_uncertainty, video_uncertainty, worst_stop
from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.knowledge.closed_lists import YES_NO_NONE
from bellcrank.knowledge.model import ReleaseItem
from bellcrank.measuring.conformity import Verdict, judge_at_most, judge_between
from bellcrank.measuring.measured import Measured
from bellcrank.units import convert, read_positive, show, to_si

SPEED_UNCERTAINTY = 0.02  # [-] of a hand tachometer or a sound reading when nobody says better: guess
BLADE_UNCERTAINTY_M = 0.002  # [m] of a tape from tip to tip: guess
BLADES = (0.25, 1.50)  # [m] tip to tip, of one blade; beyond it a reading is a slip: guess
FRAMES = {"video-30": 30.0, "video-60": 60.0, "video-120": 120.0, "video-240": 240.0}
SLOWEST = to_si(1000, "rpm", "speed")  # [rad/s] no such engine runs at its top below it: guess
FASTEST = to_si(10_000, "rpm", "speed")  # [rad/s] beyond it a reading is a slip
WRENCH_UNCERTAINTY = 0.04  # [-] of a torque wrench above 10 N·m: ISO 6789-1, from memory
STOPWATCH = "stopwatch"
MADE_BEFORE = "before-july-1982"


class Status(StrEnum):
    """How a line of the release list stands."""

    OPEN = "open"
    PASSED = "passed"
    FAILED = "failed"
    UNDECIDED = "undecided"


@dataclass(frozen=True, slots=True)
class ProofResult:
    """What an answer amounts to."""

    status: Status
    detail: str


FROM_VERDICT = {
    Verdict.PASSES: Status.PASSED,
    Verdict.FAILS: Status.FAILED,
    Verdict.UNDECIDED: Status.UNDECIDED,
}


@dataclass(frozen=True, slots=True)
class BoltWindow:
    """What the blade bolt is to be tightened to, and where that number comes from."""

    low: float  # [N·m]
    high: float  # [N·m]
    basis: str


def judge(item: ReleaseItem, answer: Mapping[str, str], bolt: BoltWindow | None = None) -> ProofResult:
    """Judge an answer by the kind of its item; what cannot be read is refused with what to type.

    Without a window for the blade bolt, any torque put on it with a wrench is taken.
    """
    if item.answer == "stop-time":
        return _stop_time(answer)
    if item.answer == "tip-speed":
        return _tip_speed(answer)
    if item.answer == "blade-bolt-torque":
        return _bolt_torque(answer, bolt)
    return _yes_no(item, answer)


def _yes_no(item: ReleaseItem, answer: Mapping[str, str]) -> ProofResult:
    said = answer.get("answer", "").strip().casefold()
    allowed = ("yes", "no", "none") if item.answer == YES_NO_NONE else ("yes", "no")
    if said not in allowed:
        must_be = "yes, no, or none where it has no such thing" if "none" in allowed else "yes or no"
        raise NotUnderstood(f"{item.words} The answer is “{said}”; it must be {must_be}.", "answer")
    if said == "none":
        return ProofResult(Status.PASSED, "it has no such thing")
    return ProofResult(Status.PASSED if said == "yes" else Status.FAILED, said)


def _stop_time(answer: Mapping[str, str]) -> ProofResult:
    typed = answer.get("times", "").replace(";", " ").split()
    times = tuple(read_positive(one, "time", default="s", what="Stop time").si for one in typed)
    timing = answer.get("timing", STOPWATCH)
    if timing != STOPWATCH and timing not in FRAMES:
        ways = ", ".join((*FRAMES, STOPWATCH))
        raise NotUnderstood(f"“{timing}” is not a way of timing we know. It must be one of {ways}.", "timing")
    uncertainty = thumb_uncertainty() if timing == STOPWATCH else video_uncertainty(FRAMES[timing])
    worst = worst_stop(times, uncertainty)
    limit = stop_limit(made_after_june_1982=answer.get("made", "") != MADE_BEFORE)
    verdict = judge_at_most(worst, limit)
    detail = f"longest {worst.value:.2f} s ± {uncertainty:.2g} s against {limit:.1f} s"
    if verdict is Verdict.UNDECIDED:
        detail += ": too close to tell with this timing; film it"
    return ProofResult(FROM_VERDICT[verdict], detail)


def _tip_speed(answer: Mapping[str, str]) -> ProofResult:
    speed = read_positive(answer.get("speed", ""), "speed", default="rpm", what="Top speed").si
    if speed > FASTEST:
        raise OutOfRange(
            f"Top speed is {answer['speed']}; no such engine turns faster than {show(FASTEST, 'rpm', 'speed')}. "
            "Read the tachometer again.",
            "speed",
        )
    if speed < SLOWEST:
        raise OutOfRange(
            f"Top speed is {answer['speed']}; no such engine runs below {show(SLOWEST, 'rpm', 'speed')} at its top. "
            "Read the tachometer again with the engine at full speed.",
            "speed",
        )
    blade = read_positive(answer.get("blade", ""), "length", what="Blade, tip to tip").si
    shortest, longest = BLADES
    if not shortest <= blade <= longest:
        raise OutOfRange(
            f"Blade, tip to tip, is {answer['blade']}; it must be {show(shortest, 'mm', 'length', 0)} to "
            f"{show(longest, 'mm', 'length', 0)}. Check whether it was mm or in.",
            "blade",
        )
    tip = measured_tip_speed(Measured(blade, BLADE_UNCERTAINTY_M), Measured(speed, SPEED_UNCERTAINTY * speed))
    verdict = judge_at_most(tip, HIGHEST_TIP_SPEED)
    detail = (
        f"{tip.value:.1f} m/s ± {tip.uncertainty:.1f} m/s against {HIGHEST_TIP_SPEED:.2f} m/s, from "
        f"{convert(speed, 'rpm', 'speed'):.0f} rpm and {convert(blade, 'mm', 'length'):.0f} mm"
    )
    if verdict is Verdict.UNDECIDED:
        detail += ": too close to tell; set the governor lower"
    return ProofResult(FROM_VERDICT[verdict], detail)


def _bolt_torque(answer: Mapping[str, str], bolt: BoltWindow | None) -> ProofResult:
    reading = read_positive(answer.get("torque", ""), "torque", what="Torque on the blade bolt")
    said = reading.typed
    if reading.unit.symbol != "N·m":
        said += f" ({show(reading.si, 'N·m', 'torque')})"
    if bolt is None:
        return ProofResult(Status.PASSED, f"{said} with a torque wrench")
    verdict = judge_between(Measured(reading.si, WRENCH_UNCERTAINTY * reading.si), bolt.low, bolt.high)
    window = f"{convert(bolt.low, 'N·m', 'torque'):.0f} to {show(bolt.high, 'N·m', 'torque', 0)} ({bolt.basis})"
    detail = f"{said} with a torque wrench against {window}"
    if verdict is Verdict.UNDECIDED:
        detail += ": too close to the limit for a wrench; set it to the middle"
    return ProofResult(FROM_VERDICT[verdict], detail)
