"""A key between shaft and hub, seen from the end and to scale, with what gives way first in full ink."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.both_systems import both_windows
from bellcrank.fastening.key_joint import GivesWay, KeyCapacity, Weakest, Withstood, weakest
from bellcrank.fastening.keys import FittedKey
from bellcrank.figures.arrows import arc, arrow_across, turning_arrow
from bellcrank.figures.cut_parts import HALF, MIDDLE, Outline, box, cut_shape, ink, rectangle
from bellcrank.figures.names import Name, names_beside
from bellcrank.figures.said import capital, length_said, torques_said
from bellcrank.figures.theme import MARGIN, Finding, framed, stroke, title_height, title_lines

SHAFT = 70  # [px] half the shaft where there is room
HUB_WALL, OVER_KEY = 30, 13  # [px] of the hub round the shaft, and what is left of it over the keyway
THINNEST = 14  # [px] a key that comes out thinner is drawn close up
CLOSE_UP, DEEPEST = 44, 150  # [px] width of a key close up, and the deepest seat
ROUND_SEAT = 26  # [px] metal round the seats, close up
MOST_SEAT = 1.4  # [-] over the height at which the key leaves the shaft: a deeper seat would cut the shaft in two
INK = 8  # [px] thickness of a face in ink


@dataclass(frozen=True, slots=True)
class _Keyway:
    """Where shaft, key and hub stand, heights from the shaft's middle up. [px]"""

    fitted: FittedKey
    shaft: float  # diameter [m]
    shaft_seat: float  # [m]
    hub_seat: float  # [m]
    top: float

    @property
    def whole(self) -> float:
        """Pixels to the metre at which the whole hub is seen."""
        return min(2 * SHAFT / self.shaft, (HALF - OVER_KEY) / (self.shaft / 2 + self.hub_seat))

    @property
    def close(self) -> bool:
        """Whether only what is round the key is drawn."""
        return self.whole * self.fitted.width < THINNEST

    @property
    def scale(self) -> float:
        """Pixels to the metre."""
        return min(CLOSE_UP / self.fitted.width, DEEPEST / self.shaft_seat) if self.close else self.whole

    @property
    def radius(self) -> float:
        """Half the shaft."""
        return self.scale * self.shaft / 2

    @property
    def half(self) -> float:
        """Half the key's width."""
        return self.scale * self.fitted.width / 2

    @property
    def side(self) -> float:
        """Height at which the shaft's surface meets the key."""
        return math.sqrt(self.radius**2 - self.half**2)

    @property
    def seat(self) -> float:
        """Height of the bottom of the shaft's seat."""
        return self.side - min(self.scale * self.shaft_seat, MOST_SEAT * self.side)

    @property
    def key_top(self) -> float:
        """Height of the key's top: it presses on the hub from the shaft's surface up to it."""
        return self.side + self.scale * self.fitted.width * self.fitted.hub_side_area / self.fitted.shear_area

    @property
    def hub_top(self) -> float:
        """Height of the top of the hub's seat."""
        return max(self.side + self.scale * self.hub_seat, self.key_top)

    @property
    def outside(self) -> float:
        """Height of the hub's outside over the key."""
        if self.close:
            return self.hub_top + ROUND_SEAT
        return min(max(self.radius + HUB_WALL, self.hub_top + OVER_KEY), HALF)

    @property
    def bottom(self) -> float:
        """Height of the lowest thing drawn."""
        if not self.close:
            return -self.outside
        return min(self.seat, math.sqrt(self.radius**2 - HALF**2)) - ROUND_SEAT

    def down(self, height: float) -> float:
        """Give the place on the page of a height over the shaft's middle."""
        return self.top + self.outside - height


def key_figure(
    fitted: FittedKey,
    shaft: float,
    shaft_seat: float,
    hub_seat: float,
    carries: KeyCapacity[float],
    name: str = "key",
    *,
    unit: str = "N·m",
) -> str:
    """Draw a key in its seats on a shaft, diameter and depths in m."""
    joint = weakest(carries)
    title = f"{_goes(joint)} first, at {torques_said(joint.low, joint.high, unit)}"
    drawn = _Keyway(fitted, shaft, shaft_seat, hub_seat, title_height(title) + 14)
    names = names_beside(_names(drawn, carries, joint, unit), drawn.top - 8)
    finding = Finding(name, title, _told(drawn, carries, joint, unit))
    height = max(drawn.down(drawn.bottom), names.foot) + MARGIN
    parts = (_shaft(drawn), _hub(drawn), _key(drawn), *_inked(drawn, joint), _turns(drawn))
    return framed(finding, "figure-key", height, title_lines(title), *parts, names.marks)


def _goes(joint: Weakest) -> str:
    if joint.first == (GivesWay.KEYWAY,):
        return "The keyway breaks"
    if not joint.only_key:
        return "Key or keyway gives way"
    return "The key shears" if joint.first == (GivesWay.SHEAR,) else "The key gives way"


def _told(drawn: _Keyway, carries: KeyCapacity[float], joint: Weakest, unit: str) -> str:
    near = ", close up" if drawn.close else ""
    where = {
        GivesWay.SHEAR: "the key at the shaft's surface",
        GivesWay.CRUSH: "the key's side",
        GivesWay.KEYWAY: "the side of the hub's keyway",
    }
    parts = " or ".join(where[one] for one in joint.first)
    breaks = ", ".join(f"the {one} at {both_windows(part.low, part.high, unit)}" for one, part in carries.parts.items())
    return (
        f"{_key_said(drawn.fitted)}, {length_said(drawn.fitted.width, 2)} wide, on a {length_said(drawn.shaft)} shaft, "
        f"seen from the end{near}: its seat is {length_said(drawn.shaft_seat, 2)} deep in the shaft and "
        f"{length_said(drawn.hub_seat, 2)} in the hub. In full ink, because it gives way first: {parts}. "
        f"{capital(breaks)}."
    )


def _key_said(fitted: FittedKey) -> str:
    return fitted.words if fitted.words.endswith("key") else f"key {fitted.words}"


def _surface(drawn: _Keyway) -> Outline:
    """Give the shaft's surface from the right side of the key round to its left."""
    middle = (MIDDLE, drawn.down(0))
    beside = math.degrees(math.asin(drawn.half / drawn.radius))
    if not drawn.close:
        return arc(middle, drawn.radius, beside, 360 - beside)
    edge = math.degrees(math.asin(HALF / drawn.radius))
    right, left = arc(middle, drawn.radius, beside, edge), arc(middle, drawn.radius, -edge, -beside)
    foot = drawn.down(drawn.bottom)
    return [*right, (MIDDLE + HALF, foot), (MIDDLE - HALF, foot), *left]


def _shaft(drawn: _Keyway) -> str:
    foot = drawn.down(drawn.seat)
    return cut_shape([*_surface(drawn), (MIDDLE - drawn.half, foot), (MIDDLE + drawn.half, foot)], leans=1)


def _hub(drawn: _Keyway) -> str:
    top = drawn.down(drawn.hub_top)
    seat = [(MIDDLE - drawn.half, top), (MIDDLE + drawn.half, top)]
    if not drawn.close:
        outside = arc((MIDDLE, drawn.down(0)), drawn.outside, 0, 360)[1:]
        return cut_shape(outside, [*_surface(drawn), *seat], leans=-1)
    beside = [one for one in _surface(drawn) if one[1] < drawn.down(drawn.bottom)]
    right = [one for one in beside if one[0] > MIDDLE]
    left = [one for one in beside if one[0] < MIDDLE]
    corners = rectangle(MIDDLE - HALF, MIDDLE + HALF, drawn.down(drawn.outside), 0)[:2]
    return cut_shape([*left, *seat, *right, *reversed(corners)], leans=-1)


def _key(drawn: _Keyway) -> str:
    left, right = MIDDLE - drawn.half, MIDDLE + drawn.half
    return stroke("drawn-line", box(left, right, drawn.down(drawn.key_top), drawn.down(drawn.seat)))


def _inked(drawn: _Keyway, joint: Weakest) -> Iterable[str]:
    """Ink every part that may go first: across the key where it shears, along its side where that or the hub's goes."""
    side, edge = drawn.down(drawn.side), MIDDLE + drawn.half
    if GivesWay.SHEAR in joint.first:
        yield ink(box(MIDDLE - drawn.half, edge, side - INK / 2, side + INK / 2))
    if joint.first != (GivesWay.SHEAR,):
        yield ink(box(edge - INK / 2, edge + INK / 2, min(drawn.down(drawn.key_top), side - INK), side))


def _turns(drawn: _Keyway) -> str:
    """Draw the torque of the shaft: clockwise, so that the key presses to the right."""
    if drawn.close:
        return arrow_across(drawn.down(drawn.bottom) - ROUND_SEAT / 2, MIDDLE - 50, MIDDLE + 50)
    return turning_arrow((MIDDLE, drawn.down(0)), 0.78 * drawn.radius, 115, 245)


def _names(drawn: _Keyway, carries: KeyCapacity[float], joint: Weakest, unit: str) -> Iterable[Name]:
    surface, pressed = drawn.down(drawn.side), drawn.down((drawn.side + drawn.key_top) / 2)
    shear, side = (MIDDLE + drawn.half / 2, surface + 2), (MIDDLE + drawn.half, pressed)
    if drawn.close:
        yield Name("hub", MIDDLE + HALF - 12, drawn.down(drawn.outside) + 12)
    else:
        wall = (drawn.radius + drawn.outside) / 2
        yield Name("hub", MIDDLE + 0.92 * wall, drawn.down(0.4 * wall))
    if joint.first == (GivesWay.SHEAR,):
        yield Name("Limit: the key's shear", *shear, strong=True)
        yield Name(f"keyway breaks at {_torques(carries.hub_side, unit)}", *side)
    else:
        limit = "the key" if joint.only_key else "key or keyway"
        limit = "side of the keyway" if joint.first == (GivesWay.KEYWAY,) else limit
        yield Name(f"Limit: {limit}", MIDDLE + drawn.half + INK / 2, pressed, strong=True)
        yield Name(f"key shears at {_torques(carries.shear, unit)}", *shear)
    yield Name(_key_said(drawn.fitted), MIDDLE, drawn.down(drawn.seat) - 8)
    shaft = f"shaft {length_said(drawn.shaft)}"
    if drawn.close:
        yield Name(f"{shaft}, close up", MIDDLE + HALF - 10, drawn.down(drawn.bottom) - 8)
    else:
        yield Name(shaft, MIDDLE + drawn.radius / 2, drawn.down(-0.4 * drawn.radius))


def _torques(part: Withstood[float], unit: str) -> str:
    return torques_said(part.low, part.high, unit)
