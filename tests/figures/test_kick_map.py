"""What pulls end in over the slip of a flywheel."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.figures.kick_map import KICKS, NO_FIRE, POPS, STACK, kick_map

from .drawn import SVG, paths, read_svg, refuse_a_muddle, texts, told
from .of_engine import ENGINES, mapped

SLIPS = (-180.0, -90.0, 0.0, 90.0, 180.0)
EVEN = {key: [0.2] * 5 for key in STACK} | {POPS: [0.1] * 5}
LEFT, RIGHT = 66, 400


def said(figure):
    return [one.words.replace("\u00a0", " ") for one in texts(figure)]


def areas(figure):
    """Give the areas' outlines from the foot up."""
    drawn = [one for one in paths(figure, "drawn-grey", "drawn-line") if len(one) > 6]
    return [line for number, line in enumerate(drawn) if line not in drawn[:number]]


def test_the_areas_lie_over_each_other_and_fill_the_map():
    drawn = areas(kick_map(SLIPS, EVEN))
    assert len(drawn) == 5
    high = [max(y for _, y in one) - min(y for _, y in one) for one in drawn]
    assert high == pytest.approx([46.0] * 5, abs=0.2)  # a fifth of 230
    for lower, upper in itertools.pairwise(drawn):
        assert min(y for _, y in lower) == pytest.approx(max(y for _, y in upper), abs=0.1)


def test_kicks_stand_at_the_foot_and_no_fire_at_the_top():
    assert next(iter(STACK)) == KICKS
    assert list(STACK)[-1] == NO_FIRE


def test_every_area_has_a_pattern_of_its_own():
    root = read_svg(mapped())
    kinds = set()
    for one in root.iter(f"{SVG}path"):
        if one.get("class") in ("drawn-grey", "drawn-cut"):
            (x1, y1), (x2, y2) = paths_of(one)[0][:2] if one.get("class") == "drawn-cut" else ((0, 0), (0, 0))
            kinds.add((one.get("class"), (x2 - x1) * (y2 - y1) > 0))
    assert len(kinds) == 3  # grey, and hatching that leans either way; crossed and plain are made of them or of none


def paths_of(one):
    numbers = [float(each) for each in one.get("d").replace("M", " ").replace("L", " ").split()]
    points = list(zip(numbers[::2], numbers[1::2], strict=True))
    return [points]


def test_early_stands_left_and_late_right_in_words():
    boxes = {one.words: one for one in texts(mapped())}
    assert boxes["early"].right < (LEFT + RIGHT) / 2 < boxes["late"].left
    assert boxes["in\u00a0place"].left < (LEFT + RIGHT) / 2 < boxes["in\u00a0place"].right
    assert not any(sign in words for words in said(mapped()) for sign in "-−")


def test_the_title_says_where_it_kicks_most():
    assert told(ENGINES["kick map"])[0] == "Kicks back most 70° early: 60 % of pulls"
    assert told(ENGINES["kick map, never kicks"])[0] == "The cord never kicks back"


@pytest.mark.parametrize(
    ("kicks", "measured", "title"),
    [
        ((0.0, 0.6, 0.0, 0.0, 0.0), (0.2, 0.4), "What you felt fits about 30° to 60° early, or 120° to 150° early"),
        ((0.0, 0.4, 0.0, 0.0, 0.0), (0.2, 0.6), "What you felt fits about 45° to 135° early"),
        ((0.0, 0.0, 0.4, 0.0, 0.0), (0.2, 0.6), "What you felt fits about 45° early to 45° late"),
        ((0.0, 0.1, 0.0, 0.0, 0.0), (0.3, 0.6), "What you felt fits no slip of the flywheel alone"),
    ],
)
def test_what_was_felt_is_read_off_along_straight_lines_between_the_slips(kicks, measured, title):
    shares = EVEN | {KICKS: list(kicks), NO_FIRE: [0.4 - one for one in kicks]}
    assert told(kick_map(SLIPS, shares, measured=measured))[0].replace("\u00a0", " ") == title


def test_the_slips_that_fit_are_marked_where_they_lie():
    shares = EVEN | {KICKS: [0.0, 0.6, 0.0, 0.0, 0.0]}
    marks = [(line[0][0], line[1][0]) for line in paths(kick_map(SLIPS, shares, measured=(0.2, 0.4)), "drawn-fits")]
    scale = (RIGHT - LEFT) / 360
    expected = [(LEFT + scale * 30, LEFT + scale * 60), (LEFT + scale * 120, LEFT + scale * 150)]
    assert marks == [pytest.approx(one, abs=0.2) for one in expected]


def test_what_was_felt_lies_across_the_map_between_its_least_and_most():
    figure = kick_map(SLIPS, EVEN, measured=(0.2, 0.4))
    low, high = (line[0][1] for line in paths(figure, "drawn-felt")[:2])
    tops = [min(y for _, y in one) for one in areas(figure)]
    assert (low, high) == pytest.approx((tops[0], tops[1]), abs=0.1)
    assert "what you felt: 20 to 40 % of" in said(figure)


def test_pops_have_a_line_of_their_own():
    line = paths(kick_map(SLIPS, EVEN), "drawn-pops")[0]
    assert [x for x, _ in line] == pytest.approx([LEFT + (RIGHT - LEFT) * one / 4 for one in range(5)], abs=0.1)
    assert "pops: 10 % at 180° early" in said(kick_map(SLIPS, EVEN))


def test_the_text_twin_says_where_each_outcome_is_most():
    twin = told(ENGINES["kick map, felt"])[1]
    for words in (*STACK.values(), "pops through intake"):
        assert f"{words}: " in twin
    assert "kicks back: 60 % at 70° early" in twin
    assert "Felt: 25 to 33 % of pulls jerked, which fits " in twin


shares = st.lists(st.floats(0, 1), min_size=5, max_size=5).filter(lambda one: sum(one) > 0.01)


@settings(max_examples=60, deadline=None)
@given(st.lists(shares, min_size=5, max_size=5), st.none() | st.tuples(st.floats(0, 1), st.floats(0, 1)).map(sorted))
def test_nothing_lies_over_anything(drawn, measured):
    columns = [[one / sum(each) for one in each] for each in drawn]
    by_key = dict(zip(STACK, ([each[number] for each in columns] for number in range(5)), strict=True))
    figure = kick_map(SLIPS, by_key | {POPS: by_key[KICKS]}, measured=tuple(measured) if measured else None)
    refuse_a_muddle(figure)
