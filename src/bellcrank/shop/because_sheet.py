"""What stands beside a cause: reasons with their weights, what would change the verdict, which causes go together."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ReasonLine:
    """What one finding, or one repair that failed, says about a cause."""

    words: str  # "the mark comes early: twice as likely (30 times on its own)"
    note: str  # "says much the same as “the keyway is off”", "" when its two weights agree
    decibans: float  # ten times the logarithm of how it moves the odds, all else kept [dB]
    alone_decibans: float  # the same from what is believed by the complaint alone [dB]


@dataclass(frozen=True, slots=True)
class ShownLine:
    """A result an open check may have."""

    says: str
    chance: float  # that it comes out so [-]
    after: float  # the cause's probability then [-]


@dataclass(frozen=True, slots=True)
class MoveLine:
    """An open check and what its results would make of a cause."""

    check: str
    check_words: str
    minutes: float  # hands-on, and to open and close what is not open yet [min]
    results: tuple[ShownLine, ...]  # the one that speaks most for the cause first
    words: str  # "If there is no spark, “coil dead” goes from 12 to 61 in 100; if it fires, it is out."


@dataclass(frozen=True, slots=True)
class OverturnLine:
    """The quickest check that could put another cause first."""

    check: str
    check_words: str
    minutes: float  # hands-on, and to open and close what is not open yet [min]
    says: str
    chance: float  # that it comes out so [-]
    leader: str  # the cause that would lead then
    after: float  # its probability then [-]


@dataclass(frozen=True, slots=True)
class VerdictLine:
    """What would change what is believed of a cause."""

    cause: str
    leads: bool
    moves: tuple[MoveLine, ...]
    overturn: OverturnLine | None
    overturn_words: str  # what could put another cause first, or that nothing open can


@dataclass(frozen=True, slots=True)
class CombinationLine:
    """Of the likeliest causes exactly these are in the machine."""

    causes: tuple[str, ...]
    words: str  # "flywheel key sheared and blade adapter broken"
    probability: float  # [-]
