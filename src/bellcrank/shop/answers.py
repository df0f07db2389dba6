"""Answers of the numbers bench in words: what strips, what taper and key hold, a pull, a blow."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.both_systems import both_forces, both_lengths, both_torques
from bellcrank.fastening.pull import Against
from bellcrank.fastening.pull_out import StripAnswer
from bellcrank.fastening.strike import Likely
from bellcrank.knowledge.model import Library
from bellcrank.shop.engines import Gauge, JetFound, LeakFound, Timed
from bellcrank.shop.governors import Governed
from bellcrank.shop.keyed import Keyed, key_from_words
from bellcrank.shop.numbers import strip_from_words
from bellcrank.shop.plug_sparks import Sparked
from bellcrank.shop.pulling import JudgedPull, judged_pull_from_words, pull_words
from bellcrank.shop.strikes import CAUTIONS, StruckSeat, strike_from_words, strike_words
from bellcrank.shop.tapers import SeatedTaper, seated_from_words
from bellcrank.units import convert

OfEngine = Timed | LeakFound | Gauge | JetFound | Governed | Sparked
Found = StripAnswer | SeatedTaper | Keyed | JudgedPull | StruckSeat | OfEngine
AFTER_A_BLOW = {  # what holds, what shears
    (Likely.YES, Likely.NO): "The taper holds",
    (Likely.PERHAPS, Likely.NO): "The taper may slip, the key stands",
    (Likely.PERHAPS, Likely.PERHAPS): "Taper and key may give way",
    (Likely.NO, Likely.NO): "The taper slips, the key stands",
    (Likely.NO, Likely.PERHAPS): "The taper slips, the key may shear",
    (Likely.NO, Likely.YES): "The taper slips, the key shears",
}
NO_KEY = {
    Likely.YES: "The taper holds",
    Likely.PERHAPS: "The taper may slip",
    Likely.NO: "The taper slips",
}


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
    found = key_from_words(library, typed)
    carries = found.carries
    shears_first = carries.shear_ultimate <= carries.bearing_ultimate
    return Answered(
        lead="the key shears at" if shears_first else "the keyway breaks at",
        figure=both_torques(min(carries.shear_ultimate, carries.bearing_ultimate), unit),
        sentences=("The key alone: a taper that grips carries most of it, and the key only places the hub.",),
        lines=(
            ("a step shows in it from", both_torques(carries.shear_yield, unit)),
            ("keyway crushed from", both_torques(carries.bearing_yield, unit)),
            (
                ("keyway breaks at", both_torques(carries.bearing_ultimate, unit))
                if shears_first
                else ("the key shears at", both_torques(carries.shear_ultimate, unit))
            ),
            ("width", both_lengths(found.fitted.width, unit)),
            ("seat in the shaft", both_lengths(found.shaft_seat, unit)),
            ("seat in the hub", both_lengths(found.hub_seat, unit)),
        ),
        cautions=(),
        notes=(
            f"{found.words} of {found.material.words}, hub of {found.hub.words}.",
            f"Sizes: {library.sources[found.source].title}.",
        ),
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
    what = AFTER_A_BLOW[strike.taper_holds, strike.key_shears] if found.key else NO_KEY[strike.taper_holds]
    return Answered(
        lead="",
        figure=what,
        sentences=strike_words(strike, unit, keyed=found.key is not None),
        lines=(),
        cautions=CAUTIONS,
        notes=(
            "Torque on average over the stop; its peak is higher.",
            "Clean to oily taper, dry to oiled nut; how far a key is pushed before it parts is a guess.",
        ),
        found=found,
    )


def _times(margin: Against) -> str:
    return f"{margin.fretted:.1f} to {margin.clean:.1f} times its load"
