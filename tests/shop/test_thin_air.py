"""What a gauge should read at other heights."""

import pytest

from bellcrank.shop.engines import gauge_from_words
from bellcrank.shop.thin_air import gauge_by_height


@pytest.fixture
def gauge(shop):
    return lambda height: gauge_from_words(shop.library, {"engine": "overhead-valve-160", "height": f"{height} m"})


def test_at_her_height_it_is_what_the_answer_says(gauge):
    found = gauge(1234)
    curve = gauge_by_height(found, 1234.0)
    there = curve.heights.index(1234.0)
    assert curve.low[there] == pytest.approx(found.low)
    assert curve.high[there] == pytest.approx(found.high)


def test_readings_fall_as_the_air_s_pressure_does(gauge):
    curve = gauge_by_height(gauge(0), 0.0)
    at = curve.heights.index(1000.0)
    assert curve.low[at] / curve.low[0] == pytest.approx(89876 / 101325, rel=1e-4)  # ISO 2533, table for 1000 m
    assert curve.high[at] / curve.high[0] == pytest.approx(89876 / 101325, rel=1e-4)


@pytest.mark.parametrize(("here", "ends"), [(500, (0, 3000)), (-300, (-300, 3000)), (4200, (0, 4200))])
def test_reaches_from_the_sea_to_3000_metres_and_to_her_height(gauge, here, ends):
    heights = gauge_by_height(gauge(here), float(here)).heights
    assert (heights[0], heights[-1]) == ends
    assert list(heights) == sorted(set(heights))
