"""What a compression gauge should read over the height above the sea."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from .drawn import inked, paths, refuse_a_muddle, texts, told
from .of_engine import ENGINES, thinner

HERE = ENGINES["altitude, at 500 m"]
LEFT, RIGHT, HIGH, ROOM = 64, 364, 230, 1.06  # [px], and [-] over the highest reading


def said(figure):
    return [one.words.replace("\u00a0", " ") for one in texts(figure)]


def scale(figure):
    """Give the foot of the plot, and its pixels to the pascal."""
    frame = next(line for line in paths(figure, "drawn-line") if len(line) == 4 and line[0][0] == line[1][0] == LEFT)
    return frame[1][1], HIGH / (ROOM * 1.3e6)


def test_the_band_goes_from_the_least_to_the_most_at_every_height():
    band = next(line for line in paths(HERE, "drawn-line") if len(line) > 20)
    foot, per = scale(HERE)
    low, high = band[:11], list(reversed(band[11:22]))
    for number in range(11):
        height = 300.0 * number
        assert low[number][0] == high[number][0] == pytest.approx(LEFT + (RIGHT - LEFT) * height / 3000, abs=0.1)
        assert foot - low[number][1] == pytest.approx(per * 1.0e6 * (1 - height / 10_000), abs=0.2)
        assert foot - high[number][1] == pytest.approx(per * 1.3e6 * (1 - height / 10_000), abs=0.2)


def test_the_mark_stands_at_her_height_across_the_band():
    ((*corners, _),) = (line for line in paths(HERE, "drawn-governs"))
    foot, per = scale(HERE)
    assert sum(x for x, _ in corners) / 4 == pytest.approx(LEFT + (RIGHT - LEFT) / 6, abs=0.1)
    assert sorted(foot - y for _, y in corners)[::3] == pytest.approx([per * 0.95e6, per * 1.235e6], abs=0.2)


def test_says_her_reading_in_both_units():
    title, twin = told(HERE)
    assert title == "At 500 m: 950 to 1240 kPa (138 to 179 psi)"  # 950 and 1235 kPa over 6.894757 kPa
    assert "A mark at 500 m: 950 to 1240 kPa (138 to 179 psi)." in twin
    assert "1000 to 1300 kPa (145 to 189 psi) at 0 m and 700 to 910 kPa (102 to 132 psi) at 3000 m" in twin
    assert "here, 500 m" in said(HERE)


def test_both_scales_stand_where_their_readings_do():
    foot, per = scale(HERE)
    boxes = {one.words: (one.top + one.bottom) / 2 for one in texts(HERE)}
    assert foot - boxes["500"] == pytest.approx(per * 500e3, abs=5)
    assert foot - boxes["100"] == pytest.approx(per * 100 * 6894.757, abs=5)


def test_without_a_height_nothing_is_marked():
    assert inked(ENGINES["altitude"]) == []
    assert "here" not in " ".join(said(ENGINES["altitude"]))
    assert told(ENGINES["altitude"])[0] == "The higher up, the less the gauge reads"


def test_a_shop_under_the_sea_is_said_to_be_there_in_words():
    title, twin = told(ENGINES["altitude, under the sea"])
    assert title.startswith("At 400 m under the sea: ")
    assert "-" not in twin + title


def test_one_reading_is_said_once():
    assert "(145 psi)" in told(thinner(0.0, low=1e6, high=1e6))[0]


@settings(max_examples=60, deadline=None)
@given(
    st.none() | st.floats(-500, 5000), st.floats(-500, 0), st.floats(1000, 5000), st.floats(2e4, 3e6), st.floats(1, 2)
)
def test_nothing_lies_over_anything(here, lowest, highest, low, times):
    refuse_a_muddle(thinner(here, lowest, highest, low=low, high=times * low))
