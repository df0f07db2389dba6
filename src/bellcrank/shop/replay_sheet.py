"""What the whole story of one cause shows, and what the replay of a job shows."""

from dataclasses import dataclass

from bellcrank.shop.because_sheet import CombinationLine, VerdictLine
from bellcrank.shop.sheet import CauseLine, NextLine


@dataclass(frozen=True, slots=True)
class WhySheet:
    """The whole story of one cause."""

    number: int
    machine: str
    place: int  # among the causes, the most likely is 1
    cause: CauseLine
    on_arrival: float  # probability that it came with the machine [-]
    surprise: str  # sentence when the findings disagree, else ""
    verdict: VerdictLine | None
    combinations: tuple[CombinationLine, ...]  # the likely ones it is part of


@dataclass(frozen=True, slots=True)
class BelievedLine:
    """A cause as it was believed at a step."""

    id: str
    words: str
    probability: float  # [-]
    how_sure: str
    before: float | None  # at the step before; None at the door [-]


@dataclass(frozen=True, slots=True)
class DoneLine:
    """What was done next, held against what was advised."""

    words: str  # as told in the history
    said: str  # with its minutes and what it cost against the advice
    kind: str  # check, repair, told, complaint
    id: str  # of the check or repair, "" else
    as_advised: bool
    minutes: float | None  # hands-on, and to open and close what was not open; None: nothing was done for it [min]
    longer_minutes: float | None  # to a cured machine, against the advice; None: not known [min]


@dataclass(frozen=True, slots=True)
class ReplayStep:
    """One step of a job: what came to be known, what was believed then, what was advised and what was done."""

    number: int  # 0 is the door
    kind: str  # door, told, complaint, found, repaired
    words: tuple[str, ...]  # what came to be known
    causes: tuple[BelievedLine, ...]  # most likely first
    surprise: str
    cure_words: str
    advised: NextLine | None
    also_advised: tuple[str, ...]  # what stood next after it
    done: DoneLine | None  # None at the last step


@dataclass(frozen=True, slots=True)
class PathLine:
    """How likely a cause was, step by step."""

    id: str
    words: str
    probabilities: tuple[float, ...]  # one a step [-]


@dataclass(frozen=True, slots=True)
class ReplaySheet:
    """A job step by step."""

    number: int
    machine: str
    complaint_words: str
    steps: tuple[ReplayStep, ...]
    paths: tuple[PathLine, ...]  # of the causes that led or came near it, the likeliest at the end first
    rest: tuple[float, ...]  # the likeliest of all other causes, one a step [-]
