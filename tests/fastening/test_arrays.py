"""Arrays go through the same formula as scalars: for every function the array is the loop."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from bellcrank.fastening.head_pressure import face_pressure
from bellcrank.fastening.inserts import wire_insert_area
from bellcrank.fastening.loosening import breakloose_torque
from bellcrank.fastening.plastics import plastic_target
from bellcrank.fastening.short_form import torque_by_nut_factor
from bellcrank.fastening.strip_factors import (
    bolt_bending_factor,
    hole_bending_factor,
    spreading_factor,
    strength_ratio,
)
from bellcrank.fastening.strip_rules import pull_out_bound, short_strip_area
from bellcrank.fastening.stripping import external_strip_area, internal_strip_area, strip_area
from bellcrank.fastening.tapping import hole_for_percent, percent_thread
from bellcrank.fastening.thermal import bar_stiffness, thermal_preload_change
from bellcrank.fastening.threads import parse_thread
from bellcrank.fastening.tightening import nut_factor, preload_at_yield, preload_for_torque, torque_for_preload
from bellcrank.fastening.twist_off import torque_cap, twist_off_torque

M6 = parse_thread("M6")
FACE = {"bearing_diameter": 0.00888, "hole_diameter": 0.0066}
WARM = {"clamp_length": 0.04, "screw_expansion": 12e-6, "part_expansion": 23e-6, "screw_stiffness": 1e8}


def both(friction):
    return {"thread_friction": friction, "head_friction": friction, **FACE}


# name: function of the one quantity that may be an array, least and most of it
FUNCTIONS = {
    "nut factor by friction": (lambda x: nut_factor(M6, **both(x)), 0.03, 0.5),
    "torque by preload": (lambda x: torque_for_preload(x, M6, **both(0.12)), 0, 1e5),
    "torque by friction": (lambda x: torque_for_preload(5e3 + 0 * x, M6, **both(x)), 0.03, 0.5),
    "preload by torque": (lambda x: preload_for_torque(x, M6, **both(0.12)), 0, 100),
    "preload by friction": (lambda x: preload_for_torque(9.0 + 0 * x, M6, **both(x)), 0.03, 0.5),
    "torque by nut factor": (lambda x: torque_by_nut_factor(5e3 + 0 * x, 0.006, x), 0.05, 0.6),
    "plastic yield": (lambda x: preload_at_yield(M6, 640e6, thread_friction=x), 0.03, 0.5),
    "elastic yield": (lambda x: preload_at_yield(M6, 640e6, thread_friction=x, twist="elastic"), 0.03, 0.5),
    "break-loose by preload": (lambda x: breakloose_torque(x, M6, **both(0.12)), 0, 1e5),
    "break-loose by friction": (lambda x: breakloose_torque(5e3 + 0 * x, M6, **both(x)), 0.06, 0.5),
    "hole area": (lambda x: strip_area(M6, x), 0, 0.1),
    "hole area of sizes": (
        lambda x: internal_strip_area(x, 0.001, bolt_major_min=0.0058, hole_pitch_max=0.0055),
        0,
        0.1,
    ),
    "bolt area of sizes": (
        lambda x: external_strip_area(x, 0.001, hole_minor_max=0.0051, bolt_pitch_min=0.0052),
        0,
        0.1,
    ),
    "short rule": (lambda x: short_strip_area(M6, x, "bolt"), 0, 0.1),
    "worn bound": (lambda x: pull_out_bound(M6, x, 190e6), 0, 0.1),
    "spreading": (lambda x: spreading_factor(x, 0.006), 0.0085, 0.03),
    "bolt bending": (bolt_bending_factor, 0.1, 2.2),
    "hole bending": (hole_bending_factor, 0.4, 3.0),
    "strength ratio": (
        lambda x: strength_ratio(hole_shear=x, hole_area=1e-4 + 0 * x, bolt_shear=4e8 + 0 * x, bolt_area=1e-4 + 0 * x),
        1e7,
        1e9,
    ),
    "percent of thread": (lambda x: percent_thread(M6, x), 0.0049, 0.0059),
    "hole for percent": (lambda x: hole_for_percent(M6, x), 0.3, 1.0),
    "twist-off": (lambda x: twist_off_torque(M6, x, shear_share=0.84), 1e8, 2e9),
    "torque cap": (lambda x: torque_cap(x, "sheet-metal"), 0.1, 50),
    "face pressure": (lambda x: face_pressure(x, **FACE), 0, 1e5),
    "plastic target": (lambda x: plastic_target(0.5 + 0 * x, x, 0.4), 0.6, 10),
    "bar stiffness": (lambda x: bar_stiffness(2e-5 + 0 * x, x, 2.1e11), 0.001, 1),
    "heat": (lambda x: thermal_preload_change(x, part_stiffness=3e8, **WARM), -100, 300),
    "insert": (lambda x: wire_insert_area(M6, x), 0.002, 0.05),
}


@pytest.mark.parametrize("name", FUNCTIONS)
@given(data=st.data())
def test_an_array_is_the_loop_over_its_values(name, data):
    function, least, most = FUNCTIONS[name]
    values = data.draw(arrays(float, st.integers(1, 6), elements=st.floats(least, most)))
    one_by_one = [function(float(value)) for value in values]
    assert all(isinstance(answer, float) for answer in one_by_one)
    assert function(values) == pytest.approx(one_by_one, rel=1e-12)


def test_a_bad_value_in_an_array_is_refused_as_it_would_be_alone():
    with pytest.raises(Exception, match="Thread engagement is -1"):
        strip_area(M6, np.array([0.01, -0.001]))
