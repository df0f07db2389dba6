"""What is said of a blade strike, in the unit that was asked for."""

import math
from dataclasses import replace

import pytest

from bellcrank.fastening.key_joint import GivesWay
from bellcrank.fastening.strike import Blow, KeyInWay, NutAndTaper, judge_strike
from bellcrank.fastening.taper_forces import Taper
from bellcrank.shop.strikes import strike_from_words, strike_words

SPEED = 3000 * 2 * math.pi / 60
FIT = NutAndTaper(Taper(0.125, 0.0206, 0.025), nut_diameter=0.015875, nut_torque=80.0)
KEY = KeyInWay(low=130.0, high=156.0, width=0.0047625, shaft_diameter=0.0206)


def said(degrees, unit="N·m", key=KEY):
    struck = judge_strike(Blow(0.010, SPEED, math.radians(degrees)), FIT, key)
    return strike_words(struck, unit)


def test_a_sheared_key_and_an_early_spark_are_said():
    told = " ".join(said(15))
    assert "with the nut at half torque it slips from 80 N·m (59 ft·lb) on" in told
    assert "The key shears." in told
    assert "ahead of the crank" in told
    assert "kicks back" in told


@pytest.mark.parametrize(
    ("first", "words"),
    [
        ((GivesWay.SHEAR,), "The key shears."),
        ((GivesWay.SHEAR, GivesWay.CRUSH), "The key gives way."),
        ((GivesWay.KEYWAY,), "The keyway breaks. A flywheel whose keyway is broken is not mended by a new key."),
        ((GivesWay.SHEAR, GivesWay.KEYWAY), "Key or keyway gives way. Which of the two cannot be told: look at both."),
    ],
)
def test_it_says_what_of_key_and_keyway_gives_way(first, words):
    assert words in " ".join(said(15, key=replace(KEY, first=first)))


def test_a_strike_is_judged_by_the_keyway_where_that_is_the_weakest(shop):
    typed = {
        "ratio": "1:8", "mean_diameter": "20 mm", "length": "20 mm", "nut": "5/8-18", "nut_torque": "30 ft·lb",
        "flywheel_inertia": "0.01", "speed": "3000", "stop_angle": "30", "key": "606",
    }  # fmt: skip
    cast, iron = (
        strike_from_words(shop.library, typed | {"hub_material": hub}).strike for hub in ("cast-aluminium", "grey-iron")
    )
    assert iron.first == (GivesWay.KEYWAY,)
    assert GivesWay.SHEAR in cast.first
    assert iron.run_on_high > cast.run_on_high


def test_a_taper_that_holds_is_said_last():
    assert said(360)[-1] == "The taper holds by itself."


def test_a_key_that_may_have_saved_it_is_looked_at():
    assert any("look at both for a step" in words for words in said(100))
    assert not any("key" in words for words in said(100, key=None))


# By hand: 0.010 kg·m² from 314.16 rad/s in 15°: 1884.96 N·m; 1 ft·lb = 1.35582 N·m, 1 kgf·m = 9.80665 N·m (NIST SP 811)
@pytest.mark.parametrize(
    ("unit", "torque"),
    [("N·m", "1885 N·m (1390 ft·lb)"), ("ft·lb", "1390 ft·lb (1885 N·m)"), ("in·lb", "16683 in·lb (1885 N·m)"),
     ("kgf·m", "192.2 kgf·m (1885 N·m)")],
)  # fmt: skip
def test_every_sentence_gives_its_torques_in_the_unit_asked_for_first(unit, torque):
    told = said(15, unit)
    assert told[0] == f"Stopping the flywheel with the crank took {torque} on average."
    assert all(f" {unit} (" in sentence for sentence in told if "N·m" in sentence)
