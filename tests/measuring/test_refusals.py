"""Refusing numbers that cannot be, in words for the bench."""

import numpy as np
import pytest

from bellcrank.errors import OutOfRange
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive


def test_what_can_be_is_let_through():
    refuse_unless_positive("Blade length", 0.5, "mm", "length")
    refuse_if_negative("Speed", 0.0, "rpm", "speed")
    refuse_outside("Friction", np.array([0.1, 0.2]), 0.03, 0.5, "")


def test_says_what_it_got_and_what_it_must_be():
    with pytest.raises(OutOfRange, match=r"^Blade length is -500\.00 mm; it must be above zero\. Measure it again\.$"):
        refuse_unless_positive("Blade length", -0.5, "mm", "length")


def test_names_the_bad_one_of_an_array():
    with pytest.raises(OutOfRange, match=r"Friction is 0\.9; it must be from 0\.03 to 0\.5\. Oil it\."):
        refuse_outside("Friction", np.array([0.1, 0.9]), 0.03, 0.5, "Oil it.")


@pytest.mark.parametrize("value", [np.nan, np.inf, -np.inf, np.array([1.0, np.nan])])
def test_nothing_that_is_not_a_number_gets_through(value):
    with pytest.raises(OutOfRange, match="Gap is missing or not a number"):
        refuse_if_negative("Gap", value, "mm", "length")
