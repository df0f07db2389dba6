"""The two turns of a cycle as a dial: where a slipped flywheel puts both sparks, and which valves are open there.

Once round the dial is two turns of the crank, so that each stroke has a quarter; it runs clockwise from firing top
dead centre at the top.
"""

import math
from collections.abc import Iterable, Sequence

from bellcrank.engine.slip import slip_words
from bellcrank.engine.timing import HALF, TURN, Spark, Stroke, ValveTiming
from bellcrank.figures.arrows import arc, turning_arrow
from bellcrank.figures.cut_parts import Point, closed, cut_shape, ink, open_path
from bellcrank.figures.flywheel_ring import Belief, flywheel_ring
from bellcrank.figures.legend import SWATCH, Meaning, hatched, legend
from bellcrank.figures.theme import (
    LINE,
    MARGIN,
    TEXT_SIZE,
    WIDTH,
    Finding,
    framed,
    stroke,
    text,
    text_at,
    title_height,
    title_lines,
)

MIDDLE = WIDTH / 2  # [px] where the dial stands, across the page
HOLE = 108  # [px] from the middle to where sparks' words end and their rays begin
INTAKE, EXHAUST, RIM = (112, 127), (131, 146), 152  # [px] rings of the valves, and the dial's edge
SPARK_AT = 168  # [px] from the middle to a spark
MAIN, WASTED, KEYED = 15, 12, 6  # [px] half a main spark, a wasted one, and the place of a spark with a good key
POINTS = 8  # of a spark
OUTSIDE = 190  # [px] from the middle to the strokes' names
MAIN_WORDS, WASTED_WORDS = 39, 66  # [px] from the middle to the middle of the words of a spark
LEAST_ARROW = 9  # [°] on the dial; a shorter arrow would be all head
QUARTERS, NO_ARROW = (45, 135, 225, 315), 14  # [°] on the dial: half way through the strokes, and beside a spark
CORNERS = {Stroke.COMPRESSION: (-1, -1), Stroke.POWER: (1, -1), Stroke.EXHAUST: (1, 1), Stroke.INTAKE: (-1, 1)}


def timing_dial(
    sparks: tuple[Spark, Spark],
    valves: ValveTiming,
    slip: float,
    advance: float,
    name: str = "timing",
    belief: Sequence[Belief] = (),
) -> str:
    """Draw where both sparks fall; with a belief, (slip [rad], probability), where the flywheel probably sits as well.

    ``slip`` below zero is early; ``advance`` is where the key would hold it. [rad]
    """
    main, wasted = sparks
    moved = slip_words(slip) != slip_words(0.0)
    title = _title(main, slip, moved=moved)
    middle = (MIDDLE, title_height(title) + 1.5 * TEXT_SIZE + OUTSIDE)
    parts = [title_lines(title), _face(middle, sparks), _valves(middle, valves)]
    if moved:
        parts += [_keyed(middle, angle) for angle in (-advance, TURN - advance)]
        parts.append(_slipped(middle, slip, advance))
    parts += [_spark(middle, main, MAIN), _spark(middle, wasted, WASTED), _words(middle, main, slip, moved=moved)]
    meanings = legend(_meanings(main, wasted, moved=moved), middle[1] + OUTSIDE + 2 * TEXT_SIZE)
    told, foot = _told(main, wasted, slip, moved=moved), meanings.bottom + LINE
    parts += [meanings.marks, text("Once round is two turns of the crank.", foot - 0.3 * LINE)]
    if belief:
        ring = flywheel_ring(belief, foot + 14)
        told, foot = f"{told} {ring.told}", ring.bottom
        parts.append(ring.marks)
    return framed(Finding(name, title, told), "figure-timing", foot + 4, *parts)


def _title(main: Spark, slip: float, *, moved: bool) -> str:
    if not moved:
        return f"Spark where it belongs: {main.stroke} stroke"
    return f"Spark {slip_words(slip)}: it falls in the {main.stroke} stroke"


def _told(main: Spark, wasted: Spark, slip: float, *, moved: bool) -> str:
    there = "The flywheel is where it belongs."
    if moved:
        there = f"An arrow from where the key would put the main spark to where it falls says {slip_words(slip)}."
    return (
        "A dial of the two turns of a cycle, clockwise from firing top dead centre at the top: power, exhaust, intake, "
        f"compression, a quarter each. {there} The main spark falls in the {main.stroke} stroke, {_open(main)}; the "
        f"wasted spark, a turn later, in the {wasted.stroke} stroke, {_open(wasted)}."
    )


def _open(spark: Spark) -> str:
    """Say which valves are open at a spark."""
    match spark.intake_open, spark.exhaust_open:
        case True, True:
            return "both valves open"
        case True, False:
            return "intake valve open"
        case False, True:
            return "exhaust valve open"
        case _:
            return "both valves shut"


def _at(middle: Point, angle: float, across: float) -> Point:
    """Give the place of a crank angle [rad] at a distance from the middle."""
    return arc(middle, across, 0, _on_dial(angle))[-1]


def _on_dial(angle: float) -> float:
    """Turn a crank angle [rad] into one on the dial, which is half of it. [°]"""
    return math.degrees(angle) / 2


def _face(middle: Point, sparks: tuple[Spark, Spark]) -> str:
    """Draw the dial's edge and its quarters, and name them: the one the main spark falls in is strong."""
    x, y = middle
    marks = stroke("drawn-line", closed(arc(middle, RIM, 0, 360)[1:]))
    marks += stroke("drawn-line", closed(arc(middle, HOLE, 0, 360)[1:]), 1)
    marks += "".join(
        stroke("drawn-mark", open_path([_at(middle, one, HOLE), _at(middle, one, RIM)]))
        for one in (0, HALF, TURN, 3 * HALF)
    )
    for quarter in QUARTERS:
        if all(abs((_on_dial(one.angle) - quarter + 180) % 360 - 180) > NO_ARROW for one in sparks):
            marks += turning_arrow(middle, RIM, quarter - 4, quarter + 3)
    for name, (side, down) in CORNERS.items():
        edge, anchor = (MARGIN, "start") if side < 0 else (WIDTH - MARGIN, "end")
        marks += text_at(name, edge, y + _line(down), strong=name is sparks[0].stroke, anchor=anchor)
    return marks + text_at("firing top", x, y + _line(-1)) + text_at("top", x, y + _line(1))


def _line(down: int) -> float:
    """Give where the words above or under the dial stand."""
    return OUTSIDE + 0.75 * TEXT_SIZE if down > 0 else -OUTSIDE


def _valves(middle: Point, valves: ValveTiming) -> str:
    """Draw when the valves are open."""
    return _band(middle, INTAKE, TURN - valves.intake_opens, 3 * HALF + valves.intake_closes, leans=1) + _band(
        middle, EXHAUST, HALF - valves.exhaust_opens, TURN + valves.exhaust_closes, leans=-1
    )


def _band(middle: Point, ring: tuple[int, int], start: float, end: float, *, leans: int) -> str:
    first, last = _on_dial(start), _on_dial(end)
    return cut_shape([*arc(middle, ring[0], first, last), *arc(middle, ring[1], last, first)], leans=leans)


def _keyed(middle: Point, angle: float) -> str:
    """Draw faintly where a good key would put a spark."""
    return _faint(_at(middle, angle, HOLE), _at(middle, angle, SPARK_AT - KEYED), _at(middle, angle, SPARK_AT))


def _faint(start: Point, end: Point, at: Point) -> str:
    return (
        f'<path class="drawn-faint" d="{open_path([start, end])}" fill="none" stroke="currentColor" stroke-width="2" '
        'stroke-dasharray="3 4"/>'
        f'<circle class="drawn-faint" cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{KEYED}" fill="none" stroke="currentColor" '
        'stroke-width="2"/>'
    )


def _slipped(middle: Point, slip: float, advance: float) -> str:
    """Draw the arrow from where the key would put the main spark to where it falls: back for early, on for late."""
    sense = math.copysign(1, slip)
    start = _on_dial(-advance) + sense * math.degrees(KEYED / SPARK_AT)
    end = _on_dial(slip - advance) - sense * math.degrees(MAIN / SPARK_AT)
    return turning_arrow(middle, SPARK_AT, start, end) if sense * (end - start) >= LEAST_ARROW else ""


def _spark(middle: Point, spark: Spark, half: int) -> str:
    """Draw a spark in full ink, its ray across the valves' rings."""
    end = SPARK_AT - half / 2
    ray = stroke("drawn-spark", open_path([_at(middle, spark.angle, HOLE), _at(middle, spark.angle, end)]), 4)
    return ray + _burst(_at(middle, spark.angle, SPARK_AT), half)


def _burst(at: Point, half: float) -> str:
    turns = (math.pi * one / POINTS for one in range(2 * POINTS))
    points = [(half if one % 2 == 0 else half / 2.2, turn) for one, turn in enumerate(turns)]
    return ink(closed([(at[0] + far * math.sin(turn), at[1] - far * math.cos(turn)) for far, turn in points]))


def _words(middle: Point, main: Spark, slip: float, *, moved: bool) -> str:
    """Write the sparks' names inside the dial, each on its spark's side."""
    first = ("main spark", slip_words(slip)) if moved else ("main", "spark")
    across = MAIN_WORDS if moved else WASTED_WORDS
    named = ((first, across, True), (("wasted", "spark"), -WASTED_WORDS, False))
    marks = ""
    for lines, far, strong in named:
        x, y = _at(middle, main.angle, far)
        marks += "".join(
            text_at(line, x, y + (number - 0.22) * LINE, strong=strong) for number, line in enumerate(lines)
        )
    return marks


def _meanings(main: Spark, wasted: Spark, *, moved: bool) -> Iterable[Meaning]:
    yield Meaning(lambda at: _burst(at, MAIN), f"main spark: {main.stroke} stroke, {_open(main)}", strong=True)
    yield Meaning(lambda at: _burst(at, WASTED), f"wasted spark: {wasted.stroke} stroke, {_open(wasted)}")
    if moved:
        yield Meaning(_faint_piece, "where a good key puts them")
    yield Meaning(hatched(1), "intake valve open, inner ring")
    yield Meaning(hatched(-1), "exhaust valve open, outer ring")


def _faint_piece(at: Point) -> str:
    x, y = at
    return _faint((x - SWATCH / 2, y), (x + SWATCH / 2 - 2 * KEYED, y), (x + SWATCH / 2 - KEYED, y))
