"""What a job shows of itself: the one set of records that page, terminal, JSON and papers are made from."""

from dataclasses import dataclass

from bellcrank.shop.because_sheet import CombinationLine, ReasonLine, VerdictLine
from bellcrank.shop.price_sheet import NOTHING_EXPECTED, ExpectedLine, PriceSheet
from bellcrank.shop.tool_sheet import LackingLine
from bellcrank.shop.work_sheet import CautionLine, WorkSheet


@dataclass(frozen=True, slots=True)
class EventLine:
    """Something told, found, done or decided on a job, in the order it happened."""

    id: int
    kind: str  # told, found, repaired, step, torque, proof, price, agreed, invoice, target, photo, state, ...
    words: str  # "Spark tester: jumps"
    at: str  # ISO 8601, UTC
    by: str
    taken_back: bool
    can_take_back: bool
    taken_back_at: str = ""  # ISO 8601, UTC; "" when it stands
    taken_back_by: str = ""


@dataclass(frozen=True, slots=True)
class CauseLine:
    """A cause with how likely it is and why."""

    id: str
    words: str
    probability: float  # that it is in the machine now [-]
    how_sure: str  # hardly, unlikely, even, likely, almost sure
    reasons_for: tuple[ReasonLine, ...]
    reasons_against: tuple[ReasonLine, ...]
    severity: str
    repair: str | None


@dataclass(frozen=True, slots=True)
class WasLine:
    """What a cured job tells those to come: which cause it was, and how long the repair took."""

    choices: tuple[tuple[str, str], ...]  # causes it may have been, id and words; none when it is known
    cause: str  # in words; "" while it may have been several
    named: bool  # whether the mechanic said so
    repair: str  # that cured it, in words
    minutes: float | None  # at the repair, without the way in and back [min]


@dataclass(frozen=True, slots=True)
class ChoiceLine:
    """One possible answer of a check, as a button."""

    id: str
    words: str
    probability: float  # expected now [-]


@dataclass(frozen=True, slots=True)
class NextLine:
    """A check, a repair or a stopping point, with what it buys."""

    kind: str  # check, repair, stop
    id: str
    words: str
    why: str  # one sentence in shop words
    minutes: float  # hands-on [min]
    access_minutes: float  # to open and close what is not open yet [min]
    expected_minutes: float  # to a cured machine when this is done next, parts counted as minutes [min]
    saves_per_minute: float  # minutes saved per minute spent, against not doing it [-]
    choices: tuple[ChoiceLine, ...]
    tools: tuple[str, ...]
    off_first: tuple[str, ...]
    open_first: tuple[str, ...]
    cautions: tuple[CautionLine, ...]
    target: str | None  # part of the assembly model the way in leads to
    outcomes: tuple[str, ...]  # what can be said of a repair now: cured, not-cured, not-tried
    ahead: ExpectedLine = NOTHING_EXPECTED  # the expected minutes and money, each on its own
    reading_unit: str = ""  # of a check that gives a number: what a reading may be typed in
    instrument: str = ""  # of such a check: its limits, and how far its instrument errs
    lacking: LackingLine | None = None  # a tool it takes that the shop does not have


@dataclass(frozen=True, slots=True)
class CureLine:
    """Whether the job is likely cured, and what else to look for."""

    state: str  # "open", "cured", "not cured"
    words: str
    look_also: tuple[CauseLine, ...]  # root causes and consequences still likely enough to look for


@dataclass(frozen=True, slots=True)
class ProofLine:
    """One line of the release list."""

    id: str
    words: str
    how: str
    hard: bool
    answer: str  # yes-no, stop-time, tip-speed, ...
    limit_words: str
    status: str  # open, passed, failed, undecided
    detail: str  # "2.41 s ± 0.03 s, limit 3.0 s"
    source: str
    cautions: tuple[CautionLine, ...]


@dataclass(frozen=True, slots=True)
class ReleaseSheet:
    """May the machine be handed back as ready?"""

    lines: tuple[ProofLine, ...]
    ready: bool
    blocking: tuple[str, ...]  # sentences: which hard item is open and why
    beside: tuple[str, ...]  # of these, what is no item of the list
    notes: tuple[str, ...]  # soft items that are open: ready with notes
    triggers: tuple[str, ...]  # why these items are asked: "hit something", "engine opened"


@dataclass(frozen=True, slots=True)
class PhotoLine:
    """A photo of the job."""

    id: int
    width: int
    height: int
    added_at: str
    operation: str = ""  # the step it was taken at


@dataclass(frozen=True, slots=True)
class PersonLine:
    """The customer."""

    name: str
    phone: str
    email: str
    address: str


@dataclass(frozen=True, slots=True)
class MachineLine:
    """The machine."""

    kind: str
    kind_words: str
    maker: str
    model: str
    serial: str
    engine_card: str
    engine_words: str
    words: str  # "Kittiwake 46 walk-behind mower" or just the kind


@dataclass(frozen=True, slots=True)
class JobSheet:
    """One job from the story at the door to the hand-back."""

    number: int
    state: str  # waiting, on the bench, ready, ready with notes, returned not ready, gone
    taken_in_at: str
    customer: PersonLine
    machine: MachineLine
    complaint_words: str
    complaints: tuple[str, ...]  # in words
    facts: tuple[str, ...]  # "hit something: yes"
    photos: tuple[PhotoLine, ...]
    events: tuple[EventLine, ...]
    last_event: EventLine | None  # what "take back" would take back
    causes: tuple[CauseLine, ...]
    surprise: str  # sentence when the findings disagree or fit nothing known, else ""
    next: tuple[NextLine, ...]
    cure: CureLine
    work: WorkSheet | None
    release: ReleaseSheet
    price: PriceSheet
    was: WasLine | None = None  # None: not cured yet
    verdict: VerdictLine | None = None  # what would change it; None before a complaint is known and once it is cured
    combinations: tuple[CombinationLine, ...] = ()  # the likely ones
