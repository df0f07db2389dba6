"""A measured value."""

import math

import pytest

from bellcrank.errors import OutOfRange
from bellcrank.measuring.measured import Measured


@pytest.mark.parametrize("uncertainty", [-0.1, math.nan, math.inf])
def test_refuses_an_uncertainty_that_cannot_be(uncertainty):
    with pytest.raises(OutOfRange, match="Uncertainty is"):
        Measured(1.0, uncertainty)


@pytest.mark.parametrize("value", [math.nan, math.inf])
def test_refuses_a_value_that_is_missing(value):
    with pytest.raises(OutOfRange, match="Measured value is missing"):
        Measured(value, 0.1)
