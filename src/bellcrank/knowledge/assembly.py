"""How one machine comes apart, as a knowledge pack tells it: operations and the fasteners each of them undoes."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.sources import Origin


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


@dataclass(frozen=True, slots=True)
class Assembly:
    """How one machine comes apart."""

    id: str
    words: str
    operations: tuple[Operation, ...]
    targets: Mapping[str, str]  # part id -> operation that frees it
    origin: Origin
    taper_nut: str = ""  # the fastener that holds the hub on its taper; "" when there is none
