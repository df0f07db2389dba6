"""The spots of one tray: a true-size outline for every fastener of a group, to lay it on."""

import math
from dataclasses import dataclass
from html import escape

from bellcrank.figures.true_size import Drawn

LETTER_WIDE = 6.0  # [mm] room left of an outline for its letter
LETTER_SIZE = 4.2  # [mm]
ACROSS, DOWN = 6.0, 5.0  # [mm] between outlines: a finger's tip must get round a screw
EDGE = 1.0  # [mm] round all of them


@dataclass(frozen=True, slots=True)
class Spots:
    """Where the spots of a tray stand, in columns and rows."""

    drawn: Drawn
    letters: tuple[str, ...]  # one for each, "" for the only one
    columns: int

    @property
    def rows(self) -> int:
        """Rows of spots."""
        return math.ceil(len(self.letters) / self.columns)

    @property
    def width(self) -> float:
        """From edge to edge. [mm]"""
        return 2 * EDGE + self.columns * (_wide(self.drawn, self.letters) + ACROSS) - ACROSS

    @property
    def height(self) -> float:
        """From edge to edge. [mm]"""
        return 2 * EDGE + self.rows * (_high(self.drawn) + DOWN) - DOWN

    def at(self, number: int) -> tuple[float, float]:
        """Give the left and top of a spot, its letter included. [mm]"""
        row, column = divmod(number, self.columns)
        left = EDGE + column * (_wide(self.drawn, self.letters) + ACROSS)
        return left, EDGE + row * (_high(self.drawn) + DOWN)


def spots_within(drawn: Drawn, letters: tuple[str, ...], width: float) -> Spots:
    """Lay as many spots abreast as a width [mm] has room for, one at least."""
    one = _wide(drawn, letters)
    columns = max(1, int((width - 2 * EDGE + ACROSS) / (one + ACROSS)))
    return Spots(drawn, letters, min(columns, len(letters)))


def spots_figure(spots: Spots, told: str) -> str:
    """Draw the spots; one unit of the drawing is a millimetre."""
    marks = "".join(_spot(spots, number) for number in range(len(spots.letters)))
    wide, high = f"{spots.width:.3f}", f"{spots.height:.3f}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="tray-spots" width="{wide}mm" height="{high}mm" '
        f'viewBox="0 0 {wide} {high}" role="img"><title>{escape(told)}</title>{marks}</svg>'
    )


def _spot(spots: Spots, number: int) -> str:
    (left, top), letter, drawn = spots.at(number), spots.letters[number], spots.drawn
    room = LETTER_WIDE if any(spots.letters) else 0.0
    middle = top + _high(drawn) / 2
    marks = f'<g transform="translate({left + room:.3f} {middle - drawn.height / 2:.3f})">{drawn.marks}</g>'
    if not letter:
        return marks
    return marks + (
        f'<text class="drawn-said" x="{left + LETTER_WIDE / 2 - 0.8:.3f}" y="{middle + 0.35 * LETTER_SIZE:.3f}" '
        f'font-size="{LETTER_SIZE}" font-weight="bold" text-anchor="middle" fill="currentColor">{escape(letter)}</text>'
    )


def _wide(drawn: Drawn, letters: tuple[str, ...]) -> float:
    return drawn.width + (LETTER_WIDE if any(letters) else 0.0)


def _high(drawn: Drawn) -> float:
    return max(drawn.height, LETTER_SIZE)
