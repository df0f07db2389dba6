"""Where the sparks of a cycle fall when the flywheel has slipped."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.engine.piston import CrankDrive
from bellcrank.engine.slip import same_place, shortest, slip_words
from bellcrank.engine.symptoms import Symptom, expected_symptoms
from bellcrank.engine.timing import Stroke, ValveTiming, sparks, stroke_at
from bellcrank.errors import OutOfRange

DRIVE = CrankDrive(0.065, 0.057, 0.1, 8.5)
VALVES = ValveTiming(*map(math.radians, (10, 50, 50, 10)))
SLIPS = st.floats(-360, 360)


def fall(slip):
    return sparks(math.radians(20), math.radians(slip), VALVES, DRIVE, 0.75e-3)


def said(slip, most_kick=True):
    main, wasted = fall(slip)
    return {one.symptom: one for one in expected_symptoms(math.radians(slip), main, wasted, most_kick=most_kick)}


@given(SLIPS)
def test_the_two_sparks_are_a_turn_apart(slip):
    main, wasted = fall(slip)
    assert abs(main.angle - wasted.angle) == pytest.approx(2 * math.pi)


@given(st.floats(-179, 179).filter(lambda slip: abs(slip) > 1))
def test_the_same_place_reached_the_other_way_round_makes_the_same_two_sparks(slip):
    here = {round(one.angle, 9) for one in fall(slip)}
    there = {round(one.angle, 9) for one in fall(math.degrees(same_place(math.radians(slip))))}
    assert here == there


# Geometry, by hand: with 20° before the top, slip s puts the sparks at s − 20 and s + 340 degrees.
@pytest.mark.parametrize(
    ("slip", "main", "wasted"),
    [
        (0, Stroke.COMPRESSION, Stroke.EXHAUST),
        (-60, Stroke.COMPRESSION, Stroke.EXHAUST),
        (45, Stroke.POWER, Stroke.INTAKE),
        (90, Stroke.POWER, Stroke.INTAKE),
        (-170, Stroke.INTAKE, Stroke.POWER),
    ],
)
def test_the_strokes_of_both_sparks(slip, main, wasted):
    assert tuple(one.stroke for one in fall(slip)) == (main, wasted)


def test_the_strokes_follow_each_other():
    assert [stroke_at(math.radians(a)) for a in (-90, 90, 270, 450, 630)] == [
        Stroke.COMPRESSION, Stroke.POWER, Stroke.EXHAUST, Stroke.INTAKE, Stroke.COMPRESSION,
    ]  # fmt: skip


def test_valves_open_and_close_where_the_trade_page_says():
    assert VALVES.intake_open(math.radians(351))
    assert not VALVES.intake_open(math.radians(349))
    assert VALVES.intake_open(math.radians(-131))
    assert not VALVES.intake_open(math.radians(-129))
    assert VALVES.exhaust_open(math.radians(131))
    assert not VALVES.exhaust_open(math.radians(129))
    assert VALVES.exhaust_open(math.radians(369))
    assert not VALVES.exhaust_open(math.radians(371))


def test_an_early_spark_needs_less_voltage_than_a_right_one():
    right, early = fall(0)[0], fall(-90)[0]
    assert early.voltage < right.voltage / 2


@given(st.floats(0, 179.9))
def test_a_late_spark_never_kicks(slip):
    assert Symptom.NO_KICK in said(slip)
    assert not {Symptom.KICKS, Symptom.MAY_KICK} & set(said(slip))


@pytest.mark.parametrize("slip", [-45, -60, -75])
def test_these_kick_and_do_not_start_for_sure(slip):
    assert said(slip)[Symptom.KICKS].sure
    assert slip == -45 or said(slip)[Symptom.NO_START].sure


@pytest.mark.parametrize("slip", [-15, -30, -90, -120])
def test_what_hangs_on_the_model_is_not_called_sure(slip):
    assert not said(slip)[Symptom.MAY_KICK].sure


@pytest.mark.parametrize("slip", [61, 90, 150, -130, -170])
def test_a_spark_into_an_open_intake_pops_through_the_carburettor(slip):
    assert said(slip)[Symptom.POPS_INTAKE].sure


@pytest.mark.parametrize("slip", [0, -30, -60, -90])
def test_these_do_not_pop(slip):
    assert Symptom.POPS_INTAKE not in said(slip)


@given(SLIPS)
def test_the_tester_shows_a_good_spark_wherever_the_flywheel_stands(slip):
    assert said(slip)[Symptom.SPARK_GOOD].sure


@given(SLIPS)
def test_the_shortest_way_is_within_half_a_turn(slip):
    short = shortest(math.radians(slip))
    assert -math.pi <= short < math.pi
    assert math.isclose(math.cos(short), math.cos(math.radians(slip)), abs_tol=1e-9)


def test_early_and_late_are_words():
    assert slip_words(math.radians(-60)) == "60° early"
    assert slip_words(math.radians(0.4)) == slip_words(math.radians(-360)) == "where it belongs"


def test_more_than_a_turn_is_refused():
    with pytest.raises(OutOfRange, match="whole turn"):
        fall(400)


def test_where_not_most_engines_kick_nothing_sure_is_said_of_kicking():
    # the tables of the engine's own card decide: a light engine with a long release need not kick 60° early
    assert said(-60)[Symptom.KICKS].sure
    weaker = said(-60, most_kick=False)
    assert Symptom.KICKS not in weaker
    assert not weaker[Symptom.MAY_KICK].sure
