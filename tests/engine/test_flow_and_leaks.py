"""Gas through openings, and leak-down both ways round."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.engine.flow import critical_ratio, flow_number, mass_flow
from bellcrank.engine.leak_down import USUAL_ORIFICE, USUAL_SUPPLY, leak_area, leak_down_reading
from bellcrank.errors import OutOfRange
from bellcrank.units import convert, to_si

AREAS = st.floats(1e-9, 1e-4)


@given(AREAS)
def test_a_reading_gives_back_the_leak_it_came_from(leak):
    reading = leak_down_reading(leak)
    assert 0 < reading < USUAL_SUPPLY
    assert leak_area(reading) == pytest.approx(leak, rel=1e-6)


@given(AREAS, st.floats(1.01, 5))
def test_a_larger_leak_reads_lower(leak, more):
    assert leak_down_reading(leak * more) < leak_down_reading(leak)


@given(AREAS, st.floats(0.2, 5))
def test_leak_and_orifice_grown_alike_read_the_same(leak, scale):
    assert leak_down_reading(leak * scale, orifice=USUAL_ORIFICE * scale) == pytest.approx(
        leak_down_reading(leak), rel=1e-9
    )


def test_an_orifice_of_forty_thou_is_the_area_of_its_circle():
    assert convert(USUAL_ORIFICE, "mm²", "area") == pytest.approx(math.pi / 4 * 1.016**2, rel=1e-12)


@pytest.mark.parametrize("reading", ["80 psi", "95 psi"])
def test_a_reading_that_is_not_under_the_supply_is_refused(reading):
    number = float(reading.split()[0])
    with pytest.raises(OutOfRange, match="must be under the supply of 80 psi"):
        leak_area(to_si(number, "psi", "pressure"))


@given(st.floats(0, 1), st.floats(0, 1))
def test_less_pressure_behind_the_opening_never_lets_less_through(one, other):
    low, high = sorted((one, other))
    assert flow_number(low) >= flow_number(high)


def test_below_the_critical_ratio_nothing_changes():
    least = critical_ratio()
    assert flow_number(0.0) == flow_number(least)
    assert flow_number(least + 0.01) < flow_number(least)


def test_arrays_and_numbers_go_the_same_way():
    after = np.array([20e3, 60e3, 99e3])
    assert mass_flow(np.full(3, 1e5), np.full(3, 293.0), after, np.full(3, 1e-6)).tolist() == [
        float(mass_flow(1e5, 293.0, float(one), 1e-6)) for one in after
    ]


def test_gas_does_not_flow_uphill():
    with pytest.raises(OutOfRange, match="towards the lower pressure"):
        mass_flow(90e3, 293.0, 100e3, 1e-6)
