"""A joint in section, to scale, with the part that limits it in full ink and named."""

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from bellcrank.fastening.clamp_limits import Part
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.widening import Limit
from bellcrank.figures.joint_section import (
    FACE_INK,
    FLANGE_HEIGHT,
    GASKET,
    HALF,
    HEX_WIDTH,
    MIDDLE,
    WALL,
    WASHER,
    Section,
    both,
    box,
    cut,
    ink,
    inked_ring,
)
from bellcrank.figures.theme import (
    LINE,
    MARGIN,
    TEXT_SIZE,
    WIDTH,
    Finding,
    framed,
    stroke,
    title_height,
    title_lines,
    wrapped,
)
from bellcrank.units import show

WORDS_FROM = 238  # [px] left edge of the names
GAP = 8  # [px] between names


@dataclass(frozen=True, slots=True)
class _Name:
    """What stands beside a part, with the point of the part it belongs to."""

    words: str
    x: float
    y: float
    strong: bool = False

    @property
    def lines(self) -> tuple[str, ...]:
        return wrapped(self.words, width=WIDTH - MARGIN - WORDS_FROM, strong=self.strong)


def joint_figure(joint: Joint, limit: Limit, name: str = "joint") -> str:
    """Draw a joint cut along its screw; ``limit`` is the governing one."""
    title = f"The limit here: {limit.words}"
    section = Section(joint, limit.part, title_height(title) + 14)
    names = _placed(section, _names(section))
    height = max(section.foot, names[-1].y + LINE * len(names[-1].lines)) + MARGIN
    parts = (_clamped(section), _tapped(section), _screw(section), _thread(section), _inked(section))
    finding = Finding(name, title, _told(joint, limit))
    return framed(finding, "figure-joint", height, title_lines(title), *parts, *map(_written, names))


def _told(joint: Joint, limit: Limit) -> str:
    face = joint.turned_face
    below = f"{_mm(joint.full_thread)} of thread in {joint.into.words}" if joint.into is not None else "a nut"
    return (
        f"A section through {joint.thread.name}, {joint.strength.words}: its {joint.head} head seats on "
        f"{joint.under_head.words}, {_mm(face.bearing_diameter)} across over a {_mm(face.hole_diameter)} hole, and the "
        f"screw holds in {below}. In full ink, because it limits the joint: {limit.words}."
    )


def _clamped(section: Section) -> str:
    top, foot = section.clamped_top, section.clamped_foot
    marks = cut(section.hole, HALF, top, foot, leans=1)
    if section.joint.washer is not None:
        marks += both(section.hole, section.face, section.seat, top)
    if section.joint.most_clamp is not None:
        marks += both(section.hole, HALF, foot, section.thread_top)
    return marks


def _tapped(section: Section) -> str:
    """Draw what holds the thread: a part with its hole, or a nut."""
    top, foot = section.thread_top, section.thread_foot
    if section.joint.into is None:
        return cut(section.bolt, HEX_WIDTH * section.bolt, top, foot, leans=-1)
    below = foot + WALL
    outline = stroke("drawn-line", f"M{MIDDLE - HALF} {below:.1f}H{MIDDLE + HALF}")
    return cut(section.bolt, HALF, top, below, leans=-1) + outline


def _screw(section: Section) -> str:
    """Draw head and shank, in ink when the screw itself is the limit."""
    filled = section.governs is Part.BOLT
    end = section.thread_foot + (WALL / 2 if section.joint.into is None else 0)
    shank = box(MIDDLE - section.core, MIDDLE + section.core, section.seat, end)
    upper = box(MIDDLE - section.bolt, MIDDLE + section.bolt, section.seat, section.thread_top)
    return "".join(_shape(path, filled=filled) for path in (shank, upper, *_head(section)))


def _head(section: Section) -> Iterable[str]:
    top, seat, face = section.top, section.seat, section.face
    if section.joint.head == "flange":
        rim = seat - FLANGE_HEIGHT * 2 * section.bolt
        yield box(MIDDLE - face, MIDDLE + face, rim, seat)
        wide = min(HEX_WIDTH * section.bolt, face)
        yield box(MIDDLE - wide, MIDDLE + wide, top, rim)
    elif section.joint.head == "pan":
        corner = 0.35 * (seat - top)
        left, right = MIDDLE - face, MIDDLE + face
        yield (
            f"M{left:.1f} {seat:.1f}V{top + corner:.1f}Q{left:.1f} {top:.1f} {left + corner:.1f} {top:.1f}"
            f"H{right - corner:.1f}Q{right:.1f} {top:.1f} {right:.1f} {top + corner:.1f}V{seat:.1f}Z"
        )
    else:
        yield box(MIDDLE - face, MIDDLE + face, top, seat)


def _thread(section: Section) -> str:
    """Draw the teeth of the thread on both sides, between its core and its outside."""
    return "".join(
        stroke("drawn-line", _teeth(section, side)) for side in (-1, 1) if section.thread_foot > section.thread_top
    )


def _teeth(section: Section, side: int, *, closed_at: float | None = None) -> str:
    """Give the zigzag of one side; closed towards the axis or towards the hole, a band of teeth to fill."""
    top, foot = section.thread_top, section.thread_foot
    number = max(2, round((foot - top) / (section.scale * section.joint.thread.pitch)))
    step = (foot - top) / number
    inside, outside = MIDDLE + side * section.core, MIDDLE + side * section.bolt
    path = f"M{inside:.1f} {top:.1f}"
    for tooth in range(number):
        start = top + tooth * step
        path += f"L{outside:.1f} {start + step / 2:.1f}L{inside:.1f} {start + step:.1f}"
    if closed_at is None:
        return path
    edge = MIDDLE + side * closed_at
    return f"{path}L{edge:.1f} {foot:.1f}V{top:.1f}Z"


def _inked(section: Section) -> str:
    """Put the part that limits into full ink; a screw is inked where it is drawn."""
    match section.governs:
        case Part.BOLT:
            return ""
        case Part.NECK:
            middle, half = (
                (section.clamped_top + section.clamped_foot) / 2,
                section.scale * (section.joint.neck or 0) / 2,
            )
            return ink(box(MIDDLE - half, MIDDLE + half, middle - 10, middle + 10))
        case Part.FACE:
            return inked_ring(section.hole, section.face, section.clamped_top, section.clamped_top + FACE_INK)
        case Part.WASHER:
            return inked_ring(section.hole, section.face, section.seat, section.clamped_top)
        case Part.GASKET:
            return inked_ring(section.hole, HALF, section.clamped_foot, section.thread_top)
        case Part.HOLE:
            edge = section.bolt + 10
        case Part.OWN_THREAD:
            edge = 0.55 * section.core
    return "".join(ink(_teeth(section, side, closed_at=edge)) for side in (-1, 1))


def _names(section: Section) -> list[_Name]:
    """Name the parts, from the top down."""
    joint = section.joint
    assumed = ", assumed" if joint.engaged is None else ""
    below = f"{joint.into.words}, {_mm(joint.full_thread)} of thread{assumed}" if joint.into is not None else "a nut"
    names = [
        _Name(f"{joint.head} head", MIDDLE + 0.7 * section.bolt, section.top + 10),
        _Name(joint.under_head.words, MIDDLE + HALF - 8, section.clamped_foot - 12),
        _Name(below, MIDDLE + (HALF - 8 if joint.into is not None else 1.4 * section.bolt), section.thread_foot - 6),
        _governing(section),
    ]
    return sorted(names, key=lambda one: one.y)


def _governing(section: Section) -> _Name:
    middle_of_thread = (section.thread_top + section.thread_foot) / 2
    x, y = {
        Part.BOLT: (MIDDLE + section.bolt, section.clamped_top + 10),
        Part.NECK: (MIDDLE, (section.clamped_top + section.clamped_foot) / 2),
        Part.FACE: (MIDDLE + section.face, section.clamped_top + FACE_INK / 2),
        Part.WASHER: (MIDDLE + section.face, section.seat + WASHER / 2),
        Part.HOLE: (MIDDLE + section.bolt + 10, section.thread_top + 14),
        Part.OWN_THREAD: (MIDDLE + section.core, middle_of_thread - 10),
        Part.GASKET: (MIDDLE + HALF, section.clamped_foot + GASKET / 2),
    }[section.governs]
    return _Name(f"Limit: {section.governs}", x, y, strong=True)


@dataclass(frozen=True, slots=True)
class _Placed:
    """A name with where its first line begins."""

    name: _Name
    y: float

    @property
    def lines(self) -> tuple[str, ...]:
        return self.name.lines


def _placed(section: Section, names: Iterable[_Name]) -> list[_Placed]:
    """Put the names beside their parts, each below the one before."""
    placed, free_from = [], section.top - 8
    for name in names:
        top = max(name.y - LINE / 2, free_from)
        placed.append(_Placed(name, top))
        free_from = top + LINE * len(name.lines) + GAP
    return placed


def _written(placed: _Placed) -> str:
    name = placed.name
    style = 'class="drawn-said" font-weight="bold"' if name.strong else 'class="drawn-words"'
    written = "".join(
        f'<text {style} x="{WORDS_FROM}" y="{placed.y + LINE * (number + 0.78):.1f}" font-size="{TEXT_SIZE}" '
        f'fill="currentColor">{escape(line)}</text>'
        for number, line in enumerate(name.lines)
    )
    lead = f"M{name.x:.1f} {name.y:.1f}L{WORDS_FROM - 6} {placed.y + LINE / 2:.1f}"
    return written + stroke("drawn-lead", lead, 3 if name.strong else 1)


def _shape(path: str, *, filled: bool) -> str:
    return ink(path) if filled else stroke("drawn-line", path)


def _mm(length: float) -> str:
    return show(length, "mm", "length", 1).replace(" ", "\N{NO-BREAK SPACE}")
