"""An assembly made of steps somebody recorded while taking a machine apart that nobody had drawn up.

The plug lead comes off first and every later step needs one that was recorded before it, so whatever is recorded can
be done again in the order it was done, and undone in reverse. What the words speak of brings its cautions and its
lines of the release list; what was not said of a screw is left open, and then no torque is worked out for it.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from bellcrank.errors import BellcrankError
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.assembly import FIRST, Assembly, Fastener, Operation
from bellcrank.knowledge.own import PREFIX, short_name
from bellcrank.knowledge.with_own import OWN, SOURCE
from bellcrank.teardown.changeover import HAND, UPRIGHT
from bellcrank.teardown.safety import PLUG_LEAD
from bellcrank.units import convert

NUT = "nut"  # said in place of a material: it goes through, into a nut
UNDER_A_NUT = "mild-steel"
ENGAGED_DIAMETERS = 1.0  # [-] thread in the hole where nobody measured it; guess, on the safe side of what is usual
NOT_MEASURED = "thread in the hole not measured: one diameter taken"


@dataclass(frozen=True, slots=True)
class Meant:
    """What words of a part or a step bring with them."""

    words: tuple[str, ...]
    touches: str
    hazards: tuple[str, ...] = ()
    undo_hazards: tuple[str, ...] = ()
    turns: bool = False  # hand on or turning blade, crank or flywheel; its screws are safety joints


MEANT = (
    Meant(("blade",), "blade", ("blade-turns", "sharp-blade"), ("blade-turns", "sharp-blade"), turns=True),
    Meant(("flywheel", "crank"), "flywheel", ("engine-fires-when-turned",), ("engine-fires-when-turned",), turns=True),
    Meant(
        ("tine", "auger", "impeller", "chain", "cutter", "trimmer head"),
        "tool",
        ("tool-turns",),
        ("tool-turns",),
        turns=True,
    ),
    Meant(("fuel", "petrol", "tank", "carburet"), "fuel", ("petrol-vapour",), ("petrol-vapour",)),
    Meant(("governor", "throttle"), "governor"),
    Meant(("brake", "cable", "lever", "handle"), "controls"),
    Meant(("cylinder", "head", "valve", "rocker", "piston", "muffler", "crankcase"), "engine", ("hot-muffler",)),
    Meant(("starter", "recoil", "spring"), "engine", ("recoil-spring",), ("recoil-spring",)),
)


@dataclass(frozen=True, slots=True)
class RecordedFastener:
    """Like fasteners of a recorded step, as far as somebody said."""

    words: str
    count: int
    thread: str = ""
    length_mm: float | None = None
    size: str = ""  # what turns it: "10 mm socket"
    where: str = ""
    strength: str = ""
    into: str = ""  # material key, or NUT
    engaged_mm: float | None = None


@dataclass(frozen=True, slots=True)
class RecordedStep:
    """A step as it was done."""

    id: str
    do: str
    part: str  # in words
    tool: str
    aside: bool  # swung aside and not taken off
    lies: str  # how the machine lay
    minutes: float
    needs: tuple[str, ...]  # steps that had to be done before, each of them
    fasteners: tuple[RecordedFastener, ...]


def lead_off(name: str) -> RecordedStep:
    """Give the step every recording begins with."""
    do = "Pull the plug lead off and tie it back, well away from the plug"
    return RecordedStep(name, do, PLUG_LEAD, HAND, aside=False, lies=UPRIGHT, minutes=0.3, needs=(), fasteners=())


def step_name(job: int, part: str, taken: Iterable[str]) -> str:
    """Make a name for a step of a job that no other step has.

    >>> step_name(204, "Fuel tank", ["own-204-fuel-tank"])
    'own-204-fuel-tank-again'
    """
    name = f"{PREFIX}{job}-{short_name(part) or 'part'}"
    known = set(taken)
    while name in known:
        name += "-again"
    return name


def part_name(words: str, step: str) -> str:
    """Give the name of a part: its words, or that of its step when they hold no plain letter."""
    return short_name(words) or step


def recorded_assembly(name: str, words: str, steps: Sequence[RecordedStep]) -> Assembly:
    """Make the assembly of recorded steps; a part that came off twice is reached by the later step."""
    return Assembly(
        id=name,
        words=words,
        operations=tuple(_operation(step) for step in steps),
        targets={part_name(step.part, step.id): step.id for step in steps},
        lying={step.lies: f"Turn it to lie {step.lies}." for step in steps if step.lies != UPRIGHT},
        origin=OWN,
    )


def _operation(step: RecordedStep) -> Operation:
    is_lead = not step.needs
    means = () if is_lead else tuple(_meant(f"{step.part} {step.do}"))
    turns = any(one.turns for one in means)
    part = step.part.replace("-", " ") if is_lead else step.part
    back = "Swing" if step.aside else "Put"
    return Operation(
        id=step.id,
        kind="make-safe" if is_lead else "swing-aside" if step.aside else "remove",
        do=step.do,
        undo="Last of all: tools out, guards on, people clear, plug lead on" if is_lead else f"{back} the {part} back",
        part=part_name(step.part, step.id),
        needs=tuple((name,) for name in step.needs),
        tool=step.tool,
        minutes=step.minutes,
        undo_minutes=step.minutes,
        orientations=(step.lies,),
        fasteners=tuple(_fasteners(step, safety=turns)),
        hazards=("plug-lead-off", "hot-muffler") if is_lead else _named(one.hazards for one in means),
        undo_hazards=("moving-parts",) if is_lead else _named(one.undo_hazards for one in means),
        turns_crank=turns,
        undo_checks=(),
        gives="",
        touches=_named((one.touches,) for one in means),
        reasons=(FIRST,) * len(step.needs),
    )


def _meant(words: str) -> Iterator[Meant]:
    plain = words.casefold()
    return (one for one in MEANT if any(word in plain for word in one.words))


def _named(several: Iterable[Iterable[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for each in several for name in each))


def _fasteners(step: RecordedStep, *, safety: bool) -> Iterator[Fastener]:
    for place, one in enumerate(step.fasteners, start=1):
        yield _fastener(f"{step.id}-screws-{place}", one, step.part, safety=safety)


def _fastener(name: str, one: RecordedFastener, part: str, *, safety: bool) -> Fastener:
    into = "" if one.into == NUT else one.into
    under = UNDER_A_NUT if one.into == NUT else into
    guessed = bool(one.thread and into and one.engaged_mm is None)
    long = f", {one.length_mm:g} mm long" if one.into == NUT and one.length_mm is not None else ""
    return Fastener(
        id=name,
        words=(one.words or f"{'screws' if one.thread else 'fasteners'} of the {part}") + long,
        count=one.count,
        thread=one.thread,
        strength=one.strength if one.thread and under else "",
        drive=drive_of(one.size, one.thread),
        size=one.size,
        length_mm=one.length_mm if into or not under else None,
        head="hex",
        where=one.where or f"at the {part}",
        into=into if one.thread else "",
        engaged_mm=_one_diameter(one.thread) if guessed else one.engaged_mm if into else None,
        under_head=under if one.thread else "",
        single_use=False,
        thread_care=NOT_MEASURED if guessed and one.strength else "",
        pattern="",
        published_torque_nm=None,
        safety_joint=safety and bool(one.thread),
        source=SOURCE,
        by_hand_first=bool(one.thread) and one.count > 1,
    )


def drive_of(size: str, thread: str) -> str:
    """Tell the drive by what turns it.

    >>> drive_of("T25 bit", "M6"), drive_of("screwdriver", "M4"), drive_of("10 mm socket", "M6"), drive_of("", "")
    ('torx', 'slot', 'hex', 'clip')
    """
    plain = size.casefold()
    if plain[:1] == "t" and plain[1:2].isdigit():
        return "torx"
    if "screwdriver" in plain:
        return "slot"
    return "hex" if size or thread else "clip"


def _one_diameter(thread: str) -> float:
    return ENGAGED_DIAMETERS * convert(parse_thread(thread).diameter, "mm", "length")


def is_thread(typed: str) -> bool:
    """Whether something typed is a thread."""
    try:
        parse_thread(typed)
    except BellcrankError:
        return False
    return True
