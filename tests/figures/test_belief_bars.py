"""Bars of belief."""

import math

import pytest

from bellcrank.errors import OutOfRange
from bellcrank.figures.belief_bars import BeliefBar, belief_bars_figure


@pytest.mark.parametrize("chance", [-0.1, 1.1, math.nan])
def test_refuses_a_chance_that_cannot_be(chance):
    with pytest.raises(OutOfRange, match="it must be from 0 to 1"):
        belief_bars_figure([BeliefBar("plug fouled", chance, "hardly")])
