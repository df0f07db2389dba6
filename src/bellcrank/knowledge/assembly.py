"""How one machine comes apart, as a knowledge pack tells it: operations and the fasteners each of them undoes."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from bellcrank.sources import Origin

CONDITIONS = ("corroded", "seized", "rounded")  # of a fastener, which forbid some ways of undoing it
FIRST, HELD, BEHIND = (
    "first",
    "held",
    "behind",
)  # why something is done before: safety and order, it holds, it is in front


@dataclass(frozen=True, slots=True)
class Shape:
    """A part of an outline: a closed line through points, or a circle when it has a radius."""

    words: str  # what it shows, "" when it needs no name
    points: tuple[tuple[float, float], ...]  # from the left and from the top of the view [mm]; of a circle its middle
    radius: float = 0.0  # [mm]


@dataclass(frozen=True, slots=True)
class View:
    """The outline of a machine from one side, on which the places of fasteners are numbered."""

    id: str
    words: str  # "from above, handle below"
    width: float  # [mm]
    height: float  # [mm]
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, slots=True)
class Gap:
    """A gap to set with a feeler when the part goes back."""

    where: str  # "coil legs to magnet"
    low_mm: float
    high_mm: float
    origin: Origin


@dataclass(frozen=True, slots=True)
class Fastener:
    """A group of like fasteners that come off in one step."""

    id: str
    words: str  # "shroud bolts"
    count: int
    thread: str  # "1/4-20", "M6", or "" for clips and pins
    strength: str  # strength class key, "" for none
    drive: str  # "hex", "slot", "torx", "clip" ...
    size: str  # "10 mm", "3/8 in", "T30"
    length_mm: float | None  # under the head
    head: str  # "flange", "hex", "pan", "nut"
    where: str  # "two at the front, one behind the fuel tap"
    into: str  # material key of what it screws into, "" for a nut on a stud
    engaged_mm: float | None  # full thread engagement
    under_head: str  # material key under the head
    single_use: bool
    thread_care: str  # "start by hand", "blue locker", "dry", ...
    pattern: str  # tightening pattern and stages; "" when any order does
    published_torque_nm: float | None  # when the maker or a standard gives it
    safety_joint: bool  # blade bolt, flywheel nut: mark and re-check
    source: str
    by_hand_first: bool = False  # all of the group are started by hand before the first is tightened
    stages: tuple[float, ...] = ()  # rounds of tightening as shares of the torque, the last 1; () for one round
    view: str = ""  # the view its places stand in, "" when it has none
    places: tuple[tuple[float, float], ...] = ()  # one for each, in the order of tightening [mm]
    missing: int = 0  # of the count: not there on this machine, a new one goes in on the way back

    @property
    def to_lay_out(self) -> int:
        """How many of them come off the machine."""
        return self.count - self.missing


@dataclass(frozen=True, slots=True)
class Method:
    """Another way of doing a step: an impact tool instead of holding the blade."""

    id: str
    words: str  # "with the impact driver, blade not held"
    do: str
    tool: str
    minutes: float
    needs: tuple[tuple[str, ...], ...]  # in place of those of the step
    orientations: tuple[str, ...]
    hazards: tuple[str, ...]
    turns_crank: bool
    not_when: tuple[str, ...]  # of CONDITIONS: what forbids it
    undo: str = ""  # how it goes back when it came off this way; "" as the step says
    undo_minutes: float | None = None  # None: as the step says [min]
    undo_hazards: tuple[str, ...] | None = None  # None: as the step says


@dataclass(frozen=True, slots=True)
class Operation:
    """One step of taking apart; its reverse is the step of putting back."""

    id: str
    kind: str  # "unfasten", "disconnect", "remove", "swing-aside", "make-safe"
    do: str  # imperative, taking apart
    undo: str  # imperative, putting back
    part: str  # the part it frees or moves
    needs: tuple[tuple[str, ...], ...]  # every group: at least one of its operations is done first
    tool: str  # "hand" changes no tool
    minutes: float
    undo_minutes: float
    orientations: tuple[str, ...]  # "upright", "on its side"; empty: any
    fasteners: tuple[Fastener, ...]
    hazards: tuple[str, ...]
    undo_hazards: tuple[str, ...]
    turns_crank: bool  # hand on or turning blade, crank or flywheel
    undo_checks: tuple[str, ...]  # free movement, gaps to set
    gives: str  # what can be seen or done once it is done; ""
    touches: tuple[str, ...]  # of TOUCHED: what the release list asks about afterwards
    numbers: tuple[str, ...] = ()  # of NUMBERS: what is worth working out here
    reasons: tuple[str, ...] = ()  # for every group of needs why: first, held, behind; () when all are "first"
    access_minutes: float = 0.0  # to reach it, each way, beside the hands-on minutes [min]
    hidden: tuple[str, ...] = ()  # tabs and slots that cannot be seen
    gaps: tuple[Gap, ...] = ()  # to set on the way back
    free: tuple[str, ...] = ()  # what must move freely once it is back
    renew: tuple[str, ...] = ()  # gaskets, seals: never used again
    words: str = ""  # of its usual way, where there are others: "blade held with wood"
    not_when: tuple[str, ...] = ()  # of CONDITIONS: what forbids the usual way
    methods: tuple[Method, ...] = ()  # the other ways

    @property
    def in_minutes(self) -> float:
        """What it takes on the way in, reached and done. [min]"""
        return self.minutes + self.access_minutes

    @property
    def back_minutes(self) -> float:
        """What it takes on the way back, reached and done. [min]"""
        return self.undo_minutes + self.access_minutes

    def why(self, group: tuple[str, ...]) -> str:
        """Give why one of a group of needs is done first."""
        return dict(zip(self.needs, self.reasons, strict=False)).get(group, FIRST)


@dataclass(frozen=True, slots=True)
class Assembly:
    """How one machine comes apart."""

    id: str
    words: str
    operations: tuple[Operation, ...]
    targets: Mapping[str, str]  # part id -> operation that frees it
    origin: Origin
    taper_nut: str = ""  # the fastener that holds the hub on its taper; "" when there is none
    views: tuple[View, ...] = ()
    tool_minutes: float | None = None  # to change tools; None: as usual [min]
    turn_minutes: float | None = None  # to turn the machine where ``turns`` does not say; None: as usual [min]
    turns: Mapping[tuple[str, str], float] = field(default_factory=dict)  # single turns, the same both ways [min]
    lying: Mapping[str, str] = field(default_factory=dict)  # way of lying -> how it is brought to lie so
