"""Fasteners drawn to true size, in millimetres: the length under the head and the thread are true, heads by rule."""

import math
from dataclasses import dataclass

from bellcrank.figures.cut_parts import box, closed

LINE, FINE = 0.4, 0.15  # [mm] how thick an outline and the ridges of a thread are drawn
HEAD_HEIGHT = 0.65  # [-] over the thread's diameter, near that of hex and pan heads
FLANGE_WIDTH, FLANGE_HEIGHT = 2.3, 0.18  # [-] over the thread's diameter
PAN_WIDTH = 2.0  # [-] over the thread's diameter
FLATS = 1.6  # [-] over the thread's diameter, where the size of the tool does not say
CORNERS = 2 / math.sqrt(3)  # [-] across corners over across flats of a hexagon
NO_THREAD = 4.0  # [mm] how wide a screw is drawn whose thread nobody wrote down
OPEN_END = 14.0  # [mm] drawn of a screw whose length nobody wrote down
SIGN_WIDE, SIGN_HIGH = 16.0, 9.0  # [mm] of pins, clips and keys, which are signs only


@dataclass(frozen=True, slots=True)
class Piece:
    """What is told of a fastener to draw it."""

    head: str  # flange, hex, pan, nut
    drive: str
    diameter_mm: float  # of the thread, 0 when it has none
    pitch_mm: float
    flats_mm: float  # of head or nut by the tool that fits it, 0 when it does not say
    length_mm: float | None  # under the head; None: not written down, and nothing of a nut
    nut: bool


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawn fastener, from its own left and top."""

    marks: str
    width: float  # [mm]
    height: float  # [mm]
    true: bool  # to size; False: a sign, or cut short


# drives that are no screws
SIGNS = ("clip", "circlip", "keeper", "quarter turn", "key", "pin", "spring pin")


def true_size(piece: Piece, longest: float = math.inf) -> Drawn:
    """Draw a fastener lying, head at the left; one longer than ``longest`` [mm] is cut short."""
    if piece.drive in SIGNS or (not piece.diameter_mm and piece.length_mm is None):
        return _sign(piece.drive)
    if piece.nut:
        return _nut(piece)
    return _screw(piece, longest)


def outline(path: str, *, dashed: bool = False) -> str:
    """Draw a line as thick as outlines are on paper."""
    return _line(path, LINE, ' stroke-dasharray="1.6 1.2"' if dashed else "")


def _line(path: str, width: float, more: str = "") -> str:
    return (
        f'<path class="drawn-line" d="{path}" fill="none" stroke="currentColor" stroke-width="{width}" '
        f'stroke-linejoin="round"{more}/>'
    )


def _flats(piece: Piece) -> float:
    return piece.flats_mm or FLATS * (piece.diameter_mm or NO_THREAD)


def _screw(piece: Piece, longest: float) -> Drawn:
    thick = piece.diameter_mm or NO_THREAD
    head, across = HEAD_HEIGHT * thick, _across(piece, thick)
    known = piece.length_mm is not None
    length = min(piece.length_mm if piece.length_mm is not None else OPEN_END, longest - head)
    whole = known and length == piece.length_mm
    top, end = (across - thick) / 2, head + length
    marks = _head(piece, thick, head, across) + _shank(head, end, top, thick, sharp=whole and not piece.diameter_mm)
    if not whole:
        marks += _break(end, top, thick)
    elif piece.diameter_mm:
        marks += _ridges(piece, head, end, top)
    return Drawn(marks, end + (0 if whole else 2), across, true=whole)


def _across(piece: Piece, thick: float) -> float:
    if piece.head == "flange":
        return FLANGE_WIDTH * thick
    return PAN_WIDTH * thick if piece.head == "pan" else CORNERS * _flats(piece)


def _head(piece: Piece, thick: float, head: float, across: float) -> str:
    if piece.head == "pan":
        round_ = head * 0.8
        return outline(
            f"M{head:.3f} 0V{across:.3f}H{round_:.3f}Q0 {across:.3f} 0 {across - round_:.3f}V{round_:.3f}"
            f"Q0 0 {round_:.3f} 0Z"
        )
    flange = FLANGE_HEIGHT * thick if piece.head == "flange" else 0.0
    corners = min(CORNERS * _flats(piece), across)
    top, middle = (across - corners) / 2, across / 2
    edges = "".join(f"M0 {y:.3f}H{head - flange:.3f}" for y in (middle - corners / 4, middle + corners / 4))
    marks = outline(box(0, head - flange, top, top + corners)) + _line(edges, FINE * 1.5)
    return marks + (outline(box(head - flange, head, 0, across)) if flange else "")


def _shank(start: float, end: float, top: float, thick: float, *, sharp: bool) -> str:
    """Draw what is under the head: its length and its diameter are true."""
    foot = top + thick
    tip = f"H{end - thick:.3f}L{end:.3f} {top + thick / 2:.3f}L{end - thick:.3f} {foot:.3f}" if sharp else (
        f"H{end:.3f}V{foot:.3f}"
    )  # fmt: skip
    return outline(f"M{start:.3f} {top:.3f}{tip}H{start:.3f}Z")


def _ridges(piece: Piece, head: float, end: float, top: float) -> str:
    """Draw the ridges of a thread, leaning, along the last of the shank."""
    pitch, thick = piece.pitch_mm, piece.diameter_mm
    number = int(min(end - head - pitch, 3 * thick) / pitch)
    path = "".join(
        f"M{end - pitch * one:.3f} {top:.3f}L{end - pitch * (one + 0.5):.3f} {top + thick:.3f}"
        for one in range(1, number)
    )
    return _line(path, FINE) if path else ""


def _break(end: float, top: float, thick: float) -> str:
    """Draw the zigzag where a screw goes on beyond its drawing."""
    path = f"M{end:.3f} {top - 1:.3f}"
    for number in range(1, 5):
        path += f"L{end + (1.5 if number % 2 else 0):.3f} {top - 1 + (thick + 2) * number / 4:.3f}"
    return outline(path)


def _nut(piece: Piece) -> Drawn:
    """Draw a nut as it lies flat: hexagon, flange and the thread's hole."""
    flats = _flats(piece)
    corners = CORNERS * flats
    width = max(corners, FLANGE_WIDTH * piece.diameter_mm if piece.head == "flange" else 0.0)
    middle = width / 2
    points = [
        (middle + corners / 2 * math.cos(math.radians(angle)), middle + corners / 2 * math.sin(math.radians(angle)))
        for angle in range(0, 360, 60)
    ]
    marks = outline(closed_fine(points)) + _ring(middle, piece.diameter_mm / 2)
    return Drawn(marks + (_ring(middle, middle) if piece.head == "flange" else ""), width, width, true=True)


def closed_fine(points: list[tuple[float, float]]) -> str:
    """Give the path round a shape, to the thousandth of a millimetre."""
    return "M" + "L".join(f"{x:.3f} {y:.3f}" for x, y in points) + "Z"


def _ring(middle: float, radius: float) -> str:
    return (
        f'<circle class="drawn-line" cx="{middle:.3f}" cy="{middle:.3f}" r="{radius:.3f}" fill="none" '
        f'stroke="currentColor" stroke-width="{LINE}"/>'
    )


def _sign(drive: str) -> Drawn:
    wide, high = SIGN_WIDE, SIGN_HIGH
    middle = high / 2
    paths = {
        "key": closed([(1, middle - 2), (wide - 1, middle - 2), (wide - 1, middle + 2), (1, middle + 2)]),
        "pin": f"M{wide:.1f} {middle - 0.8:.1f}H6Q0 {middle - 5:.1f} 0 {middle:.1f}"
        f"Q0 {middle + 5:.1f} 6 {middle + 0.8:.1f}H{wide - 2:.1f}",
    }
    ring = f"M{wide - 3:.1f} 0L{wide - 7:.1f} 2.5A4 4 0 1 0 {wide - 7:.1f} {high - 2.5:.1f}L{wide - 3:.1f} {high:.1f}"
    shape = paths.get("pin" if drive.endswith("pin") else drive, ring)
    return Drawn(outline(shape, dashed=True), wide, high, true=False)
