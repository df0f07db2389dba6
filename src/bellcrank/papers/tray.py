"""The tray sheet in the words and drawings of its paper: trays side by side in the order of the way in."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from bellcrank.both_systems import both_lengths
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.threads import parse_thread
from bellcrank.figures.numbered_outline import Mark, Part, Side, numbered_outline
from bellcrank.figures.tray_spots import Spots, spots_figure, spots_within
from bellcrank.figures.true_size import SIGNS, Drawn, Piece, true_size
from bellcrank.knowledge.assembly import Fastener, View
from bellcrank.papers.wording import head_words
from bellcrank.shop.settings import Settings
from bellcrank.shop.sheet import JobSheet
from bellcrank.shop.tray import Tray, tray_sheet
from bellcrank.shop.words import counted
from bellcrank.units import convert, read, to_si

SHEET_WIDE = 174.0  # [mm] between the margins of A4; Letter has a little more
GUTTER, INSET = 3.0, 2.5  # [mm] between trays, and from a tray's edge to what is drawn in it
SIXTHS = (2, 3, 6)  # how much of the sheet's width a tray may take
COMFORTABLE = 42.0  # [mm] of spots, before a tray is made wider
HIGHEST = 150.0  # [mm] of spots that a page surely holds, with head and numbers
FONT = "Atkinson Hyperlegible Next"  # a drawing must name the face it is set in


@dataclass(frozen=True, slots=True)
class Laid:
    """A tray, or a part of one that a page cannot hold whole, as wide as its spots need."""

    tray: Tray
    spots: Spots
    sixths: int
    part: str  # "2 of 3", "" when it is whole


def tray_words(sheet: JobSheet, settings: Settings) -> dict[str, Any]:
    """Write the tray sheet of a job."""
    trays = tray_sheet(sheet)
    laid = [one for tray in trays.trays for one in _laid(tray)]
    return {
        "head": head_words(sheet),
        "target": trays.target_words,
        "total": counted(trays.total, "fastener", "fasteners"),
        "trays": counted(len(trays.trays), "tray", "trays"),
        "notes": _notes(laid),
        "letters": any(len(tray.spots) > 1 and tray.spots[0].across_mm is not None for tray in trays.trays),
        "views": [_view_words(view, trays.trays) for view in trays.views],
        "rows": [[_tray_words(one, settings) for one in row] for row in _rows(laid)],
    }


def tray_width(sixths: int) -> float:
    """Give how wide a tray is that takes so many sixths of the sheet. [mm]"""
    return sixths * (SHEET_WIDE + GUTTER) / 6 - GUTTER


def _piece(tray: Tray) -> Piece:
    fastener = tray.fastener
    thread = parse_thread(fastener.thread) if fastener.thread else None
    return Piece(
        head=fastener.head,
        drive=fastener.drive,
        diameter_mm=_mm(thread.diameter) if thread else 0.0,
        pitch_mm=_mm(thread.pitch) if thread else 0.0,
        flats_mm=_flats_mm(fastener),
        length_mm=fastener.length_mm,
        nut=tray.nut,
    )


def _mm(metres: float) -> float:
    return convert(metres, "mm", "length")


def _flats_mm(fastener: Fastener) -> float:
    """Give the width across flats by the tool that fits; a slot or a star says nothing of the head."""
    if fastener.drive != "hex":
        return 0.0
    try:
        return _mm(read(fastener.size, "length").si)
    except NotUnderstood:
        return 0.0


def _laid(tray: Tray) -> Iterable[Laid]:
    """Lay a tray out: as narrow as will do, and over several boxes when no page holds it."""
    widest = tray_width(SIXTHS[-1]) - 2 * INSET
    drawn = true_size(_piece(tray), longest=widest - 10)
    letters = tuple(spot.words.removeprefix(str(tray.number)) for spot in tray.spots)
    for sixths in SIXTHS:
        spots = spots_within(drawn, letters, tray_width(sixths) - 2 * INSET)
        if spots.width <= tray_width(sixths) - 2 * INSET and spots.height <= COMFORTABLE:
            return [Laid(tray, spots, sixths, "")]
    return _in_parts(tray, drawn, letters, widest)


def _in_parts(tray: Tray, drawn: Drawn, letters: tuple[str, ...], widest: float) -> list[Laid]:
    whole = spots_within(drawn, letters, widest)
    rows = max(1, int(whole.rows * HIGHEST / whole.height))
    most = whole.columns * rows
    cuts = [letters[start : start + most] for start in range(0, len(letters), most)]
    return [
        Laid(tray, spots_within(drawn, cut, widest), SIXTHS[-1], f"{number} of {len(cuts)}" if len(cuts) > 1 else "")
        for number, cut in enumerate(cuts, start=1)
    ]


def _rows(laid: Iterable[Laid]) -> list[list[Laid]]:
    """Fill rows in order; what does not fit begins the next one."""
    rows: list[list[Laid]] = []
    for one in laid:
        if rows and sum(other.sixths for other in rows[-1]) + one.sixths <= SIXTHS[-1]:
            rows[-1].append(one)
        else:
            rows.append([one])
    return rows


def _tray_words(laid: Laid, settings: Settings) -> dict[str, Any]:
    fastener = laid.tray.fastener
    return {
        "number": str(laid.tray.number),
        "title": f"{fastener.to_lay_out} × {fastener.words}",
        "part": laid.part,
        "what": " · ".join(part for part in _what(fastener) if part),
        "long": _length_words(laid, settings),
        "where": f"step {laid.tray.step}: {fastener.where}",
        "renew": fastener.single_use,
        "safety": fastener.safety_joint,
        "spots": _for_print(spots_figure(laid.spots, f"Tray {laid.tray.number}: {fastener.words}")),
        "spots_width": round(laid.spots.width, 3),
        "share": laid.sixths,
    }


def _what(fastener: Fastener) -> tuple[str, ...]:
    if fastener.drive in SIGNS:
        return fastener.drive, fastener.size
    tool = f"{fastener.drive} {fastener.size}".strip().replace(" ", "\u00a0")
    return tool, fastener.thread.replace("x", "×").replace("-", "\u2011")


def _length_words(laid: Laid, settings: Settings) -> str:
    fastener = laid.tray.fastener
    if fastener.length_mm is not None:
        long = both_lengths(to_si(fastener.length_mm, "mm", "length"), settings.torque_unit, digits=0)
        short = "" if laid.spots.drawn.true or fastener.drive in SIGNS else ", drawn shorter"
        return f"{long} long{short}"
    if laid.tray.nut or not fastener.thread:
        return ""
    return "length not known: measure it"


def _notes(laid: Iterable[Laid]) -> list[str]:
    """Say what of the drawings is true, as far as these trays need it."""
    fasteners = [one.tray.fastener for one in laid]
    signs = any(one.drive in SIGNS or not (one.thread or one.length_mm) for one in fasteners)
    plain = any(one.length_mm and not one.thread and one.drive not in SIGNS for one in fasteners)
    notes = ["Lengths under the head and threads are drawn to true size; heads about so."]
    notes += ["Of screws without a thread here only the length is true."] if plain else []
    return notes + (["Pins, clips and keys (broken line) are a sign only."] if signs else [])


def _view_words(view: View, trays: Iterable[Tray]) -> dict[str, Any]:
    marks = [
        Mark(spot.words, (spot.across_mm, spot.down_mm))
        for tray in trays
        if tray.fastener.view == view.id
        for spot in tray.spots
        if spot.across_mm is not None and spot.down_mm is not None
    ]
    parts = tuple(Part(shape.words, shape.points, shape.radius) for shape in view.shapes)
    drawn = numbered_outline(Side(view.id, view.words, view.width, view.height, parts), marks)
    return {"words": view.words, "drawn": _for_print(drawn), "many": len(marks)}


def _for_print(drawn: str) -> str:
    return drawn.replace("<svg ", f'<svg font-family="{FONT}" ', 1)
