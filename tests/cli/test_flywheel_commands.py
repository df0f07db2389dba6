"""Pulling a flywheel, a blade strike, and somebody's own hand, in the terminal."""

import json
import math
from collections.abc import Callable
from typing import Any

import pytest
from tests.cli.conftest import Run

Refused = Callable[..., str]
SEAT = ("--ratio", "1:8", "--mean-diameter", "20.6mm", "--length", "25mm", "--nut", "5/8-18", "--nut-torque", "80 N·m")
PULL = ("pull-off", *SEAT, "--bolt", "1/4-20", "--class", "G5", "--engaged", "8mm", "--circle", "20mm")
STRIKE = ("strike", *SEAT, "--flywheel-mass", "2kg", "--flywheel-diameter", "200mm", "--speed", "3000 rpm")
READINGS = ("6.2 N·m", "7 N·m", "6.6 N·m", "7.4 N·m", "6.8 N·m")


def told(run: Run, *words: str) -> Any:
    outcome = run(*words, "--json")
    assert outcome.code == 0, outcome.everything
    return json.loads(outcome.out)


def keep(run: Run, readings: tuple[str, ...] = READINGS, *more: str) -> Any:
    typed = (word for reading in readings for word in ("--reading", reading))
    return told(run, "hand", "--person", "Ina", "--thread", "M6", *typed, *more)


def test_a_fretted_taper_takes_more_than_a_clean_one(run: Run) -> None:
    clean, fretted = (told(run, *PULL, "--state", state) for state in ("clean", "fretted"))
    whole = told(run, *PULL)
    assert clean["release_high_n"] < fretted["release_high_n"] == whole["release_high_n"]
    assert whole["release_low_n"] == clean["release_low_n"]


def test_the_release_of_a_clean_taper_by_hand(run: Run) -> None:
    # By hand: push T/(K d) = 80/(0.20 x 0.015875) least; out/in = (u cos a - sin a)/(u cos a + sin a), u 0.1
    sine, cosine = 0.0623783, 0.9980526
    push = 80 / (0.20 * 0.015875)
    least = push * (0.10 * cosine - sine) / (0.10 * cosine + sine)
    found = told(run, *PULL, "--state", "clean")
    assert found["release_low_n"] == pytest.approx(least, rel=1e-5)
    assert found["bolt_load_low_n"] == pytest.approx(least / 2, rel=1e-5)


def test_three_bolts_carry_a_third_each_and_deeper_threads_hold_more(run: Run) -> None:
    two, three = told(run, *PULL), told(run, *PULL, "--bolts", "three")
    assert three["bolt_load_high_n"] == pytest.approx(two["bolt_load_high_n"] * 2 / 3)
    short = told(run, *PULL[:-4], "--engaged", "4mm", *PULL[-2:])
    assert short["strip_usable_n"] < two["strip_usable_n"]
    assert short["screw_torque_limit_nm"] < two["screw_torque_limit_nm"]


def test_cautions_come_before_the_pull(run: Run) -> None:
    text = run(*PULL).out
    assert text.startswith("! Plug lead off")
    assert text.index("Leave the nut on by a few turns") < text.index("to release")


def test_the_torque_of_a_strike_by_hand(run: Run) -> None:
    # By hand: J = m r²/2 = 0.01 kg·m², T = J w²/(2 angle)
    found = told(run, *STRIKE, "--stop-angle", "45 °", "--key", "606")
    speed = 3000 * 2 * math.pi / 60
    assert found["mean_torque_nm"] == pytest.approx(0.01 * speed**2 / (2 * math.radians(45)), rel=1e-6)
    assert found["half_nut_grip_low_nm"] == pytest.approx(found["grip_low_nm"] / 2)
    assert 0 <= found["run_on_low_deg"] <= found["run_on_high_deg"]


def test_a_stop_in_twice_the_angle_takes_half_the_torque_and_time_says_the_same_as_angle(run: Run) -> None:
    short, long = (told(run, *STRIKE, "--stop-angle", angle)["mean_torque_nm"] for angle in ("45 °", "90 °"))
    assert short == pytest.approx(2 * long)
    seconds = 2 * math.radians(45) / (3000 * 2 * math.pi / 60)
    assert told(run, *STRIKE, "--stop-time", f"{seconds:.9f} s")["mean_torque_nm"] == pytest.approx(short, rel=1e-6)


def test_five_readings_give_a_window_and_four_say_how_many_are_missing(run: Run) -> None:
    (four,) = keep(run, READINGS[:4])["threads"]
    assert four["mean_nm"] is None
    assert "5 or more" in four["words"]
    (five,) = keep(run, READINGS[4:])["threads"]
    # NASA-STD-5020B, Table 5: n = 5, two-sided 90/95 factor 4.291; mean 6.8 and deviation 0.447 by hand
    assert five["mean_nm"] == pytest.approx(6.8)
    assert five["spread"] == pytest.approx(4.291 * math.sqrt(0.2) / 6.8, rel=1e-3)
    assert told(run, "hand", "--person", "Ina", "--undo")["threads"][0]["readings_nm"] == pytest.approx(
        [6.2, 7, 6.6, 7.4]
    )


def test_a_hand_is_held_against_what_is_wanted_and_counts_in_a_window(run: Run) -> None:
    against = keep(run, READINGS, "--wanted", "5.8 N·m")["against"]
    assert against["off_by"] == pytest.approx(1.0 / 5.8)
    assert "too hard" in against["words"]
    mine, wrench = told(run, "torque", "--thread", "M6", "--hand", "Ina"), told(run, "torque", "--thread", "M6")
    assert mine["torque_high_nm"] < wrench["torque_high_nm"]


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ((*PULL, "--tapped", "5mm"), "Measure both again"),
        ((*PULL, "--off-centre", "-1mm"), "must be zero or more"),
        ((*PULL[:-6], "--class", "G99", *PULL[-4:]), "There is no strength class “G99”"),
        ((*PULL, "--into", "plastic"), "plastic"),
        (STRIKE, "How did it stop?"),
        ((*STRIKE, "--stop-angle", "45 °", "--blade-mass", "0.6kg"), "both its mass and its length"),
        ((*STRIKE, "--stop-angle", "45 N"), "is a force, not an angle"),
        (("hand", "--person", "Ina", "--reading", "7 N·m"), "On which thread?"),
        (("hand", "--person", "Ina", "--thread", "M6", "--reading", "55 lbs"), "is a mass, not a torque"),
        (("hand", "--person", "Ina", "--thread", "M6", "--reading", "-7 N·m"), "must be above zero"),
        (("hand", "--person", "Ina", "--thread", "M6", "--wanted", "7 N·m"), "No reading of M6"),
        (("hand", "--person", "Ina", "--undo"), "no reading to take back"),
        (("torque", "--thread", "M6", "--hand", "Ina"), "Take five readings"),
    ],
)
def test_nonsense_is_refused_with_a_sentence(refused: Refused, words: tuple[str, ...], part: str) -> None:
    assert part in refused(*words)
