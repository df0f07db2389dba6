"""The answers of the planner: steps in, steps out, with what they take."""

from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.knowledge.assembly import Assembly, Fastener, Operation
from bellcrank.teardown.changeover import HAND, UPRIGHT, Changeover

TARGET = "target"  # why a step is done that nothing else in the plan waits for


@dataclass(frozen=True, slots=True)
class Because:
    """Why a step of a plan is done at all."""

    why: str  # of FIRST, HELD, BEHIND: what it is to the step that waits for it; or TARGET
    step: str  # the operation that waits for it; "" for a target


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """One step of the way in or the way out, ready to be read out."""

    operation: Operation
    words: str  # imperative: what to do in this direction
    tool: str
    minutes: float  # hands-on, without changing tools or turning [min]
    orientation: str  # how the machine lies during the step
    turn_first: bool  # the machine is turned to lie so before the step
    fasteners: tuple[Fastener, ...]
    hazards: tuple[str, ...]  # ids of cautions, shown before the step
    checks: tuple[str, ...]  # what to see to at this step; empty on the way in
    method: str = ""  # which of the operation's other ways; "" for the usual one
    why: tuple[Because, ...] = ()  # on the way in what it is done for, in the order of the plan


@dataclass(frozen=True, slots=True)
class QuickerWith:
    """What a tool that is lacking would save."""

    tools: tuple[str, ...]  # the lacking ones in the quicker plan
    saves: float  # [min]


@dataclass(frozen=True, slots=True)
class WayIn:
    """The least-time legal sequence that frees the targets."""

    targets: tuple[str, ...]
    already_done: frozenset[str]  # operations done before the first step
    steps: tuple[PlannedStep, ...]
    minutes: float  # work and changeovers [min]
    work_minutes: float
    changeover_minutes: float
    tools: tuple[str, ...]  # to fetch first, in order of use
    ends_lying: str  # how the machine lies after the last step
    proven: bool  # no legal sequence is shorter
    bound: float  # no legal sequence is shorter than this [min]
    lacking: tuple[str, ...] = ()  # tools the shop lacks and the plan cannot do without
    quicker_with: QuickerWith | None = None  # tools the shop lacks, when they would make it shorter
    looked_at: int = 0  # half-finished orders the search looked at


@dataclass(frozen=True, slots=True)
class WayOut:
    """The sequence that puts everything back, plug lead last."""

    steps: tuple[PlannedStep, ...]
    minutes: float  # work and changeovers [min]
    work_minutes: float
    changeover_minutes: float
    tools: tuple[str, ...]  # to fetch first, in order of use
    turn_last: bool  # the machine is stood upright after the last step
    proven: bool
    bound: float  # [min]


def turn_words(assembly: Assembly, lies: str) -> str:
    """Say how the machine is brought to lie so."""
    return assembly.lying.get(lies, f"Turn it to lie {lies}.")


def minutes_of(
    assembly: Assembly, steps: Iterable[PlannedStep], changeover: Changeover, lies: str = UPRIGHT, ends: str = ""
) -> float:
    """Add up the steps, the changes of tool between them and the turning of the machine, at the end to lie so. [min]"""
    ways = (way for operation in assembly.operations for way in operation.orientations)
    turns = changeover.turns_between({lies, *ways, *([ends] if ends else [])})
    minutes, held = 0.0, ""
    for step in steps:
        minutes += step.minutes + changeover.tool(held, step.tool) + turns[lies, step.orientation]
        held = held if step.tool == HAND else step.tool
        lies = step.orientation
    return minutes + (turns[lies, ends] if ends else 0.0)


def tools_in_order(tools: Iterable[str]) -> tuple[str, ...]:
    """Tools to fetch, each once, in order of first use; bare hands are at hand."""
    return tuple(tool for tool in dict.fromkeys(tools) if tool != HAND)


def on_the_tray(assembly: Assembly, off: Iterable[str]) -> int:
    """How many fasteners are out of the machine when these operations are done and not yet undone."""
    gone = frozenset(off)
    return sum(f.to_lay_out for operation in assembly.operations if operation.id in gone for f in operation.fasteners)
