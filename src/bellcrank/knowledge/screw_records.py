"""Records of the fastener tables, made of one line each; nothing here opens a file."""

from bellcrank.errors import NotUnderstood
from bellcrank.fastening.engagement import EngagementRule
from bellcrank.fastening.inserts import KeyedInsert
from bellcrank.fastening.locking_nuts import LockingNut
from bellcrank.fastening.plastics import BossRule, PlasticScrew
from bellcrank.fastening.screw_tables import Spread
from bellcrank.fastening.shoulder_screws import ShoulderScrew
from bellcrank.fastening.thermal import Expansion
from bellcrank.fastening.threads import Thread, parse_thread
from bellcrank.fastening.twist_off import FormingScrew, SheetScrew, TwistShare
from bellcrank.knowledge.line import Line
from bellcrank.sources import Basis
from bellcrank.units import to_si


def spread(line: Line) -> Spread:
    """Make a range of frictions, nut factors or scatters."""
    low, high = line.amount("low"), line.amount("high")
    if not 0 < low <= high < 1:
        raise line.fault(f"the range {low:g} to {high:g} must rise and lie between 0 and 1.")
    return Spread(line.words("key"), line.words("words"), low, high, *_origin(line))


def twist_share(line: Line) -> TwistShare:
    """Make the share of shear in tensile strength of a class."""
    return TwistShare(line.words("strength"), line.amount("share"), *_origin(line))


def engagement_rule(line: Line) -> EngagementRule:
    """Make a rule of thumb for the engagement."""
    shares = line.amount("share"), line.amount_or_none("fine_share")
    return EngagementRule(line.words("key"), line.words("words"), *shares, *_origin(line))


def locking_nut(line: Line) -> LockingNut:
    """Make a locking nut."""
    most, first, fifth = (
        line.amount(name) for name in ("first_on_most_nm", "first_off_least_nm", "fifth_off_least_nm")
    )
    if not 0 < fifth <= first <= most:
        raise line.fault(f"the drags {most:g}, {first:g} and {fifth:g} N·m must fall from first on to fifth off.")
    return LockingNut(_thread(line), most, first, fifth, *_origin(line))


def shoulder_screw(line: Line) -> ShoulderScrew:
    """Make a shoulder screw."""
    return ShoulderScrew(_length(line, "shoulder_mm"), _thread(line), _length(line, "neck_mm"), *_origin(line))


def forming_screw(line: Line) -> FormingScrew:
    """Make a thread-forming screw; what is not printed is an empty cell."""
    load, hole = line.amount_or_none("tensile_kn"), line.amount_or_none("hole_mm")
    return FormingScrew(
        thread=_thread(line),
        breaking_torque=line.amount("breaking_torque_nm"),
        tensile_load=None if load is None else to_si(load, "kN", "force"),
        hole=None if hole is None else to_si(hole, "mm", "length"),
        basis=line.choice("basis", Basis),
        source=line.words("source"),
    )


def sheet_screw(line: Line) -> SheetScrew:
    """Make a sheet-metal screw."""
    return SheetScrew(line.words("size"), _length(line, "least_hole_mm"), _length(line, "most_hole_mm"), *_origin(line))


def boss_rule(line: Line) -> BossRule:
    """Make the rule for a boss of one plastic."""
    return BossRule(
        key=line.words("key"),
        words=line.words("words"),
        hole_share=line.amount("hole_share"),
        outside_share=line.amount("outside_share"),
        engagement_share=line.amount("engagement_share"),
        basis=line.choice("basis", Basis),
        source=line.words("source"),
    )


def plastic_screw(line: Line) -> PlasticScrew:
    """Make a screw for plastics."""
    return PlasticScrew(line.words("size"), to_si(line.amount("tensile_kn"), "kN", "force"), *_origin(line))


def keyed_insert(line: Line) -> KeyedInsert:
    """Make a keyed insert."""
    return KeyedInsert(_thread(line), to_si(line.amount("pull_out_lbf"), "lbf", "force"), *_origin(line))


def expansion(line: Line) -> Expansion:
    """Make the expansion and stiffness of a material."""
    modulus = to_si(line.amount("modulus_mpa"), "MPa", "pressure")
    return Expansion(line.words("key"), line.words("words"), line.amount("per_kelvin"), modulus, *_origin(line))


def _origin(line: Line) -> tuple[Basis, str]:
    return line.choice("basis", Basis), line.words("source")


def _length(line: Line, column: str) -> float:
    return to_si(line.amount(column), "mm", "length")


def _thread(line: Line) -> Thread:
    try:
        return parse_thread(line.words("thread"))
    except NotUnderstood as refusal:
        raise line.fault(refusal.sentence) from None
