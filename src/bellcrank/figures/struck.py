"""A flywheel seen along its crank after a blade strike: how far it ran ahead, and what its taper grips with."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.both_systems import both_torques
from bellcrank.fastening.key_joint import GivesWay
from bellcrank.fastening.strike import NOTHING, Grip, Likely, Strike
from bellcrank.figures.arrows import arc, turning_arrow
from bellcrank.figures.cut_parts import HALF, MIDDLE, Outline, closed, cut_shape, ink
from bellcrank.figures.names import Name, names_beside
from bellcrank.figures.said import NO_BREAK, torque_said, torques_said
from bellcrank.figures.theme import (
    BAR,
    Finding,
    RowHead,
    along,
    bar,
    framed,
    row_head,
    stroke,
    title_height,
    title_lines,
)

WHEEL, TAPER = 92, 50  # [px] half the flywheel, half the taper it sits on
KEY_HALF, KEY_DEEP = 8, 12  # [px] half a keyway, and its depth
AHEAD = (68, 82)  # [px] from the middle, between which the run-on is inked
TURNS = HALF - 4  # [px] from the middle to the arrow of the rotation
TURN, TURNING = 360.0, (302, 355)  # [°] a whole turn, and between which the arrow of the rotation is drawn
WIDE = 270.0  # [°] a range this wide says no more than anywhere
NARROWEST = 4.0  # [°] a run-on without a range is still seen
SCALE_SHARE = 1.05  # [-] room to the right of the longest bar


@dataclass(frozen=True, slots=True)
class _RunOn:
    """How far the flywheel is ahead of the crank. [°]"""

    low: float
    high: float

    @property
    def moved(self) -> bool:
        """Whether it can be seen at all."""
        return self.high > math.degrees(NOTHING)

    @property
    def anywhere(self) -> bool:
        """Whether it may stand at any angle."""
        return self.high - self.low >= WIDE

    @property
    def said(self) -> str:
        """The range in words, whole degrees; "up to" where it may not have moved."""
        low, high = f"{self.low:.0f}°", f"{self.high:.0f}°"
        if self.high < 1:
            said = "less than 1°"
        elif self.low < 1:
            said = f"up to {high}"
        else:
            said = high if low == high else f"{low} to {high}"
        return said.replace(" ", NO_BREAK)


def strike_figure(struck: Strike, name: str = "strike", *, unit: str = "N·m") -> str:
    """Draw what a strike did between crank and flywheel, and the torques behind it in one scale."""
    run_on = _RunOn(math.degrees(struck.run_on_low), math.degrees(struck.run_on_high))
    title = _title(struck, run_on)
    top = title_height(title) + 14
    middle = (MIDDLE, top + HALF)
    names = names_beside(_names(struck, run_on, middle), top - 4)
    finding = Finding(name, title, _told(struck, run_on, unit))
    rows = _rows(struck, unit, max(top + 2 * HALF, names.foot) + 8)
    parts = (_wheel(run_on, middle), turning_arrow(middle, TURNS, *TURNING), _inked(run_on, middle))
    return framed(finding, "figure-strike", rows.bottom, title_lines(title), *parts, names.marks, rows.marks)


def _title(struck: Strike, run_on: _RunOn) -> str:
    if not run_on.moved:
        holds = "The taper holds" if struck.taper_holds is Likely.YES else "Taper and key hold"
        return f"{holds}: the flywheel is where it was"
    if run_on.anywhere:
        return "The flywheel slipped round: the spark may come anywhere"
    if run_on.low >= TURN:
        return f"The flywheel slipped more than a turn ahead: {run_on.said}"
    return f"Spark comes early by {run_on.said}"


def _told(struck: Strike, run_on: _RunOn, unit: str) -> str:
    ahead = "Flywheel and crank are where they were."
    if run_on.moved:
        ahead = (
            f"In full ink: the flywheel stands ahead of the crank by {run_on.said}, in the sense of rotation, so that "
            "the spark comes early."
        )
        if run_on.anywhere:
            ahead += " The range is so wide that it may stand anywhere."
    return (
        f"A flywheel on its crank seen along the shaft, turning clockwise. {ahead} Stopping it took "
        f"{both_torques(struck.mean_torque, unit)} on average; its taper grips with {_both(struck.grip, unit)}, "
        f"with the nut at half torque {_both(struck.half_nut_grip, unit)}."
    )


def _both(grip: Grip, unit: str) -> str:
    return f"{both_torques(grip.low, unit)} to {both_torques(grip.high, unit)}"


def _wheel(run_on: _RunOn, middle: tuple[float, float]) -> str:
    """Draw the crank's end with its keyway at the top, and the flywheel round it with its own half way in the range."""
    ahead = (run_on.low + run_on.high) / 2 if run_on.moved else 0.0
    rim = cut_shape(arc(middle, WHEEL, 0, TURN)[1:], _bore(middle, ahead), leans=-1)
    x, y = middle
    top = stroke("drawn-mark", f"M{x:.1f} {y - TAPER - KEY_DEEP:.1f}V{y - WHEEL:.1f}", 1)
    return rim + stroke("drawn-line", closed(_crank(middle))) + top


def _bore(middle: tuple[float, float], ahead: float) -> Outline:
    """Give the flywheel's bore with its keyway."""
    beside = math.degrees(math.asin(KEY_HALF / TAPER))
    return [
        *arc(middle, TAPER, ahead + beside, ahead + TURN - beside),
        *_turned(middle, ahead, [(-KEY_HALF, TAPER + KEY_DEEP), (KEY_HALF, TAPER + KEY_DEEP)]),
    ]


def _crank(middle: tuple[float, float]) -> Outline:
    """Give the crank's end with its keyway at the top."""
    inside = TAPER - 3
    beside = math.degrees(math.asin(KEY_HALF / inside))
    seat = [(-KEY_HALF, TAPER - KEY_DEEP - 2), (KEY_HALF, TAPER - KEY_DEEP - 2)]
    return [*arc(middle, inside, beside, TURN - beside), *_turned(middle, 0, seat)]


def _turned(middle: tuple[float, float], degrees: float, points: Outline) -> Outline:
    """Turn points, across and up from the middle, clockwise."""
    sine, cosine = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    return [(middle[0] + x * cosine + y * sine, middle[1] + x * sine - y * cosine) for x, y in points]


def _inked(run_on: _RunOn, middle: tuple[float, float]) -> str:
    """Ink how far it ran ahead, from the least to the most; where nothing moved, the seat that holds."""
    if not run_on.moved:
        return _band(middle, (TAPER - 3, TAPER + 1), 12, TURN - 12)
    if run_on.anywhere:
        return _band(middle, AHEAD, 0, TURN - 0.1)
    centre = (run_on.low + run_on.high) / 2
    half = max(run_on.high - run_on.low, NARROWEST) / 2
    return _band(middle, AHEAD, centre - half, centre + half)


def _band(middle: tuple[float, float], radii: tuple[float, float], start: float, end: float) -> str:
    return ink(closed([*arc(middle, radii[0], start, end), *arc(middle, radii[1], end, start)]))


def _names(struck: Strike, run_on: _RunOn, middle: tuple[float, float]) -> Iterable[Name]:
    key = {Likely.NO: "", Likely.PERHAPS: f", {_gone(struck, 'perhaps ')}", Likely.YES: f", {_gone(struck, '')}"}
    yield Name("turns this way", middle[0] + 4, middle[1] - TURNS)
    yield Name(f"crank's keyway{key[struck.key_gives_way]}", middle[0], middle[1] - TAPER + 6)
    if not run_on.moved:
        holds = "the taper" if struck.taper_holds is Likely.YES else "taper and key"
        yield Name(f"Holds: {holds}", *arc(middle, TAPER, 0, 110)[-1], strong=True)
        return
    centre = (run_on.low + run_on.high) / 2
    somewhere = ", somewhere" if run_on.anywhere else ""
    yield Name(f"flywheel's keyway{somewhere}", *_turned(middle, centre, [(0, TAPER + KEY_DEEP / 2)])[0])
    ink_at = 120.0 if run_on.anywhere else centre
    yield Name(_ahead(run_on), *_turned(middle, ink_at, [(0, sum(AHEAD) / 2)])[0], strong=True)


def _gone(struck: Strike, how_sure: str) -> str:
    """Say what has given way between crank and flywheel."""
    if GivesWay.KEYWAY not in struck.first:
        return f"key {how_sure}{'sheared' if struck.first == (GivesWay.SHEAR,) else 'gone'}"
    return f"hub's {how_sure}broken" if struck.first == (GivesWay.KEYWAY,) else f"key or hub's {how_sure}broken"


def _ahead(run_on: _RunOn) -> str:
    if run_on.anywhere:
        return f"Flywheel {run_on.said} ahead: anywhere"
    return f"Flywheel {run_on.said} ahead: {'more than a turn' if run_on.low >= TURN else 'spark early'}"


@dataclass(frozen=True, slots=True)
class _Rows:
    """Rows of bars, and where they end. [px]"""

    marks: str
    bottom: float


def _rows(struck: Strike, unit: str, top: float) -> _Rows:
    """Draw the torque of the stop, and against it the grip of the taper as it was and with the nut at half torque."""
    stop = struck.mean_torque
    end = SCALE_SHARE * max(stop, struck.grip.high)
    head = row_head("Stop took", torque_said(stop, unit), top, strong=True)
    marks = head.marks + bar("drawn-stop", along(0, end), along(stop, end), head.bar_top, filled=True)
    for words, grip in (("Taper grips", struck.grip), ("Nut at half torque", struck.half_nut_grip)):
        head = row_head(words, torques_said(grip.low, grip.high, unit), head.bottom)
        marks += head.marks + _span(grip, stop, head, end)
    return _Rows(marks, head.bottom)


def _span(grip: Grip, stop: float, head: RowHead, end: float) -> str:
    """Draw a range of grip, and where the torque of the stop lies on its line."""
    top, foot, at = head.bar_top, head.bar_top + BAR, along(stop, end)
    return (
        bar("drawn-span", along(grip.low, end), along(grip.high, end), top, filled=False)
        + stroke("drawn-line", f"M{along(0, end):.1f} {foot:.1f}H{along(end, end):.1f}")
        + stroke("drawn-mark", f"M{at:.1f} {top - 2:.1f}V{foot + 4:.1f}", 4)
    )
