"""What was learnt and how right the tool was, as one record: page, terminal and JSON show the same."""

from dataclasses import dataclass

from bellcrank.stats.scores import Bin


@dataclass(frozen=True, slots=True)
class MovedShare:
    """How often a cause is behind a complaint, by the pack and now."""

    complaint: str
    cause: str
    words: str  # "won't start: stale or gummed fuel"
    before: float  # [-]
    learnt: float  # [-]
    low: float  # between these it lies 19 times in 20 [-]
    high: float  # [-]
    seen: float  # jobs, older ones counting less
    of: float
    held: str  # why it stays at the pack's, "" when it does not


@dataclass(frozen=True, slots=True)
class MovedRow:
    """What a check shows with a cause, or on a sound machine: the result that moved most."""

    check: str
    cause: str  # "-" for a sound machine
    result: str
    words: str  # "Smell the fuel, with stale fuel: sour"
    before: float  # [-]
    learnt: float  # [-]
    low: float  # [-]
    high: float  # [-]
    seen: float  # of those machines, such results
    of: float  # machines
    held: str


@dataclass(frozen=True, slots=True)
class MovedMinutes:
    """How long a repair takes, by the pack and now; nine of ten lie above the low end, nine of ten below the high."""

    repair: str
    words: str
    before_minutes: float
    low_minutes: float
    minutes: float
    high_minutes: float
    seen: float  # times given


@dataclass(frozen=True, slots=True)
class Rightness:
    """How right the tool was at one moment of the jobs whose cause is known, by one set of numbers."""

    moment: str  # "after the story" or "before the repair"
    numbers: str  # "by the pack", or "with what was learnt" before each job
    jobs: int
    top_right: int  # jobs in which the likeliest cause was it
    top_said: float  # what it gave the likeliest cause, mean [-]
    log_score: float  # [nats]
    brier: float  # over all chances above 1 %
    reliability: float  # parts of it (Murphy)
    resolution: float
    uncertainty: float
    honest_z: float  # Spiegelhalter's z
    bins: tuple[Bin, ...]
    says: str  # in words, or that it is too few to say


@dataclass(frozen=True, slots=True)
class ImportLine:
    """Counts of another shop."""

    id: int
    file_name: str
    words: str
    unknown: tuple[str, ...]
    imported_at: str  # ISO 8601, UTC
    taken_back: bool


@dataclass(frozen=True, slots=True)
class LearntSheet:
    """All that closed jobs taught of a kind of machine."""

    kind: str
    kind_words: str
    closed_jobs: int
    known_jobs: int  # whose cause is known
    unread_jobs: int  # still to be read
    used: bool
    says: str  # whether it is used, and why
    gate_jobs: int
    gate_pack: float | None  # log score of both moments together, mean [nats]
    gate_learnt: float | None
    rightness: tuple[Rightness, ...]
    shares: tuple[MovedShare, ...]  # the ones that moved most first
    rows: tuple[MovedRow, ...]
    minutes: tuple[MovedMinutes, ...]
    held: tuple[MovedShare | MovedRow, ...]  # numbers that do not change by themselves
    imports: tuple[ImportLine, ...]
