"""The two turns of a cycle as a dial."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.engine.timing import Stroke

from .drawn import SVG, paths, read_svg, refuse_a_muddle, texts, told
from .of_engine import ENGINES, believed, dialled

MIDDLE = 210
QUARTERS = {Stroke.POWER: 45, Stroke.EXHAUST: 135, Stroke.INTAKE: 225, Stroke.COMPRESSION: 315}


def middle(figure):
    """Give the dial's middle from the first ring drawn."""
    ring = paths(figure, "drawn-line")[0]
    return MIDDLE, (max(y for _, y in ring) + min(y for _, y in ring)) / 2


def turned(figure, point):
    """Give the angle of a point on the dial, clockwise from the top. [°]"""
    x, y = middle(figure)
    return math.degrees(math.atan2(point[0] - x, y - point[1])) % 360


def rays(figure):
    return [turned(figure, line[-1]) for line in paths(figure, "drawn-spark")]


def said(figure):
    return [one.words.replace("\u00a0", " ") for one in texts(figure)]


@pytest.mark.parametrize("slip", [-270, -60, -12, 0, 25, 90, 200])
def test_once_round_the_dial_is_two_turns_of_the_crank(slip):
    main, wasted = rays(dialled(slip, 20))
    assert main == pytest.approx((slip - 20) / 2 % 360, abs=0.1)
    assert wasted == pytest.approx((main + 180) % 360, abs=0.1)


def test_what_a_good_key_would_do_is_drawn_faintly_and_not_when_nothing_slipped():
    faint = [turned(dialled(-60, 20), line[0]) for line in paths(dialled(-60, 20), "drawn-faint")]
    assert faint[:2] == pytest.approx([350, 170], abs=0.1)
    assert "drawn-faint" not in dialled(0)


@pytest.mark.parametrize(
    ("slip", "words"), [(-60, "60° early"), (90, "90° late"), (-270, "270° early"), (25, "25° late")]
)
def test_says_early_and_late_in_words_and_never_by_a_sign(slip, words):
    figure = dialled(slip)
    assert told(figure)[0].startswith(f"Spark {words}: ")
    assert words in said(figure)
    assert f"falls says {words}." in told(figure)[1]
    assert not any(sign in "".join(said(figure)) for sign in "-−+")


@pytest.mark.parametrize(("slip", "sense"), [(-90, -1), (90, 1)])
def test_the_arrow_goes_back_for_early_and_on_for_late(slip, sense):
    figure = dialled(slip, 20)
    shaft = max(paths(figure, "drawn-arrow"), key=len)
    start, end = turned(figure, shaft[0]), turned(figure, shaft[-1])
    assert start == pytest.approx(350, abs=3)
    assert (end - start + 180) % 360 - 180 == pytest.approx(sense * 45, abs=8)


def test_the_arrow_of_a_small_slip_is_left_out():
    longest = [max(map(len, paths(dialled(slip), "drawn-arrow"))) for slip in (3, 60)]
    assert longest[0] < longest[1]


@pytest.mark.parametrize("slip", [-200, -60, 60, 270])
def test_the_stroke_the_main_spark_falls_in_is_strong_and_stands_beside_its_quarter(slip):
    figure = dialled(slip)
    named = {one.text: one for one in read_svg(figure).iter(f"{SVG}text") if one.text in list(Stroke)}
    for stroke, one in named.items():
        x = float(one.get("x"))
        y = float(one.get("y"))
        quarter = turned(figure, (x, y))
        assert QUARTERS[stroke] - 45 < quarter < QUARTERS[stroke] + 45
    strong = [words for words, one in named.items() if one.get("font-weight") == "bold"]
    assert len(strong) == 1
    assert rays(figure)[0] // 90 == QUARTERS[strong[0]] // 90


def test_the_valves_are_drawn_open_from_where_to_where_they_are():
    figure = dialled(0)
    ends = sorted(
        (round(turned(figure, line[0]), 0), round(turned(figure, line[len(line) // 2 - 1]), 0))
        for line in paths(figure, "drawn-line")
        if len(line) > 20 and len({round(math.hypot(x - MIDDLE, y - middle(figure)[1])) for x, y in line}) == 2
    )
    assert ends == [(65, 185), (175, 295)]  # exhaust 50° before the bottom to 10° after the top, intake the same way


@pytest.mark.parametrize(
    ("slip", "main", "wasted"),
    [
        (-60, "compression stroke, both valves shut", "exhaust stroke, exhaust valve open"),
        (90, "power stroke, both valves shut", "intake stroke, intake valve open"),
        (20, "power stroke, both valves shut", "intake stroke, both valves open"),
    ],
)
def test_says_on_which_stroke_and_with_which_valves_the_sparks_fall(slip, main, wasted):
    words = " ".join(said(dialled(slip)))
    assert f"main spark: {main}" in words
    assert f"wasted spark: {wasted}" in words


def bars(figure):
    """Give each bar of the belief: its middle clockwise from the top [°], and its length [px]."""
    ring = [line for line in paths(figure, "drawn-line") if len(line) > 60][-1]
    y = (max(y for _, y in ring) + min(y for _, y in ring)) / 2
    found = {}
    for line in paths(figure, "drawn-governs"):
        far = [math.hypot(px - MIDDLE, py - y) for px, py in line]
        if max(far) < 150 and len(line) < 10:
            px, py = (sum(each) / len(line[:-1]) for each in zip(*line[:-1], strict=True))
            found[round(math.degrees(math.atan2(px - MIDDLE, y - py))) % 360] = max(far) - min(far)
    return found


@pytest.mark.parametrize(("slip", "clockwise"), [(-60, 60), (90, 270), (0, 0), (-180, 180)])
def test_the_longest_bar_stands_where_the_flywheel_most_likely_sits_forward_being_clockwise(slip, clockwise):
    drawn = bars(dialled(-60, 20, believed(slip, 20)))
    assert max(drawn, key=drawn.get) == pytest.approx(clockwise, abs=1)


@pytest.mark.parametrize("step", [1, 2, 5, 10])
def test_no_grid_makes_a_comb_of_an_even_belief(step):
    drawn = bars(dialled(-60, 20, believed(0, 1e6, step)))
    assert len(drawn) == 36
    assert max(drawn.values()) == pytest.approx(min(drawn.values()), abs=0.3)


def test_says_how_likely_early_and_late_are():
    figure = dialled(-60, 20, [(math.radians(-60), 3.0), (math.radians(40), 1.0)])
    words = said(figure)
    assert words[words.index("early", words.index("late")) + 1] == "75 %"
    assert words[words.index("late") + 1] == "25 %"
    assert "Flywheel most likely 60° early: 75 % about there." in told(figure)[1]


def test_half_a_turn_round_is_neither_early_nor_late():
    figure = ENGINES["timing, believed half a turn round"]
    assert "Flywheel most likely half a turn round" in told(figure)[1]
    assert "Early altogether 50 %, late 50 %" in told(figure)[1]


def test_many_places_forward_together_outweigh_the_one_where_it_belongs():
    figure = dialled(-10, 20, [(0.0, 40.0), *((math.radians(-slip), 6.0) for slip in range(10, 110, 10))])
    assert "Flywheel likelier early than in place: 40 % in place." in told(figure)[1]


def test_without_a_belief_no_flywheel_is_drawn():
    assert "Flywheel most likely" not in ENGINES["timing, 60° early"]


@settings(max_examples=60, deadline=None)
@given(st.floats(-360, 360), st.floats(0, 60), st.booleans(), st.floats(-180, 180), st.floats(1, 100))
def test_nothing_lies_over_anything(slip, advance, with_belief, degrees, wide):
    refuse_a_muddle(dialled(slip, advance, believed(degrees, wide) if with_belief else ()))
