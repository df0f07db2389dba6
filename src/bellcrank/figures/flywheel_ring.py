"""Where a flywheel probably sits on its crank: bars round it, longer where it sits more likely.

Seen along the shaft and turning clockwise, as :func:`bellcrank.figures.struck.strike_figure` shows it: forward, which
is early, is to the right of where it belongs.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bellcrank.engine.slip import shortest, slip_words
from bellcrank.figures.arrows import arc, turning_arrow
from bellcrank.figures.cut_parts import Point, closed, ink, open_path
from bellcrank.figures.said import kept, share_said
from bellcrank.figures.theme import LINE, MARGIN, TEXT_SIZE, TITLE_SIZE, WIDTH, stroke, text, text_at, wrapped

Belief = tuple[float, float]  # slip, below zero early [rad], and its probability [-]

SECTOR = 10  # [°] the grid of a belief is gathered into bars this wide
SECTORS = 360 // SECTOR
WHEEL, BARS, LONGEST = 66, 73, 74  # [px] half the flywheel, from the middle to the bars, the longest of them
REACH = BARS + LONGEST + 6  # [px] from the middle to the words round it
OPPOSITE = "half a turn round"
LEAST_BAR = 1.5  # [px] shorter ones are left out


@dataclass(frozen=True, slots=True)
class Ring:
    """The drawing, where it ends, and what it says."""

    marks: str
    bottom: float  # [px]
    told: str


def flywheel_ring(belief: Sequence[Belief], top: float) -> Ring:
    """Draw where a flywheel probably sits, under a heading that says where that is."""
    shares = _gathered(belief)
    likeliest = max(shares, key=lambda sector: shares[sector])
    said = _said(shares, likeliest)
    heading = wrapped(said, TITLE_SIZE, strong=True)
    marks = "".join(
        text(line, top + TITLE_SIZE * (1 + 1.25 * number), strong=True, size=TITLE_SIZE)
        for number, line in enumerate(heading)
    )
    middle = (WIDTH / 2, top + 1.25 * TITLE_SIZE * len(heading) + TEXT_SIZE + 12 + REACH)
    marks += _wheel(middle) + _bars(middle, shares) + _words(middle, shares)
    told = (
        f"A flywheel seen along its shaft, turning clockwise, with bars round it where it probably sits. {said}: "
        f"{share_said(shares[likeliest])} {'in place' if likeliest == 0 else 'about there'}. Early altogether "
        f"{share_said(_early(shares))}, late {share_said(_late(shares))}, in its place {share_said(shares[0])}."
    )
    return Ring(marks, middle[1] + REACH + TEXT_SIZE + 12, told)


def _said(shares: dict[int, float], likeliest: int) -> str:
    """Say where it sits; one bar in place may be the longest while all those beside it together outweigh it."""
    early, late = _early(shares), _late(shares)
    if likeliest == 0 and max(early, late) > shares[0]:
        return f"Flywheel likelier {'early' if early > late else 'late'} than in place"
    return f"Flywheel most likely {OPPOSITE if likeliest == -180 else kept(slip_words(math.radians(likeliest)))}"


def _gathered(belief: Sequence[Belief]) -> dict[int, float]:
    """Add up a belief in sectors, by the slip in their middle, from -180° on; all together 1.

    What lies between two middles is shared out by its distance to them, so that no grid makes a comb.
    """
    shares = dict.fromkeys(range(-180, 180, SECTOR), 0.0)
    for slip, probability in belief:
        place = (math.degrees(shortest(slip)) + 180) / SECTOR
        before = math.floor(place)
        for number, part in ((before, before + 1 - place), (before + 1, place - before)):
            shares[number % SECTORS * SECTOR - 180] += part * probability
    whole = sum(shares.values())
    return {sector: share / whole for sector, share in shares.items()}


def _early(shares: dict[int, float]) -> float:
    """Add up what is early, half of what is half a turn round."""
    return sum(share for sector, share in shares.items() if -180 < sector < 0) + shares[-180] / 2


def _late(shares: dict[int, float]) -> float:
    return sum(share for sector, share in shares.items() if sector > 0) + shares[-180] / 2


def _wheel(middle: Point) -> str:
    x, y = middle
    mark = stroke("drawn-mark", open_path([(x, y - WHEEL + 14), (x, y - WHEEL)]), 4)
    return stroke("drawn-line", closed(arc(middle, WHEEL, 0, 360)[1:])) + mark + turning_arrow(middle, 40, 290, 430)


def _bars(middle: Point, shares: dict[int, float]) -> str:
    """Draw the bars; forward, below zero, is clockwise."""
    most, half = max(shares.values()), SECTOR / 2 - 1
    marks = stroke("drawn-line", closed(arc(middle, BARS, 0, 360)[1:]), 1)
    for sector, share in shares.items():
        long = LONGEST * share / most
        if long >= LEAST_BAR:
            first, last = -sector - half, -sector + half
            marks += ink(closed([*arc(middle, BARS, first, last), *arc(middle, BARS + long, last, first)]))
    return marks


def _words(middle: Point, shares: dict[int, float]) -> str:
    """Write how likely it is in its place, over the ring, and early and late in the corners beside."""
    x, y = middle
    over = y - REACH - 2
    marks = text_at(f"in place {share_said(shares[0])}", x, over) + text_at("turns", x, y + 6)
    marks += text_at(OPPOSITE, x, y + REACH + 0.8 * TEXT_SIZE)
    corners = (("late", _late(shares), MARGIN, "start"), ("early", _early(shares), WIDTH - MARGIN, "end"))
    for words, share, at, anchor in corners:
        marks += text_at(words, at, over, strong=True, anchor=anchor)
        marks += text_at(share_said(share), at, over + LINE, anchor=anchor)
    return marks
