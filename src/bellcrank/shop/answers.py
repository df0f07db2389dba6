"""Answers of the numbers bench in words: what strips, what taper and key hold, a pull, a blow."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.both_systems import both_forces, both_torques, both_windows
from bellcrank.fastening.pull import Against
from bellcrank.fastening.pull_out import StripAnswer
from bellcrank.fastening.strike import Likely, Strike
from bellcrank.knowledge.model import Library
from bellcrank.shop.cords import CordTold
from bellcrank.shop.engines import Gauge, JetFound, LeakFound, Timed
from bellcrank.shop.governors import Governed
from bellcrank.shop.key_words import ALONE, HELD, goes, key_lines, key_notes, marks_words, may_go, which_first
from bellcrank.shop.keyed import Keyed, key_from_words
from bellcrank.shop.numbers import strip_from_words
from bellcrank.shop.plug_sparks import Sparked
from bellcrank.shop.pulling import JudgedPull, judged_pull_from_words, pull_words
from bellcrank.shop.strikes import CAUTIONS, StruckSeat, strike_from_words, strike_words
from bellcrank.shop.tapers import SeatedTaper, seated_from_words
from bellcrank.units import convert

OfEngine = Timed | LeakFound | Gauge | JetFound | Governed | Sparked | CordTold
Found = StripAnswer | SeatedTaper | Keyed | JudgedPull | StruckSeat | OfEngine
TAPER_SLIPS = {Likely.PERHAPS: "The taper may slip", Likely.NO: "The taper slips"}


@dataclass(frozen=True, slots=True)
class Answered:
    """An answer: the figure, what belongs to it, what it rests on; ``found`` is what it was worded from."""

    lead: str  # what the figure is: "count on"
    figure: str  # "15.4 kN (3465 lbf)", "Tap deeper"
    sentences: tuple[str, ...]
    lines: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
    found: Found

    @property
    def said(self) -> str:
        """The answer in one line."""
        return f"{self.lead} {self.figure}" if self.lead else self.figure


def strip_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say what strips a thread."""
    found = strip_from_words(library, typed)
    return Answered(
        lead="count on",
        figure=both_forces(found.strip_force_low, unit),
        sentences=(),
        lines=(
            ("new, full thread", both_forces(found.strip_force, unit)),
            ("worn, loose thread", f"{both_forces(found.worn_bound, unit)} at the least"),
            ("tears first", f"the {found.gives_way}'s thread"),
        ),
        cautions=(),
        notes=found.notes,
        found=found,
    )


def taper_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say what a hub on its taper holds."""
    del library  # friction and shape say all
    found = seated_from_words(typed, unit=unit)
    seat = found.seat
    return Answered(
        lead="first slips at",
        figure=both_torques(seat.slip_torque_low, unit),
        sentences=(),
        lines=(
            ("once settled", both_torques(seat.slip_torque_high, unit)),
            ("pulls off with", both_forces(seat.release_force, unit)),
            ("fretted, with", f"{both_forces(found.fretted_low, unit)} to {both_forces(found.fretted_high, unit)}"),
            ("pressure", f"{convert(seat.pressure, 'MPa', 'pressure'):.0f} MPa"),
        ),
        cautions=(),
        notes=found.notes,
        found=found,
    )


def key_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say what a key carries alone, and its sizes."""
    return told_of_key(library, key_from_words(library, typed), unit)


def told_of_key(library: Library, found: Keyed, unit: str) -> Answered:
    """Say when a key gives way, or its keyway, what of it stays marked before, and its sizes."""
    joint = found.weakest
    return Answered(
        lead=f"{' '.join(goes(joint.first))} at",
        figure=both_windows(joint.low, joint.high, unit),
        sentences=(which_first(joint), marks_words(joint, unit), ALONE),
        lines=key_lines(found, unit),
        cautions=(),
        notes=key_notes(library, found),
        found=found,
    )


def pull_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say whether a flywheel's own holes hold the pull, how deep they must be, and where to stop."""
    found = judged_pull_from_words(library, typed)
    pull, answer = found.pull, found.answer
    return Answered(
        lead="",
        figure=answer.verdict[:1].upper() + answer.verdict[1:],
        sentences=(pull_words(pull, answer, unit),),
        lines=(
            ("stop at", f"{both_torques(answer.screw_torque_limit, unit)} on the centre screw"),
            ("or at", f"{both_torques(answer.bolt_torque_limit, unit)} on each bolt, when those are turned"),
            ("to release", f"{both_forces(pull.release_low, unit)} to {both_forces(pull.release_high, unit)}"),
            ("on a bolt", f"{both_forces(answer.load.clean, unit)} to {both_forces(answer.load.fretted, unit)}"),
            ("a hole holds", f"{both_forces(answer.strip_usable, unit)}, {_times(answer.hole_margin)}"),
            ("a bolt bears", f"{both_forces(answer.bolt_proof, unit)}, {_times(answer.bolt_margin)}"),
        ),
        cautions=answer.cautions,
        notes=(found.counted, *answer.assumptions) if found.counted else answer.assumptions,
        found=found,
    )


def blow_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say what a blade strike did to taper and key, how far the flywheel ran ahead, and the nut's part in it."""
    found = strike_from_words(library, typed)
    strike = found.strike
    return Answered(
        lead="",
        figure=_after_a_blow(strike),
        sentences=strike_words(strike, unit),
        lines=(),
        cautions=CAUTIONS,
        notes=(
            "Torque on average over the stop; its peak is higher.",
            "Clean to oily taper, dry to oiled nut; how far a key is pushed before it or its keyway parts is a guess.",
            *((HELD,) if found.key else ()),
        ),
        found=found,
    )


def _after_a_blow(strike: Strike) -> str:
    if strike.taper_holds is Likely.YES:
        return "The taper holds"
    taper = TAPER_SLIPS[strike.taper_holds]
    if not strike.first:
        return taper
    if strike.key_gives_way is Likely.NO:
        return f"{taper}, the key stands"
    if strike.key_gives_way is Likely.PERHAPS:
        return f"{taper}, {may_go(strike.first)}"
    return f"{taper}, {' '.join(goes(strike.first))}"


def _times(margin: Against) -> str:
    return f"{margin.fretted:.1f} to {margin.clean:.1f} times its load"
