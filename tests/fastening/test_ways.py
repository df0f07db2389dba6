"""How much the clamp scatters."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.ways import SCATTER, tightening_factor


def test_every_way_says_who_measured_it_and_is_a_scatter_that_can_be():
    for way in SCATTER.values():
        assert way.source
        assert tightening_factor(way.scatter) > 1


@given(scatter=st.floats(0.01, 0.9))
def test_the_factor_is_most_over_least(scatter):
    assert tightening_factor(scatter) == pytest.approx((1 + scatter) / (1 - scatter))
    assert tightening_factor(np.array([scatter]))[0] == tightening_factor(scatter)


@pytest.mark.parametrize("scatter", [0.0, -0.1, 1.0, float("nan")])
def test_refuses_a_scatter_that_cannot_be(scatter):
    with pytest.raises(OutOfRange, match="Scatter of the clamp"):
        tightening_factor(scatter)
