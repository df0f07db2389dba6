"""What pulls of the cord end in, by how far the flywheel has slipped: early at the left, late at the right."""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

from bellcrank.engine.slip import slip_words
from bellcrank.figures.arrows import arrow_across
from bellcrank.figures.cut_parts import Outline, Point, box, closed, cut_shape, open_path
from bellcrank.figures.legend import SWATCH, Meaning, legend, swatch
from bellcrank.figures.said import NO_BREAK, kept, share_said
from bellcrank.figures.theme import LINE, MARGIN, WIDTH, Finding, framed, stroke, text_at, title_height, title_lines

KICKS, SOLID, DIES, CATCHES, NO_FIRE = "kicks_back", "goes_solid", "fires_and_dies", "catches", "no_fire"
POPS = "pops_intake"
STACK = {  # from the foot up
    KICKS: "kicks back",
    SOLID: "cord goes solid",
    DIES: "fires and dies",
    CATCHES: "catches",
    NO_FIRE: "no fire",
}
LEFT, RIGHT = MARGIN + 54, WIDTH - MARGIN - 8  # [px] of the map
HIGH, POPS_HIGH = 230, 56  # [px] of the map, and of the line under it
IN_PLACE = kept("in place")
MOST = 180.0  # [°] either way
TICKS = (-180, -90, 0, 90, 180)  # [°]
NARROWEST = 8  # [px] of a mark
GREY = 0.4  # [-] of the ink: dark enough beside hatching, light enough for a line across it


@dataclass(frozen=True, slots=True)
class _Map:
    """Where a share over a slip is drawn."""

    slips: Sequence[float]
    top: float
    high: float

    def points(self, shares: Sequence[float]) -> Outline:
        """Give the line of shares. [px]"""
        return [(_across(slip), self.down(share)) for slip, share in zip(self.slips, shares, strict=True)]

    def down(self, share: float) -> float:
        """Give the height of a share. [px]"""
        return self.top + self.high * (1 - min(max(share, 0.0), 1.0))


def kick_map(
    slips: Sequence[float],
    shares: Mapping[str, Sequence[float]],
    name: str = "kick-map",
    measured: tuple[float, float] | None = None,
) -> str:
    """Draw the shares of pulls by their outcome, which add up to 1 at each slip, over the slips. [°, below zero early]

    ``shares`` has the five outcomes and "pops_intake", which may come with any of them; ``measured`` is the share of
    pulls that jerked the cord, from its least to its most.
    """
    fits = _fits(slips, shares[KICKS], measured) if measured else ()
    title = _title(slips, shares[KICKS], fits, measured=measured is not None)
    top = title_height(title) + LINE + 10
    drawn = _Map(slips, top, HIGH)
    foot = top + HIGH
    parts = [title_lines(title), text_at("of all pulls", MARGIN, top - 14, anchor="start")]
    parts += [*_areas(drawn, shares), _shares_beside(drawn)]
    if measured:
        parts += [_felt(drawn, measured), _fitting(fits, foot + 18)]
        foot += 32
    parts.append(_slips_under(foot + 6))
    pops = _Map(slips, foot + 4 * LINE + 14, POPS_HIGH)
    parts += [_pops(pops, shares[POPS])]
    felt = legend(_felt_meaning(measured), pops.top + POPS_HIGH + 14)
    heading = text_at("Where each is most:", MARGIN, felt.bottom + 0.8 * LINE, anchor="start")
    meanings = legend(_meanings(slips, shares), felt.bottom + LINE + 4)
    finding = Finding(name, title, _told(slips, shares, fits, measured))
    return framed(finding, "figure-kick-map", meanings.bottom + 4, *parts, felt.marks, heading, meanings.marks)


def _across(slip: float) -> float:
    return LEFT + (RIGHT - LEFT) * (min(max(slip, -MOST), MOST) + MOST) / (2 * MOST)


def _said(slip: float) -> str:
    """Say a slip in degrees as early, late, or in its place."""
    words = slip_words(math.radians(slip))
    return IN_PLACE if words == slip_words(0.0) else kept(words)


def _span(span: tuple[float, float]) -> str:
    """Say a range of slips, the one nearer to the flywheel's place first: “42° to 47° early”."""
    near, far = (_said(slip) for slip in (span if span[0] < 0 < span[1] else sorted(span, key=abs)))
    if near == far:
        return far
    if near.split(NO_BREAK)[-1] == far.split(NO_BREAK)[-1]:
        near = near.split(NO_BREAK)[0]
    return kept(f"{near} to {far}")


def _spans(fits: Iterable[tuple[float, float]]) -> str:
    return ", or ".join(_span(one) for one in sorted(fits, key=lambda one: min(map(abs, one))))


def _fits(
    slips: Sequence[float], kicks: Sequence[float], measured: tuple[float, float]
) -> tuple[tuple[float, float], ...]:
    """Give the slips, from one to another, at which the share of kicks lies in what was felt.

    >>> _fits((-60.0, -40.0, 0.0), (0.5, 0.3, 0.1), (0.2, 0.4))
    ((-50.0, -20.0),)
    """
    low, high = measured
    found: list[tuple[float, float]] = []
    for (x1, y1), (x2, y2) in pairwise(zip(slips, kicks, strict=True)):
        cuts = [(edge - y1) / (y2 - y1) for edge in measured if y2 != y1]
        stops = sorted({0.0, 1.0, *(one for one in cuts if 0 < one < 1)})
        for start, end in pairwise(stops):
            middle = y1 + (start + end) / 2 * (y2 - y1)
            if low <= middle <= high:
                first, last = x1 + start * (x2 - x1), x1 + end * (x2 - x1)
                joined = found and math.isclose(found[-1][1], first, abs_tol=1e-9)
                found[-1:] = [(found[-1][0], last)] if joined else [*found[-1:], (first, last)]
    return tuple(found)


def _title(
    slips: Sequence[float], kicks: Sequence[float], fits: Sequence[tuple[float, float]], *, measured: bool
) -> str:
    if measured:
        return (
            f"What you felt fits about {_spans(fits)}" if fits else "What you felt fits no slip of the flywheel alone"
        )
    most = max(kicks)
    if share_said(most) == share_said(0.0):
        return "The cord never kicks back"
    return f"Kicks back most {_said(_slip_of(slips, kicks, most))}: {share_said(most)} of pulls"


def _slip_of(slips: Sequence[float], shares: Sequence[float], share: float) -> float:
    return next(slip for slip, one in zip(slips, shares, strict=True) if one == share)


def _told(
    slips: Sequence[float],
    shares: Mapping[str, Sequence[float]],
    fits: Sequence[tuple[float, float]],
    measured: tuple[float, float] | None,
) -> str:
    most = "; ".join(_most(slips, shares[key], words) for key, words in (*STACK.items(), (POPS, "pops through intake")))
    felt = ""
    if measured:
        felt = f" Felt: {_shares(measured)} of pulls jerked, which fits {_spans(fits) or 'no slip'}."
    return (
        "What pulls of the cord end in over how far the flywheel slipped, 180° early at the left to 180° late at the "
        f"right, shares stacked to 100 %. Where each is most: {most}.{felt}"
    )


def _most(slips: Sequence[float], shares: Sequence[float], words: str) -> str:
    """Say an outcome with its greatest share and where that is."""
    most = max(shares)
    if share_said(most) == share_said(0.0):
        return f"{words}: never"
    there = _said(_slip_of(slips, shares, most))
    return f"{words}: {share_said(most)} {there if there == IN_PLACE else f'at {there}'}"


def _shares(pair: tuple[float, float]) -> str:
    low, high = (share_said(one) for one in pair)
    return high if low == high else f"{low.split(NO_BREAK)[0]} to {high}"


def _areas(drawn: _Map, shares: Mapping[str, Sequence[float]]) -> Iterable[str]:
    """Draw the areas over each other, each in a pattern of its own."""
    tops = accumulate((shares[key] for key in STACK), lambda low, more: [a + b for a, b in zip(low, more, strict=True)])
    under: Outline = drawn.points([0.0] * len(drawn.slips))
    for key, over in zip(STACK, tops, strict=True):
        edge = drawn.points(over)
        yield PATTERNS[key]([*edge, *reversed(under)])
        under = edge


def _grey(outline: Outline) -> str:
    return (
        f'<path class="drawn-grey" d="{closed(outline)}" fill="currentColor" fill-opacity="{GREY}" '
        'stroke="currentColor" stroke-width="3"/>'
    )


def _crossed(outline: Outline) -> str:
    return cut_shape(outline, leans=1) + cut_shape(outline, leans=-1)


def _plain(outline: Outline) -> str:
    return stroke("drawn-line", closed(outline))


PATTERNS: Mapping[str, Callable[[Outline], str]] = {
    KICKS: _grey,
    SOLID: _crossed,
    DIES: lambda outline: cut_shape(outline, leans=-1),
    CATCHES: lambda outline: cut_shape(outline, leans=1),
    NO_FIRE: _plain,
}


def _shares_beside(drawn: _Map) -> str:
    marks = ""
    for share in (0.0, 0.5, 1.0):
        y = drawn.down(share)
        marks += text_at(share_said(share), LEFT - 9, y + 6, anchor="end")
        marks += stroke("drawn-mark", f"M{LEFT - 6} {y:.1f}H{LEFT}")
    return marks


def _felt(drawn: _Map, measured: tuple[float, float]) -> str:
    """Draw across the map the shares of pulls that jerked."""
    return "".join(_dashed([(LEFT, drawn.down(one)), (RIGHT, drawn.down(one))]) for one in measured)


def _dashed(line: Outline) -> str:
    return (
        f'<path class="drawn-felt" d="{open_path(line)}" fill="none" stroke="currentColor" stroke-width="4" '
        'stroke-dasharray="10 5"/>'
    )


def _fitting(fits: Iterable[tuple[float, float]], y: float) -> str:
    """Draw under the map the slips that fit what was felt."""
    marks = text_at("fits", LEFT - 9, y + 9, strong=True, anchor="end")
    for span in fits:
        left, right = (_across(one) for one in span)
        wider = max(NARROWEST - (right - left), 0) / 2
        marks += (
            f'<path class="drawn-fits" d="{box(left - wider, right + wider, y - 3, y + 9)}" fill="currentColor" '
            'stroke="currentColor"/>'
        )
    return marks


def _slips_under(top: float) -> str:
    """Draw the axis, in degrees and in words."""
    marks = stroke("drawn-line", f"M{LEFT} {top:.1f}H{RIGHT}")
    for tick in TICKS:
        x = _across(tick)
        marks += stroke("drawn-mark", f"M{x:.1f} {top:.1f}V{top + 6:.1f}")
        marks += text_at(f"{abs(tick)}°" if tick else "0", min(x, WIDTH - MARGIN - 16), top + LINE)
    y = top + 2 * LINE
    marks += text_at("early", LEFT + 20, y, strong=True, anchor="start") + arrow_across(y - 6, LEFT + 14, LEFT - 8)
    marks += text_at("late", RIGHT - 20, y, strong=True, anchor="end") + arrow_across(y - 6, RIGHT - 14, RIGHT + 8)
    return marks + text_at(IN_PLACE, _across(0), y)


def _pops(drawn: _Map, shares: Sequence[float]) -> str:
    """Draw the share of pulls that pop through the carburettor, in a strip of its own: it may come with any outcome."""
    foot = drawn.down(0.0)
    return (
        text_at("pops through the carburettor", MARGIN, drawn.top - 12, anchor="start")
        + stroke("drawn-mark", f"M{LEFT} {drawn.top:.1f}V{foot:.1f}H{RIGHT}")
        + stroke("drawn-pops", open_path(drawn.points(shares)), 4)
        + text_at(share_said(1.0), LEFT - 9, drawn.top + 8, anchor="end")
        + text_at(share_said(0.0), LEFT - 9, foot + 4, anchor="end")
    )


def _felt_meaning(measured: tuple[float, float] | None) -> Iterable[Meaning]:
    if measured:
        yield Meaning(_felt_piece, f"what you felt: {_shares(measured)} of pulls", strong=True)


def _meanings(slips: Sequence[float], shares: Mapping[str, Sequence[float]]) -> Iterable[Meaning]:
    """Say what the patterns mean, in the order they stand over each other."""
    for key in reversed(STACK):
        yield Meaning(_piece(key), _most(slips, shares[key], STACK[key]), strong=key == KICKS)
    yield Meaning(_pops_piece, _most(slips, shares[POPS], "pops"))


def _piece(key: str) -> Callable[[Point], str]:
    return lambda middle: PATTERNS[key](swatch(middle))


def _felt_piece(middle: Point) -> str:
    return _dashed([(middle[0] - SWATCH / 2, middle[1]), (middle[0] + SWATCH / 2, middle[1])])


def _pops_piece(middle: Point) -> str:
    return stroke(
        "drawn-pops", open_path([(middle[0] - SWATCH / 2, middle[1]), (middle[0] + SWATCH / 2, middle[1])]), 4
    )
