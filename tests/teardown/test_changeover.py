"""Changing tools and turning the machine."""

from itertools import product

import pytest
from hypothesis import given

from bellcrank.errors import OutOfRange
from bellcrank.teardown.changeover import Changeover

from .small_models import WAYS, changeovers


@given(changeovers())
def test_no_detour_between_two_ways_of_lying_is_shorter(changeover):
    table = changeover.turns_between(WAYS)
    for a, b, c in product(WAYS, repeat=3):
        assert table[a, c] <= table[a, b] + table[b, c] + 1e-12
        assert table[a, b] == table[b, a]


def test_a_turn_over_the_bench_is_taken_when_it_is_shorter():
    changeover = Changeover(turns={("upright", "on its side"): 3.0, ("upright", "b"): 0.5, ("b", "on its side"): 0.5})
    assert changeover.turns_between(WAYS)["on its side", "upright"] == 1.0


def test_hands_lay_no_tool_down():
    changeover = Changeover(tool_minutes=0.1)
    assert [changeover.tool("pliers", wanted) for wanted in ("hand", "pliers", "T25 bit")] == [0.0, 0.0, 0.1]


def test_refuses_a_turn_that_gives_time_back():
    with pytest.raises(OutOfRange, match="takes -1 min; it must be zero or more"):
        Changeover(turn_minutes=-1)
