"""Cells printed wrong in tables others copy from: named here so that nobody takes them for an answer."""

import math

import pytest

from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.strength import strength_at
from bellcrank.fastening.stripping import strip_area
from bellcrank.fastening.threads import Thread, ThreadSystem, parse_thread, stress_area
from bellcrank.fastening.twist_off import twist_off_torque
from bellcrank.knowledge.pack import read_library

INCH = 0.0254


def test_a_table_prints_the_stress_area_of_7_16_14_as_0163():
    assert stress_area(parse_thread("7/16-14")) / INCH**2 == pytest.approx(0.1063, rel=0.001)


def test_a_shear_sheet_prints_the_hole_area_of_7_16_20_as_908():
    assert strip_area(parse_thread("7/16-20"), INCH) / INCH**2 == pytest.approx(0.947, rel=0.001)


def test_a_strength_page_prints_the_ultimate_load_of_m4_10_9_as_91130():
    tensile = strength_at(read_library().strength_classes["10.9"], 0.004).tensile
    assert stress_area(parse_thread("M4")) * tensile == pytest.approx(9130, rel=0.001)


def test_the_metric_standard_prints_the_smallest_pitch_diameter_of_its_m29_example_as_the_next_line_s_minor_diameter():
    """FED-STD-H28/21B: d2max 28.160 less Td2(4) 0.08681 is 28.073, not 27.61883."""
    m29 = Thread("M29×1.25", ThreadSystem.METRIC, 0.029, 0.00125)
    assert thread_limits(m29).bolt_pitch_max * 1e3 == pytest.approx(28.160, abs=0.001)
    assert pytest.approx(28.073, abs=0.0005) == 28.160 - 0.63 * 0.09 * 1.25**0.4 * 29**0.1


def test_the_inch_standard_prints_a_times_for_a_plus_in_example_90_2():
    """FED-STD-H28/2B, 90.2h: "1/2n × 0.57735"; with a plus its own R1 of 0.863 comes out."""
    pitch, d_min, pitch_max, minor = 1 / 7, 1.1064, 1.0416, 0.970
    width = pitch / 2 + 0.57735 * (d_min - pitch_max)
    assert 0.75 * math.pi * minor / (math.pi / pitch * d_min * width) == pytest.approx(0.863, abs=0.0005)


def test_the_inch_standard_contradicts_itself_about_1_1_8_7():
    """FED-STD-H28/2B prints LE/D .592 and .656 in for it: .592 × 1.125 is .666."""
    assert pytest.approx(0.666) == 0.592 * 1.125


def test_a_page_gives_19_3_for_the_breaking_torque_of_m6_8_8():
    """It is K F d, with friction; ISO 898-7 twists without."""
    assert twist_off_torque(parse_thread("M6"), 800e6, shear_share=0.84) == pytest.approx(13, rel=0.02)


def test_a_vendor_gives_72_ksi_for_grade_2():
    assert strength_at(read_library().strength_classes["G2"], 0.0127).tensile / 6.894757e6 == pytest.approx(
        74, abs=0.02
    )


def test_an_open_table_pairs_the_12_mm_shoulder_with_m10():
    by_thread = {screw.thread.name: screw.shoulder for screw in read_library().screw_tables.shoulder_screws}
    assert by_thread["M10×1.5"] == pytest.approx(0.013)


def test_the_least_breaking_torque_of_m3_is_printed_to_two_digits_only():
    assert twist_off_torque(parse_thread("M3"), 800e6, shear_share=0.84) == pytest.approx(1.5, abs=0.05)
