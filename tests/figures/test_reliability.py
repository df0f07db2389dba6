import pytest

from bellcrank.figures.reliability import reliability_figure
from bellcrank.figures.theme import MARGIN, WIDTH
from bellcrank.stats.scores import Bin

from .drawn import bars, paths, read_svg, size, texts, told

BINS = (Bin(339, 0.04, 10), Bin(14, 0.34, 6), Bin(1, 0.55, 1), Bin(2, 0.81, 0), Bin(48, 0.999, 48))
FIGURE = reliability_figure(BINS, "Before the repair, with what was learnt")
INNER = WIDTH - 2 * MARGIN


def test_nothing_lies_over_something_else():
    words = texts(FIGURE)
    for number, one in enumerate(words):
        assert not any(one.meets(other) for other in words[:number]), one
    width, height = size(FIGURE)
    assert all(one.left >= 0 and one.right <= width and one.bottom <= height for one in words)


def test_what_came_is_as_long_as_it_came_often():
    drawn = [one for one in bars(FIGURE) if one.words == "drawn-came"][: len(BINS)]
    assert [one.right - one.left for one in drawn] == pytest.approx(
        [max(2.0, INNER * one.came / one.count) for one in BINS], abs=0.1
    )


def test_what_was_said_stands_where_it_was_said():
    marks = [line[0][0] for line in paths(FIGURE, "drawn-told")][: len(BINS)]
    assert marks == pytest.approx([MARGIN + INNER * one.said for one in BINS], abs=0.1)


def test_the_range_is_wide_where_there_were_few():
    # Oracle: Wilson's interval of one of one, 20.7 % to 100 %
    lines = [line for line in paths(FIGURE, "drawn-range") if line[0][1] == line[1][1]]
    single = lines[2]
    assert (single[0][0], single[1][0]) == pytest.approx((MARGIN + INNER * 0.2065, MARGIN + INNER), abs=0.2)


def test_it_is_told_in_words_too():
    title, words = told(FIGURE)
    assert title == "Before the repair, with what was learnt"
    assert "Said 34 %, 14 times: 6 came." in words
    assert "Said 55 %, 1 time: 1 came." in words
    assert "over 99 %" in words


def test_no_style_and_no_script():
    assert not [one for one in read_svg(FIGURE).iter() if one.get("style") or one.tag.endswith("script")]
