"""A hub on the tapered end of a crank, to scale, with the flank that grips in full ink."""

from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.both_systems import both_forces, both_torques
from bellcrank.fastening.taper import TaperSeat
from bellcrank.fastening.taper_forces import Taper
from bellcrank.figures.arrows import arrow, turning_arrow
from bellcrank.figures.cut_parts import HALF, MIDDLE, both, broken_edge, closed, cut_shape, ink, mirrored, open_path
from bellcrank.figures.names import Name, names_beside
from bellcrank.figures.said import force_said, length_said, torque_said
from bellcrank.figures.theme import MARGIN, Finding, framed, stroke, title_height, title_lines

WIDEST, LONGEST = 92, 165  # [px] the taper's large end, and its length
LEAST_LEAN = 5.0  # [px] a flank that leans less along its length is drawn steeper
ARROW, NUT, PROUD = 46, 34, 8  # [px] length of the push, height of the nut, hub above the end of the taper
STUB, HEX = 0.62, 1.8  # [-] thread over the taper's small end, nut over its thread
BOSS, WEB = 26, 30  # [px] wall of the hub round the taper, and thickness of the wheel on it
BELOW, ROUND = 64, 12  # [px] crank below the hub, and half the height of the torque round it
INK = 6  # [px] thickness of the flank in ink


@dataclass(frozen=True, slots=True)
class _Seat:
    """Where hub, crank and nut stand, half widths from the axis and heights from the top. [px]"""

    taper: Taper
    top: float

    @property
    def scale(self) -> float:
        """Pixels to the metre."""
        large = self.taper.mean_diameter + self.taper.ratio * self.taper.length / 2
        return min(WIDEST / large, LONGEST / self.taper.length)

    @property
    def steeper(self) -> bool:
        """Whether the flank would not be seen to lean."""
        return self.scale * self.taper.length * self.taper.tangent < LEAST_LEAN

    @property
    def lean(self) -> float:
        """How far the flank leans along its length, over half of it."""
        return max(self.scale * self.taper.length * self.taper.tangent, LEAST_LEAN) / 2

    @property
    def mean(self) -> float:
        """Half the mean diameter."""
        return self.scale * self.taper.mean_diameter / 2

    @property
    def small(self) -> float:
        """Half the small end of the taper."""
        return self.mean - self.lean

    @property
    def large(self) -> float:
        """Half the large end of the taper."""
        return self.mean + self.lean

    @property
    def stub(self) -> float:
        """Half the thread at the crank's end."""
        return STUB * self.small

    @property
    def nut_top(self) -> float:
        """Where the nut begins."""
        return self.top + ARROW + 12

    @property
    def hub_top(self) -> float:
        """Where the hub begins."""
        return self.nut_top + NUT

    @property
    def taper_top(self) -> float:
        """Where the contact begins."""
        return self.hub_top + PROUD

    @property
    def hub_foot(self) -> float:
        """Where contact and hub end."""
        return self.taper_top + self.scale * self.taper.length

    @property
    def foot(self) -> float:
        """Where the drawing of the crank ends."""
        return self.hub_foot + BELOW


def taper_figure(taper: Taper, push: float, seat: TaperSeat[float], name: str = "taper", *, unit: str = "N·m") -> str:
    """Draw a hub seated on a taper by a nut that pushes with a force [N]."""
    title = f"This taper first slips at {torque_said(seat.slip_torque_low, unit)}"
    drawn = _Seat(taper, title_height(title) + 14)
    names = names_beside(_names(drawn, push, seat, unit), drawn.top - 8)
    finding = Finding(name, title, _told(taper, push, seat, unit))
    parts = (_hub(drawn), _crank(drawn), _nut(drawn), _flanks(drawn), _arrows(drawn, seat))
    height = max(drawn.foot + 6, names.foot) + MARGIN
    return framed(finding, "figure-taper", height, title_lines(title), *parts, names.marks)


def _told(taper: Taper, push: float, seat: TaperSeat[float], unit: str) -> str:
    freed = f"{both_forces(seat.release_force)} pulls it off"
    if seat.release_force <= 0:
        freed = "With the nut off it comes off by itself"
    low, high = both_torques(seat.slip_torque_low, unit), both_torques(seat.slip_torque_high, unit)
    return (
        f"A section through a hub on a crank's taper, {_said(taper)}, {length_said(taper.mean_diameter)} half way and "
        f"{length_said(taper.length)} long. The nut pushes with {both_forces(push)}. In full ink, because it "
        f"carries the torque: the flank. It first slips at {low}; once it has settled, at {high}. {freed}."
    )


def _said(taper: Taper) -> str:
    return f"1:{1 / taper.ratio:.3g}"


def _hub(drawn: _Seat) -> str:
    """Draw the hub, a boss with the wheel on its foot, cut on both sides of the axis."""
    boss = min(drawn.large + BOSS, HALF - 14)
    web_top = max(drawn.hub_foot - WEB, drawn.hub_top + 10)
    bore_top = drawn.small - 2 * drawn.lean * PROUD / (drawn.hub_foot - drawn.taper_top)
    right = [
        (MIDDLE + bore_top, drawn.hub_top),
        (MIDDLE + boss, drawn.hub_top),
        (MIDDLE + boss, web_top),
        (MIDDLE + HALF, web_top),
        (MIDDLE + HALF, drawn.hub_foot),
        (MIDDLE + drawn.large, drawn.hub_foot),
    ]
    return cut_shape(mirrored(right), leans=1) + cut_shape(right, leans=1)


def _crank(drawn: _Seat) -> str:
    """Draw the crank from its thread, in the nut, to where it goes on below."""
    right = [
        (MIDDLE + drawn.stub, drawn.nut_top - 8),
        (MIDDLE + drawn.stub, drawn.taper_top),
        (MIDDLE + drawn.small, drawn.taper_top),
        (MIDDLE + drawn.large, drawn.hub_foot),
        (MIDDLE + drawn.large, drawn.foot),
    ]
    outline = open_path([*reversed(right), *mirrored(right)])
    return stroke("drawn-line", outline) + broken_edge(MIDDLE - drawn.large, MIDDLE + drawn.large, drawn.foot)


def _nut(drawn: _Seat) -> str:
    half = min(HEX * drawn.stub, HALF - 14)
    return both(drawn.stub, half, drawn.nut_top, drawn.hub_top)


def _flanks(drawn: _Seat) -> str:
    right = [
        (MIDDLE + drawn.small - INK / 2, drawn.taper_top),
        (MIDDLE + drawn.small + INK / 2, drawn.taper_top),
        (MIDDLE + drawn.large + INK / 2, drawn.hub_foot),
        (MIDDLE + drawn.large - INK / 2, drawn.hub_foot),
    ]
    return ink(closed(right)) + ink(closed(mirrored(right)))


def _arrows(drawn: _Seat, seat: TaperSeat[float]) -> str:
    """Draw what pushes, what turns, and what pulls off."""
    turns = turning_arrow((MIDDLE, _round_at(drawn)), drawn.large + 14, 250, 110, high=ROUND)
    pull = "".join(arrow(MIDDLE + side * _pull_at(drawn), drawn.hub_top - 6, drawn.hub_top - 44) for side in (-1, 1))
    return arrow(MIDDLE, drawn.top, drawn.nut_top - 12) + turns + (pull if seat.release_force > 0 else "")


def _round_at(drawn: _Seat) -> float:
    return drawn.hub_foot + BELOW / 2


def _pull_at(drawn: _Seat) -> float:
    return min(drawn.large + BOSS, HALF - 14) - 9


def _names(drawn: _Seat, push: float, seat: TaperSeat[float], unit: str) -> Iterable[Name]:
    steeper = ", drawn steeper" if drawn.steeper else ""
    middle = (drawn.taper_top + drawn.hub_foot) / 2
    yield Name(f"nut pushes {force_said(push)}", MIDDLE + 8, drawn.top + 12)
    if seat.release_force > 0:
        yield Name(f"pulls off at {force_said(seat.release_force)}", MIDDLE + _pull_at(drawn) + 8, drawn.hub_top - 30)
    else:
        yield Name("comes off by itself", MIDDLE + _pull_at(drawn), drawn.hub_top + 6)
    yield Name("Limit: grip of the flank", MIDDLE + drawn.mean + INK / 2, middle, strong=True)
    yield Name(f"taper {_said(drawn.taper)}{steeper}, {length_said(drawn.taper.length)} long", MIDDLE, middle + 8)
    slips = torque_said(seat.slip_torque_low, unit)
    settled = torque_said(seat.slip_torque_high, unit)
    yield Name(f"slips at {slips}, settled {settled}", MIDDLE + drawn.large + 12, _round_at(drawn) + 4)
