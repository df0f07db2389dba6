"""What bolts and the parts they screw into can take: strength classes and materials, as records."""

from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.errors import OutOfRange
from bellcrank.sources import Basis
from bellcrank.units import show


@dataclass(frozen=True, slots=True)
class Material:
    """What a thread is cut into, or what lies under a head.

    A strength that is None is one nobody should compute with (plastics creep, thin sheet holds no full thread).
    """

    key: str
    words: str  # "die-cast aluminium"
    tensile: float | None  # [Pa]
    shear: float | None  # ultimate, for stripping [Pa]
    bearing: float | None  # pressure under a head at which the face gives way [Pa]
    knock_down: float  # share of the shear strength to count on in a real, used part [-]
    basis: Basis
    source: str  # key in the list of sources


@dataclass(frozen=True, slots=True)
class StrengthRange:
    """The strengths of one class over one range of thread diameters."""

    min_diameter: float  # [m]
    max_diameter: float  # [m]
    tensile: float  # least tensile strength [Pa]
    yield_: float  # [Pa]
    proof: float  # [Pa]
    basis: Basis
    source: str  # key in the list of sources


@dataclass(frozen=True, slots=True)
class StrengthClass:
    """A mark on a bolt head and what it promises, over one or more ranges of diameter."""

    key: str  # "8.8", "G5"
    words: str  # "class 8.8"
    ranges: tuple[StrengthRange, ...]  # rising in diameter


def gather_classes(rows: Iterable[tuple[str, str, StrengthRange]]) -> dict[str, StrengthClass]:
    """Put table rows (key, words, range) together: rows that share a key are one class with several ranges."""
    gathered: dict[str, StrengthClass] = {}
    for key, words, strengths in rows:
        before = gathered[key].ranges if key in gathered else ()
        ranges = tuple(sorted((*before, strengths), key=lambda each: each.min_diameter))
        gathered[key] = StrengthClass(key=key, words=words, ranges=ranges)
    return gathered


def strength_at(strength: StrengthClass, diameter: float) -> StrengthRange:
    """Give the strengths that hold at a thread diameter [m], or refuse with the range the class covers."""
    for each in strength.ranges:
        if each.min_diameter <= diameter <= each.max_diameter:
            return each
    low = strength.ranges[0].min_diameter
    high = strength.ranges[-1].max_diameter
    raise OutOfRange(
        f"{strength.words} is not defined for a thread of {show(diameter, 'mm', 'length')}; it must be from "
        f"{show(low, 'mm', 'length')} to {show(high, 'mm', 'length')}. Read the head mark again, or choose “unmarked”."
    )
