"""A blade strike: how the flywheel may be told, and how the answer is shown."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from tests.cli.conftest import Run

from bellcrank.both_systems import both_torques, both_windows

Refused = Callable[..., str]
SEAT = ("--ratio", "1:8", "--mean-diameter", "20.6mm", "--length", "25mm", "--nut", "5/8-18", "--nut-torque", "80 N·m")
BLOW = ("strike", *SEAT, "--speed", "3000 rpm", "--stop-angle", "45 °")
WHEEL = ("--flywheel-mass", "2kg", "--flywheel-diameter", "200mm")


def struck(run: Run, *more: str) -> Any:
    outcome = run(*BLOW, *more, "--json")
    assert outcome.code == 0, outcome.everything
    return json.loads(outcome.out)


def test_every_figure_carries_its_unit_in_its_name(run: Run) -> None:
    assert {
        "mean_torque_nm", "blade_torque_nm", "grip_low_nm", "grip_high_nm", "half_nut_grip_low_nm",
        "half_nut_grip_high_nm", "taper_holds", "key_gives_way", "gives_way_first", "run_on_low_deg",
        "run_on_high_deg", "nut_torque_to_hold_nm", "words", "cautions",
    } == set(struck(run, *WHEEL))  # fmt: skip


def test_text_and_json_say_the_same(run: Run) -> None:
    figures = struck(run, *WHEEL, "--key", "606")
    text = " ".join(run(*BLOW, *WHEEL, "--key", "606").out.split())
    for torque in ("mean_torque_nm", "half_nut_grip_low_nm", "nut_torque_to_hold_nm"):
        assert both_torques(figures[torque]) in text
    assert both_windows(figures["grip_low_nm"], figures["grip_high_nm"]) in text
    assert f"{figures['run_on_low_deg']:.0f}° to {figures['run_on_high_deg']:.0f}°" in text
    assert all(" ".join(one.split()) in text for one in (*figures["words"], *figures["cautions"]))


@pytest.mark.parametrize("typed", ["0.01", "0.01 kg·m²", "0,01 kg m2", "0.01kg*m^2", ".01 kgm²"])
def test_an_inertia_that_is_known_is_taken_as_it_is(run: Run, typed: str) -> None:
    # By hand: a disc of 2 kg and 200 mm has m r²/2 = 0.01 kg·m²
    assert struck(run, "--flywheel-inertia", typed)["mean_torque_nm"] == pytest.approx(
        struck(run, *WHEEL)["mean_torque_nm"], rel=1e-12
    )


def test_a_key_is_found_by_its_number_and_by_its_size(run: Run) -> None:
    assert struck(run, *WHEEL, "--key", "606") == struck(run, *WHEEL, "--key", "3/16x3/4")


def test_a_parallel_key_is_told_by_its_length_and_a_longer_one_lets_the_flywheel_run_on_less(run: Run) -> None:
    shaft = ("--mean-diameter", "19.05mm")  # 3/4 in
    short = struck(run, *WHEEL, *shaft, "--key-length", "4mm", "--inch")
    long = struck(run, *WHEEL, *shaft, "--key-length", "40mm", "--inch")
    assert long["run_on_high_deg"] < short["run_on_high_deg"]


def test_a_key_is_woodruff_or_parallel_and_not_both(refused: Refused) -> None:
    assert "not both" in refused(*BLOW, *WHEEL, "--key", "606", "--key-length", "20mm")


def test_a_blade_without_a_unit_is_in_kilograms_and_millimetres_like_the_flywheel(run: Run) -> None:
    bare = struck(run, *WHEEL, "--blade-mass", "0.6", "--blade-length", "530")
    assert bare == struck(run, *WHEEL, "--blade-mass", "0.6 kg", "--blade-length", "53 cm")
    assert bare["mean_torque_nm"] == struck(run, *WHEEL)["mean_torque_nm"]  # the blade's own stop is not in the crank


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ((), "not clear what the flywheel weighs"),
        (WHEEL[:2], "not clear what the flywheel weighs"),
        ((*WHEEL, "--flywheel-inertia", "0.01"), "not clear what the flywheel weighs"),
        (("--flywheel-inertia", "heavy"), "it must be a number in kg·m², like 0.01"),
        (("--flywheel-inertia", "0.01 kg"), "it must be a number in kg·m², like 0.01"),
        (("--flywheel-inertia", "1,000.5"), "it must be a number in kg·m², like 0.01"),
        (("--flywheel-inertia", "nan"), "it must be a number in kg·m², like 0.01"),
        (("--flywheel-inertia", "-0.01"), "a small engine's flywheel is near 0.01"),
        (("--flywheel-inertia", "0"), "a small engine's flywheel is near 0.01"),
        ((*WHEEL, "--stop-time", "0.01 s"), "How did it stop?"),
        ((*WHEEL, "--key", "9999"), "There is no Woodruff key “9999”"),
        ((*WHEEL, "--key", "606", "--key-material", "cheese"), "There is no shaft, hub or key material “cheese”"),
    ],
)
def test_a_strike_that_cannot_be_is_refused(refused: Refused, words: tuple[str, ...], part: str) -> None:
    assert part in refused(*BLOW, *words)
