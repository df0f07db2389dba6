"""Pulling a flywheel by its own holes: what the two forces stand for, and what is said of them."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from tests.cli.conftest import Run

from bellcrank.both_systems import both_forces, both_torques

Refused = Callable[..., str]
SEAT = ("--ratio", "1:8", "--mean-diameter", "20.6mm", "--length", "25mm", "--nut", "5/8-18", "--nut-torque", "80 N·m")
HOLES = ("--bolt", "1/4-20", "--class", "G5", "--circle", "20mm")
DEEP, SHALLOW = ("--engaged", "14mm"), ("--engaged", "8mm")
FORCES = ("--force-low", "6 kN", "--force-high", "18 kN")


def asked(run: Run, *more: str) -> Any:
    outcome = run("pull-off", *HOLES, *more, "--json")
    assert outcome.code == 0, outcome.everything
    return json.loads(outcome.out)


def test_every_figure_carries_its_unit_in_its_name(run: Run) -> None:
    assert {
        "verdict", "words", "release_low_n", "release_high_n", "bolt_load_low_n", "bolt_load_high_n", "strip_usable_n",
        "bolt_proof_n", "hole_margin_low", "hole_margin_high", "bolt_margin_low", "bolt_margin_high",
        "screw_torque_limit_nm", "bolt_torque_limit_nm", "needed_low_force_mm", "needed_high_force_mm", "cautions",
        "assumptions",
    } == set(asked(run, *SEAT, *SHALLOW))  # fmt: skip


def test_text_and_json_say_the_same(run: Run) -> None:
    figures = asked(run, *SEAT, *SHALLOW)
    text = " ".join(run("pull-off", *HOLES, *SEAT, *SHALLOW).out.split())
    for force in ("release_low_n", "release_high_n", "bolt_load_low_n", "strip_usable_n", "bolt_proof_n"):
        assert both_forces(figures[force]) in text
    for torque in ("screw_torque_limit_nm", "bolt_torque_limit_nm"):
        assert both_torques(figures[torque]) in text
    sentences = (figures["words"], *figures["cautions"], *figures["assumptions"])
    assert all(" ".join(sentence.split()) in text for sentence in sentences)


@pytest.mark.parametrize("engaged", [DEEP, SHALLOW])
def test_what_a_clean_taper_takes_promises_nothing_of_a_fretted_one(run: Run, engaged: tuple[str, str]) -> None:
    found = asked(run, *SEAT, *engaged, "--state", "clean")
    assert "fretted" not in found["words"] + found["verdict"]
    assert "the most force too" in found["words"]
    assert "a fretted one asks for far more" in found["assumptions"][0]


@pytest.mark.parametrize("engaged", [DEEP, SHALLOW])
def test_what_a_fretted_taper_takes_says_nothing_of_a_clean_one(run: Run, engaged: tuple[str, str]) -> None:
    found = asked(run, *SEAT, *engaged, "--state", "fretted")
    assert "clean" not in found["words"] + found["verdict"]
    assert found["assumptions"][0].startswith("Only a fretted taper is counted")


def test_holes_that_hold_the_least_force_and_not_the_most_say_so(run: Run) -> None:
    found = asked(run, "--force-low", "6kN", "--force-high", "59kN", *DEEP)
    assert found["verdict"] == "enough for the least force only"
    assert found["words"].startswith("Enough thread for the least force, not for the most.")


def test_a_taper_whose_state_nobody_knows_is_counted_clean_to_fretted(run: Run) -> None:
    found = asked(run, *SEAT, *DEEP)
    assert found["verdict"] == "enough for a clean taper only"
    assert not any(one.startswith("Only a") for one in found["assumptions"])


def test_forces_that_are_typed_take_the_place_of_the_taper(run: Run) -> None:
    found = asked(run, *FORCES, *DEEP)
    assert (found["release_low_n"], found["release_high_n"]) == pytest.approx((6e3, 18e3))
    assert found["bolt_load_high_n"] == pytest.approx(9e3)  # two bolts on the middle carry half each
    assert found["assumptions"][0].startswith("The forces were typed")


def test_the_same_forces_typed_or_computed_give_the_same_holes(run: Run) -> None:
    clean = asked(run, *SEAT, *DEEP, "--state", "clean")
    ends = ("--force-low", f"{clean['release_low_n']!r} N", "--force-high", f"{clean['release_high_n']!r} N")
    typed = asked(run, *ends, *DEEP)
    assert (typed["words"], typed["verdict"]) == (clean["words"], clean["verdict"])
    for name in ("bolt_load_high_n", "hole_margin_low", "screw_torque_limit_nm", "needed_high_force_mm"):
        assert typed[name] == pytest.approx(clean[name], rel=1e-9)


def test_pounds_and_newtons_give_the_same_holes(run: Run) -> None:
    pounds = asked(run, "--force-low", "1000 lbf", "--force-high", "4000 lbf", *DEEP)
    newtons = asked(run, "--force-low", "4448.2216 N", "--force-high", "17792.886 N", *DEEP)
    assert pounds["screw_torque_limit_nm"] == pytest.approx(newtons["screw_torque_limit_nm"], rel=1e-6)


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ((), "not clear what frees the hub"),
        (SEAT[:-2], "not clear what frees the hub"),
        (FORCES[:2], "not clear what frees the hub"),
        ((*SEAT, *FORCES), "not clear what frees the hub"),
        ((*FORCES, "--state", "clean"), "Leave the state out"),
        (("--force-low", "18 kN", "--force-high", "6 kN"), "Swap the two"),
        (("--force-low", "6 N·m", "--force-high", "18 kN"), "is a torque, not a force"),
        (("--force-low", "-6 kN", "--force-high", "18 kN"), "must be above zero"),
    ],
)
def test_what_frees_the_hub_is_said_once_and_whole(refused: Refused, words: tuple[str, ...], part: str) -> None:
    assert part in refused("pull-off", *HOLES, *DEEP, *words)
