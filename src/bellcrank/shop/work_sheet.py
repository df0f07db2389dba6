"""What the work part of a job sheet shows: the way in and out, step by step, with tools, fasteners and torques."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from bellcrank.knowledge.assembly import Fastener, View
from bellcrank.shop.captured_sheet import CaptureSheet


@dataclass(frozen=True, slots=True)
class CautionLine:
    """A caution, shown before its step."""

    id: str
    signal: str  # DANGER, WARNING, CAUTION, NOTICE
    control: str
    consequence: str
    source: str


@dataclass(frozen=True, slots=True)
class TorqueLine:
    """A torque with its window, basis and source; SI, shown by the faces in the shop's unit."""

    low_nm: float
    target_nm: float
    high_nm: float
    basis: str  # published, table, computed, own shop, guess
    source: str
    governs: str  # "head face on the aluminium", "" when published
    widen: str  # what would widen the window, "" when nothing would
    typed: str  # as typed, when somebody typed it
    doubt: str = ""  # what to ask of a published or own torque that does not sit with the joint


@dataclass(frozen=True, slots=True)
class FastenerLine:
    """A group of fasteners with its torque."""

    fastener: Fastener
    torque: TorqueLine | None  # None: clips, pins, hand-tight things
    no_torque_words: str  # why there is no torque
    by_hand: str = ""  # what the mechanic's own hand does there, "" when it was never measured


@dataclass(frozen=True, slots=True)
class ReckonedLine:
    """An answer of the numbers bench that was put into a step."""

    room: str  # which question: strip, taper, key, pull-off, strike
    title: str
    said: str  # "Tap deeper", "count on 15.4 kN (3465 lbf)"
    sentences: tuple[str, ...]
    basis: str
    told: str  # what it was worked out from
    assumed: str  # what was taken because it was not told, "" when nothing
    typed: Mapping[str, str]  # what was told, to work it out again


@dataclass(frozen=True, slots=True)
class GapLine:
    """A gap to set with a feeler."""

    where: str
    low_mm: float
    high_mm: float
    basis: str
    source: str


@dataclass(frozen=True, slots=True)
class FetchLine:
    """A tool to fetch before the first step."""

    tool: str
    here: bool
    says: str  # where to get one that is not here, from what price; "" when it is


@dataclass(frozen=True, slots=True)
class OtherWay:
    """Another choice at one either-or of a planned way."""

    used: str  # what is planned, in words
    instead: str  # what could be done instead
    more: float | None  # minutes the whole way then takes more; None when it cannot be [min]
    says: str  # that in words, with the tools it takes and spares; or why it cannot be
    barred: tuple[str, ...]  # what to plan without, to get it


@dataclass(frozen=True, slots=True)
class StepLine:
    """One step of the way in or the way out."""

    number: int
    direction: str  # in, out
    operation: str
    do: str
    tool: str
    minutes: float
    orientation: str  # "upright", "on its side"
    turn_first: str  # "Turn the machine on its side", "" when it lies right already
    fasteners: tuple[FastenerLine, ...]
    cautions: tuple[CautionLine, ...]
    checks: tuple[str, ...]
    done: bool
    numbers: tuple[str, ...]  # what is worth working out here: strip, taper, key, pull-off, strike
    reckoned: tuple[ReckonedLine, ...]  # and what was
    part: str
    hidden: tuple[str, ...]  # tabs and slots nobody sees
    gaps: tuple[GapLine, ...]  # to set with a feeler, on the way back
    free: tuple[str, ...]  # what must move freely, on the way back
    why: tuple[str, ...]  # what it is done for, on the way in; () for what is to be got at
    renew: tuple[str, ...]  # gaskets and seals that take a new one, on the way back


@dataclass(frozen=True, slots=True)
class RepairLine:
    """What may have been done at the part, and what can be said of it now."""

    id: str
    words: str
    outcomes: tuple[str, ...]  # cured, not-cured, not-tried


@dataclass(frozen=True, slots=True)
class WorkSheet:
    """The way in to the target and the way back out."""

    targets: tuple[str, ...]
    target_words: str
    steps_in: tuple[StepLine, ...]
    steps_out: tuple[StepLine, ...]
    tools: tuple[str, ...]
    minutes_in: float
    minutes_out: float
    bound_out: float  # no order of the way back takes less [min]
    proven: bool
    gap: float  # by how much the way in may be longer than the shortest [min]
    fetch: tuple[FetchLine, ...]  # every tool of both ways, those not here first
    current: StepLine | None  # the next step to tick, in or out
    work_between: str  # what is done at the target before the way out
    on_the_tray: int  # fasteners out of the machine now
    repairs: tuple[RepairLine, ...]  # that are done at the target
    torque_unit: str  # the shop's own
    views: tuple[View, ...] = ()  # outlines of the machine, on which places are numbered
    captured: CaptureSheet = field(default_factory=CaptureSheet)  # at its steps, on this machine or one like it
