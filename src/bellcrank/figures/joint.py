"""A joint in section, to scale, with the part that limits it in full ink and named."""

from collections.abc import Iterable

from bellcrank.fastening.clamp_limits import Part
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.widening import Limit
from bellcrank.figures.cut_parts import HALF, MIDDLE, both, box, cut, ink, inked_ring, shape, teeth
from bellcrank.figures.joint_section import FACE_INK, FLANGE_HEIGHT, GASKET, HEX_WIDTH, WALL, WASHER, Section
from bellcrank.figures.names import Name, names_beside
from bellcrank.figures.said import length_said
from bellcrank.figures.theme import MARGIN, Finding, framed, stroke, title_height, title_lines


def joint_figure(joint: Joint, limit: Limit, name: str = "joint") -> str:
    """Draw a joint cut along its screw; ``limit`` is the governing one."""
    title = f"The limit here: {limit.words}"
    section = Section(joint, limit.part, title_height(title) + 14)
    names = names_beside(_names(section), section.top - 8)
    height = max(section.foot, names.foot) + MARGIN
    parts = (_clamped(section), _tapped(section), _screw(section), _thread(section), _inked(section))
    finding = Finding(name, title, _told(joint, limit))
    return framed(finding, "figure-joint", height, title_lines(title), *parts, names.marks)


def _told(joint: Joint, limit: Limit) -> str:
    face = joint.turned_face
    below = f"{length_said(joint.full_thread)} of thread in {joint.into.words}" if joint.into is not None else "a nut"
    across, over = length_said(face.bearing_diameter), length_said(face.hole_diameter)
    return (
        f"A section through {joint.thread.name}, {joint.strength.words}: its {joint.head} head seats on "
        f"{joint.under_head.words}, {across} across over a {over} hole, and the screw holds in {below}. In full ink, "
        f"because it limits the joint: {limit.words}."
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
    return "".join(shape(path, filled=filled) for path in (shank, upper, *_head(section)))


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
    return teeth(
        MIDDLE + side * section.core,
        MIDDLE + side * section.bolt,
        section.thread_top,
        section.thread_foot,
        section.scale * section.joint.thread.pitch,
        closed_at=None if closed_at is None else MIDDLE + side * closed_at,
    )


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


def _names(section: Section) -> list[Name]:
    """Name the parts."""
    joint = section.joint
    assumed = ", assumed" if joint.engaged is None else ""
    below = (
        f"{joint.into.words}, {length_said(joint.full_thread)} of thread{assumed}"
        if joint.into is not None
        else "a nut"
    )
    return [
        Name(f"{joint.head} head", MIDDLE + 0.7 * section.bolt, section.top + 10),
        Name(joint.under_head.words, MIDDLE + HALF - 8, section.clamped_foot - 12),
        Name(below, MIDDLE + (HALF - 8 if joint.into is not None else 1.4 * section.bolt), section.thread_foot - 6),
        _governing(section),
    ]


def _governing(section: Section) -> Name:
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
    return Name(f"Limit: {section.governs}", x, y, strong=True)
