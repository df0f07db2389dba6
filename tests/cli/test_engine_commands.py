"""Timing of a slipped flywheel, leak-down, compression, jets, governor and spark in the terminal."""

import json
import math
from collections.abc import Callable
from typing import Any

import pytest
from tests.cli.conftest import Run

Refused = Callable[..., str]


def told(run: Run, *words: str) -> Any:
    outcome = run(*words, "--json")
    assert outcome.code == 0, outcome.everything
    return json.loads(outcome.out)


def test_early_and_late_are_words_and_never_a_bare_sign(run: Run) -> None:
    early, late = run("timing", "--slip", "-60").out, run("timing", "--slip", "60").out
    assert "60° early" in early
    assert "60° late" in late
    assert "-60" not in early


def test_forward_by_270_degrees_and_back_by_90_are_the_same_place(run: Run) -> None:
    there = told(run, "timing", "--slip", "-270")
    assert there["same_place"] == "90° late"
    here = told(run, "timing", "--slip", "90")
    angles = [sorted(one["angle_deg"] for one in way["sparks"]) for way in (there, here)]
    assert angles[0] == pytest.approx(angles[1])


def test_the_main_spark_stands_where_advance_and_slip_put_it(run: Run) -> None:
    # by hand: 20° before the top, 60° earlier: 80° before the top
    main, wasted = told(run, "timing", "--slip", "-60", "--advance", "20")["sparks"]
    assert main["angle_deg"] == pytest.approx(-80)
    assert main["words"] == "80° before the top, compression stroke"
    assert wasted["angle_deg"] == pytest.approx(280)
    assert (wasted["exhaust_open"], wasted["intake_open"]) == (True, False)


def test_a_slip_is_measured_at_the_rim_or_at_the_key(run: Run) -> None:
    # by hand: an arc of 104.72 mm at a rim of 100 mm is 60°; a chord as long as the radius too
    by_rim = told(run, "timing", "--arc", "-104.72 mm", "--rim", "100 mm")
    by_key = told(run, "timing", "--key-offset", "-10 mm", "--shaft", "10 mm")
    assert by_rim["slip_deg"] == pytest.approx(-60, rel=1e-4)
    assert by_key["slip_deg"] == pytest.approx(-60, rel=1e-9)


def test_what_is_sure_and_what_is_not_is_told_apart(run: Run) -> None:
    expected = {one["symptom"]: one["sure"] for one in told(run, "timing", "--slip", "-20")["expected"]}
    assert expected["may kick the cord back"] is False
    assert expected["a spark tester still shows a good spark"] is True
    assert "(not sure)" in run("timing", "--slip", "-20").out


def test_cautions_come_before_the_timing(run: Run) -> None:
    out = run("timing", "--slip", "-60").out
    assert out.index("No further pulls") < out.index("main spark")


def test_a_leak_and_its_reading_lead_to_each_other(run: Run) -> None:
    leak = told(run, "leakdown", "--reading", "60 psi", "--height", "1000 m")["leak_area_mm2"]
    back = told(run, "leakdown", "--leak", f"{leak} mm²", "--height", "1000 m")
    assert back["reading_psi"] == pytest.approx(60, rel=1e-9)
    assert back["leak_percent"] == pytest.approx(25)


def test_another_orifice_reads_another_share_and_finds_the_same_leak(run: Run) -> None:
    wide = ("--orifice", "0.060 in")
    read = told(run, "leakdown", "--leak", "0.8 mm²", *wide)
    assert read["leak_percent"] < told(run, "leakdown", "--leak", "0.8 mm²")["leak_percent"]
    found = told(run, "leakdown", "--reading", f"{read['reading_psi']} psi", *wide)
    assert found["leak_area_mm2"] == pytest.approx(0.8, rel=1e-6)
    assert found["orifice_diameter_mm"] == pytest.approx(1.524)


def test_the_bar_is_put_in_before_the_air(run: Run) -> None:
    out = run("leakdown", "--reading", "60 psi").out
    assert out.index("Hold the crank") < out.index("leaks  ")


def test_a_jet_for_thin_air_is_smaller_and_the_old_one_rich(run: Run) -> None:
    # standard atmosphere at 2000 m: 0.8217 of the density at the sea (ISO 2533), by hand 1.1032 and 0.9521
    high = told(run, "jet", "--height", "2000 m", "--jet", "0.70 mm")
    assert high["richness"] == pytest.approx(1.1032, rel=1e-4)
    assert high["jet_mm"] == pytest.approx(0.70 * 0.9521, rel=1e-4)


def test_warm_air_is_thin_air(run: Run) -> None:
    # by hand: 15 °C to 45 °C is 288.15 to 318.15 K, density in step
    warm = told(run, "jet", "--height", "0 m", "--temperature", "45 °C")
    assert warm["richness"] == pytest.approx(math.sqrt(318.15 / 288.15), rel=1e-6)


def test_back_down_from_the_mountain_the_jet_is_larger(run: Run) -> None:
    down = told(run, "jet", "--height", "0 m", "--from-height", "2000 m", "--jet", "0.66 mm")
    assert down["jet_mm"] > 0.66
    assert "leaner" in run("jet", "--height", "0 m", "--from-height", "2000 m").out


def test_a_gauge_reads_less_in_the_mountains_in_step_with_the_air(run: Run) -> None:
    # gauge pressure scales as the pressure of the air: 79 501 Pa at 2000 m over 101 325 Pa (ISO 2533)
    sea, high = told(run, "compression"), told(run, "compression", "--height", "2000 m")
    assert high["gauge_high_psi"] / sea["gauge_high_psi"] == pytest.approx(79_501 / 101_325, rel=1e-4)


def test_a_hose_takes_compression_away(run: Run) -> None:
    readings = [told(run, "compression", "--hose", f"{one} cm³")["gauge_high_psi"] for one in (1, 2, 4, 8)]
    assert readings == sorted(readings, reverse=True)


def test_a_jet_says_what_height_and_what_warmth_do(run: Run) -> None:
    both = told(run, "jet", "--height", "2000 m", "--temperature", "30 °C")
    assert both["richness_by_height"] * both["richness_by_temperature"] == pytest.approx(both["richness"])
    # by hand: 15 °C to 30 °C is 288.15 to 303.15 K
    assert both["richness_by_temperature"] == pytest.approx(math.sqrt(303.15 / 288.15), rel=1e-6)
    assert "by warmth 2.6% richer" in run("jet", "--height", "2000 m", "--temperature", "30 °C").out


def test_droop_goes_both_ways_and_says_of_which_speed(run: Run) -> None:
    # 3750 to 3562.5 rpm: 5 % of no-load speed (trade forum), 5.26 % of rated
    there = told(run, "governor", "--no-load", "3750 rpm", "--loaded", "3562.5 rpm")
    assert there["droop_of_no_load_percent"] == pytest.approx(5)
    assert there["droop_of_rated_percent"] == pytest.approx(5.263, rel=1e-4)
    back = told(run, "governor", "--loaded", "3562.5 rpm", "--droop", "5 %", "--of", "no-load")
    assert back["no_load_rpm"] == pytest.approx(3750)


def test_a_soft_spring_has_no_steady_place(run: Run) -> None:
    weights = (
        "--weights",
        "20 g",
        "--circle",
        "20 mm",
        "--turning",
        "300 rad/s",
        "--lever",
        "0.5",
        "--stretch",
        "1 mm",
    )
    speeds = ("--no-load", "3150", "--loaded", "3000")
    soft = told(run, "governor", *speeds, *weights, "--spring-pull", "0.8 N")
    # by hand: 0.02 × 300² × 0.5 = 900 N/m
    assert (soft["steady"], soft["least_rate_n_mm"]) == (False, pytest.approx(0.9))
    stiff = told(run, "governor", *speeds, *weights, "--spring-pull", "2 N", "--travel", "2 mm", "--sticks", "1 N")
    # by hand: (2000 − 900)/(2 × 0.02 × 0.02 × 300) = 4583 rad/(s·m), times 2 mm over 300; 1 N over 36 N
    assert stiff["weights_droop_percent"] == pytest.approx(3.0556, rel=1e-4)
    assert stiff["sticking_band_percent"] == pytest.approx(2.7778, rel=1e-4)
    assert "no steady place" in run("governor", *speeds, *weights, "--spring-pull", "0.8 N").out


def test_hands_and_blade_come_before_the_governor(run: Run) -> None:
    out = run("governor", "--no-load", "3150", "--loaded", "3000", "--blade", "600 mm").out
    assert out.index("Blade tips at") < out.index("maker's top speed") < out.index("it droops")


def test_a_spark_is_told_with_the_speed_that_makes_it_and_no_tester_tells_timing(run: Run) -> None:
    found = told(run, "spark", "--gap", "0.75 mm", "--tester", "5 mm", "--slip", "-60")
    # by hand: 24.22 × 0.5 + 6.08 √0.5 = 16.41 kV at 5 mm; 3.48 kV and 79 rpm at 0.75 mm
    assert found["tester_kv"] == pytest.approx(16.41, rel=1e-3)
    assert found["in_air"]["lowest_speed_rpm"] == pytest.approx(79, rel=0.005)
    assert found["slipped"]["voltage_kv"] < found["in_place"]["voltage_kv"]
    assert found["tester_enough"] is (found["tester_kv"] >= found["at_top"]["voltage_kv"])
    out = run("spark", "--gap", "0.75 mm").out
    assert "A tester says nothing about timing" in out
    assert out.index("Closed spark tester") < out.index("the plug needs")


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("timing",), "how far the flywheel has slipped"),
        (("timing", "--slip", "-60", "--arc", "3 mm", "--rim", "100 mm"), "how far the flywheel has slipped"),
        (("timing", "--arc", "3 mm"), "how far the flywheel has slipped"),
        (("timing", "--slip", "500"), "whole turn"),
        (("timing", "--slip", "-60", "--engine", "rotary"), "no engine card “rotary”"),
        (("timing", "--slip", "-60", "--advance", "120"), "advance"),
        (("leakdown",), "Type either"),
        (("leakdown", "--reading", "60 psi", "--leak", "1 mm²"), "Type either"),
        (("leakdown", "--reading", "90 psi"), "under the supply"),
        (("leakdown", "--reading", "60"), "has no unit"),
        (("jet", "--height", "9000 m"), "Height above the sea"),
        (("jet", "--height", "0 m", "--temperature", "90 °C"), "Temperature of the air"),
        (("jet", "--height", "0 m", "--jet", "-1 mm"), "above zero"),
        (("governor", "--loaded", "3000"), "Type either"),
        (("governor", "--loaded", "3400", "--no-load", "3000"), "Swap the two readings"),
        (("governor", "--loaded", "3000", "--droop", "0.05"), "in percent"),
        (("spark", "--gap", "30 mm"), "Gap of the plug is 30 mm"),
        (("spark", "--engine", "rotary"), "no engine card “rotary”"),
        (("compression", "--ratio", "much"), "must be a number"),
        (("compression", "--ratio", "40"), "Compression ratio is 40"),
        (("compression", "--hose", "-3"), "above zero"),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(refused: Refused, words: tuple[str, ...], part: str) -> None:
    assert part in refused(*words)
