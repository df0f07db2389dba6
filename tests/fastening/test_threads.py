"""Reading threads off the bench, and their geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.tapping import percent_thread
from bellcrank.fastening.thread_sizes import METRIC_PITCHES_MM, UNIFIED_THREADS_PER_INCH
from bellcrank.fastening.threads import (
    ThreadSystem,
    minor_diameter,
    parse_thread,
    pitch_diameter,
    root_diameter,
    stress_area,
)

METRIC = [f"M{size}x{pitch}" for size, pitches in METRIC_PITCHES_MM.items() for pitch in pitches]
UNIFIED = [f"{size}-{count}" for size, counts in UNIFIED_THREADS_PER_INCH.items() for count in counts]


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("M6", "M6×1"),
        ("m8 x 1", "M8×1"),
        ("M8×1,25", "M8×1.25"),
        ("M10x1.50-6g", "M10×1.5"),
        ("M14-1.25", "M14×1.25"),
        ("M1.6", "M1.6×0.35"),
        ("1/4-20", "1/4-20 UNC"),
        ("1/4 - 28", "1/4-28 UNF"),
        ('5/16"-18', "5/16-18 UNC"),
        ("5/8-18 UNF-2A", "5/8-18 UNF"),
        ("#10-24", "#10-24 UNC"),
        ("10-32", "#10-32 UNF"),
        ("No. 8-32", "#8-32 UNC"),
        ("1-8", "1-8 UNC"),
        ("1-12", "1-12 UNF"),
    ],
)
def test_reads_a_thread_as_it_is_written_on_the_bench(typed, name):
    assert parse_thread(typed).name == name


@pytest.mark.parametrize("name", [*METRIC, *UNIFIED])
def test_reads_its_own_name_back(name):
    thread = parse_thread(name)
    assert parse_thread(thread.name) == thread


def test_an_inch_thread_is_in_metres():
    thread = parse_thread("1/4-20")
    assert thread.diameter == pytest.approx(0.00635)
    assert thread.pitch == pytest.approx(0.00127)
    assert thread.system is ThreadSystem.UNIFIED


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("", "not a thread we can read"),
        ("bolt", "not a thread we can read"),
        ("M", "not a thread we can read"),
        ("M6x1x20", "not a thread we can read"),
        ("M99", "M1.6 to M36"),
        ("M6x20", "pitch of 1 or 0.75 mm, not 20"),
        ("1/4", "1/4-20 or 1/4-28"),
        ("1/4-32", "1/4-20 or 1/4-28"),
        ("#10", "#10-24 or #10-32"),
        ("-6", "#6-32 or #6-40"),
    ],
)
def test_refuses_what_is_not_a_thread_and_says_how_to_write_it(typed, words):
    with pytest.raises(NotUnderstood, match=words):
        parse_thread(typed)


@pytest.mark.parametrize("name", [*METRIC, *UNIFIED])
def test_the_diameters_stand_in_their_order(name):
    thread = parse_thread(name)
    inside_out = [root_diameter(thread), minor_diameter(thread), pitch_diameter(thread), thread.diameter]
    assert inside_out == sorted(inside_out)
    assert 0 < stress_area(thread) < math.pi / 4 * thread.diameter**2


def test_a_hole_of_the_basic_minor_diameter_leaves_five_sixths_of_a_thread():
    thread = parse_thread("1/4-20")
    assert percent_thread(thread, minor_diameter(thread)) == pytest.approx(0.625 / 0.75)


@given(hole=st.floats(max_value=0) | st.just(float("nan")))
def test_refuses_a_hole_with_no_size(hole):
    with pytest.raises(OutOfRange, match="Hole diameter"):
        percent_thread(parse_thread("M6"), hole)
