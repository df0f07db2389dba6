"""What the cord told, and computed pulls, in the terminal."""

import json
import math
import subprocess
import sys
from collections.abc import Callable
from typing import Any

import pytest
from tests.cli.conftest import Run

from bellcrank.bootstrap import open_library
from bellcrank.cli.show_pulls import sensitivity_lines
from bellcrank.shop.pulls import Knob

Refused = Callable[..., str]


def told(run: Run, *words: str) -> Any:
    outcome = run(*words, "--json")
    assert outcome.code == 0, outcome.everything
    return json.loads(outcome.out)


def test_shares_of_all_outcomes_are_together_one_each_inside_its_interval(run: Run) -> None:
    found = told(run, "pull", "--engine", "overhead-valve-160", "--slip", "-60", "--pulls", "100", "--seed", "1")
    assert set(found["shares"]) == {"no_fire", "fires_and_dies", "catches", "kicks_back", "goes_solid"}
    assert sum(found["shares"].values()) == pytest.approx(1)
    for name in ("pops_intake", "pops_exhaust", "kicks_back_if_ignitable", "ignitable"):
        low, high = found["intervals"][name]
        assert low <= found[name] <= high
    assert found["slip"] == "60° early"
    assert found["cord_force_n"] > 0
    assert found["reverse_energy_j"] > 0


def test_the_same_seed_gives_the_same_pulls_on_any_number_of_workers(run: Run) -> None:
    one, three = (told(run, "pull", "--slip", "-30", "--pulls", "60", "--workers", many) for many in ("1", "3"))
    assert one == three
    assert told(run, "pull", "--slip", "-30", "--pulls", "60", "--seed", "2") != one


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        (("--pulls", "0"), "must be 1 to 100,000"),
        (("--pulls", "ten"), "no whole number"),
        (("--seed", "-1"), "no whole number"),
        (("--operator", "giant"), "one of usual, strong, light"),
        (("--blade", "gone"), "must be tight or loose"),
        (("--slip", "400"), "whole turn"),
        (("--engine", "none"), "no engine card"),
    ],
)
def test_what_cannot_be_pulled_is_refused_in_words(refused: Refused, words: tuple[str, ...], asked: str) -> None:
    assert asked in refused("pull", *words)


def test_jerks_without_a_start_speak_for_an_early_spark_and_never_for_a_late_one(run: Run) -> None:
    found = told(run, "slip", "--jerks", "3", "--of", "10", "--starts", "0", "--blade", "tight", "--release", "works")
    chances = {one["words"]: one["probability"] for one in found["explanations"]}
    assert sum(chances.values()) == pytest.approx(1)
    assert sum(one["probability"] for one in found["posterior"]) == pytest.approx(1)
    assert chances["the flywheel stands forward, the spark is early"] > 0.85
    early = chances["the flywheel stands forward, the spark is early"]
    assert chances["the flywheel stands back, the spark is late"] < early / 10
    assert "keyways" in found["next_look"]


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        (("--jerks", "3"), "of how many pulls"),
        (("--jerks", "4", "--of", "3"), "cannot be"),
        (("--jerks", "3", "--of", "0"), "must be 1 to 200"),
        (("--jerks", "some", "--of", "9"), "no count of pulls"),
        (("--jerks", "1", "--of", "9", "--pops", "perhaps"), "one of: yes, no"),
        (("--key", "gone"), "one of: not looked at, whole, bruised, sheared"),
    ],
)
def test_what_cannot_have_been_felt_is_refused_in_words(refused: Refused, words: tuple[str, ...], asked: str) -> None:
    assert asked in refused("slip", *words)


def test_cautions_come_before_anything_else(run: Run) -> None:
    assert run("slip", "--jerks", "3", "--of", "10").out.lstrip().startswith("! No further pulls")
    assert run("pull", "--slip", "-60", "--pulls", "25").out.lstrip().startswith("! Computed, not felt")


def test_sensitivity_says_what_each_claim_comes_to_and_what_moves_it() -> None:
    knobs = [
        Knob("release_closes", math.radians(-60), (0.3, 0.99), (0, 0), (0, 0)),
        Knob("leak", math.radians(-60), (0.96, 0.95), (0, 0), (0, 0)),
        Knob("leak", 0.0, (0.0, 0.01), (0.8, 0.7), (0.1, 0.1)),
        Knob("leak", math.radians(90), (0.0, 0.0), (0.0, 0.002), (0.8, 0.8)),
    ]
    card = next(iter(open_library().packs["walk-behind-mower"].engine_cards))
    told = "\n".join(sensitivity_lines(card, knobs))
    assert "kicks in at most 0.0% of pulls that light" in told
    assert "starts in at most 0.2%" in told
    assert "60° early it kicks in at least 30%" in told
    assert " ".join(["release", "closes", "48.0", "°", "30%", "90.0", "°", "99%"]) in " ".join(told.split())
    assert "nothing moves them by a tenth" in told


@pytest.mark.parametrize("command", ["main", "slip", "timing", "compression", "strip", "next", "open"])
def test_nobody_loads_the_compiler_who_asks_for_no_pull(command: str) -> None:
    asked = f"import sys, bellcrank.cli.{command}, bellcrank.bootstrap; print('numba' in sys.modules)"
    said = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert said.stdout == "False\n"
