"""Belief over the steps of a job, drawn."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.figures.belief_steps import Path, belief_steps

from .drawn import SVG, meets_box, paths, read_svg, segments, size, texts, told
from .others import BELIEVED, OTHERS, believed

HERE = OTHERS["belief, five steps"]
LEFT, RIGHT, HIGH = 58, 182, 320  # [px] of the plot


def foot(figure):
    return next(line for line in paths(figure, "drawn-line"))[1][1]


def test_every_line_goes_through_the_beliefs_it_is_given():
    drawn = paths(HERE, "drawn-path")
    assert len(drawn) == 6  # five causes and the likeliest of the others
    for line, (_, row) in zip(drawn, BELIEVED, strict=False):
        assert [x for x, _ in line] == pytest.approx([LEFT + (RIGHT - LEFT) * at / 4 for at in range(5)], abs=0.1)
        assert [(foot(HERE) - y) / HIGH for _, y in line] == pytest.approx(row, abs=0.001)


def test_the_title_says_what_leads_and_since_when():
    title, twin = told(HERE)
    assert title == "“Flywheel key sheared” leads since step 1: 97 %"  # 0.30 of stale fuel before, 0.40 from step 1
    assert "ignition coil dead: 25 %, 20 %, 30 %, 10 %, 1 %" in twin
    assert told(believed(3, 1))[0] == "“Flywheel key sheared” leads from the door on: 35 %"


def test_the_lines_differ_without_colour():
    lines = [one for one in read_svg(HERE).iter(f"{SVG}path") if one.get("class") == "drawn-path"]
    assert len({(one.get("stroke-dasharray"), one.get("stroke-width")) for one in lines}) == 6


def test_every_name_stands_once_with_its_last_belief():
    said = " ".join(one.words.replace("\u00a0", " ") for one in texts(HERE))
    for words, row in BELIEVED:
        last = "under 1 %" if row[-1] < 0.005 else f"{100 * row[-1]:.0f} %"
        assert f"{words[:1].upper()}{words[1:]}: {last}" in said


def test_the_numbers_of_the_steps_are_thinned_out_and_begin_at_the_door():
    numbers = [
        int(one.words) for one in texts(OTHERS["belief, thirty steps"]) if one.words.isdecimal() and one.left > 50
    ]
    assert numbers[0] == 0
    assert numbers == list(range(0, 30, numbers[1]))


shares = st.floats(0, 1)


@settings(max_examples=60, deadline=None)
@given(
    st.integers(1, 25).flatmap(
        lambda steps: st.lists(st.lists(shares, min_size=steps, max_size=steps), min_size=2, max_size=6)
    )
)
def test_no_name_lies_over_anything_and_nothing_sticks_out(rows):
    *causes, rest = rows
    drawn = belief_steps([Path(BELIEVED[at][0], row) for at, row in enumerate(causes)], rest)
    width, height = size(drawn)
    words, leads = texts(drawn), segments(paths(drawn, "drawn-lead"))
    for number, one in enumerate(words):
        assert one.left >= 0
        assert one.right <= width
        assert one.bottom <= height
        assert not any(one.meets(other) for other in words[:number]), one
        assert not any(meets_box(lead, one) for lead in leads), one
        assert not any(meets_box(line, one) for line in segments(paths(drawn, "drawn-path"))), one
