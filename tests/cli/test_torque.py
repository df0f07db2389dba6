"""A torque without a job: the figures, their names, and how they are shown."""

import json
from typing import Any

import pytest
from tests.cli.conftest import Run

from bellcrank.both_systems import both_forces, both_torques, both_windows

JOINT = ("torque", "--thread", "1/4-20", "--class", "G5", "--into", "die-cast aluminium", "--engaged", "10mm")


def computed(run: Run, *more: str) -> Any:
    outcome = run(*JOINT, *more, "--json")
    assert outcome.code == 0, outcome.everything
    return json.loads(outcome.out)


def test_every_figure_carries_its_unit_in_its_name(run: Run) -> None:
    assert {
        "preload_n",
        "torque_nm",
        "torque_low_nm",
        "torque_high_nm",
        "governs",
        "stress_area_mm2",
        "basis",
        "assumptions",
    } <= set(computed(run))


def test_the_stress_area_is_the_published_one(run: Run) -> None:
    # 1/4-20 UNC: 0.0318 in², FED-STD-H28/2B, table II.B.1
    assert computed(run)["stress_area_mm2"] == pytest.approx(0.0318 * 25.4**2, abs=0.00005 * 25.4**2)


def test_text_and_json_say_the_same(run: Run) -> None:
    figures = computed(run)
    text = " ".join(run(*JOINT).out.split())
    assert both_torques(figures["torque_nm"]) in text
    assert both_windows(figures["torque_low_nm"], figures["torque_high_nm"]) in text
    assert all(both_forces(figures[clamp]) in text for clamp in ("preload_n", "preload_low_n", "preload_high_n"))
    assert figures["governs"] in text
    assert all(" ".join(sentence.split()) in text for sentence in figures["assumptions"])


def test_hand_feel_narrows_the_window_from_above(run: Run) -> None:
    assert computed(run, "--by", "hand feel")["torque_high_nm"] < computed(run)["torque_high_nm"]


def test_inches_and_millimetres_give_the_same_torque(run: Run) -> None:
    inches = json.loads(run(*JOINT[:-1], "0.5 in", "--json").out)
    millimetres = json.loads(run(*JOINT[:-1], "12.7 mm", "--json").out)
    assert inches["torque_nm"] == pytest.approx(millimetres["torque_nm"], rel=1e-12)


def test_the_clamp_at_the_torque_lies_inside_the_clamps_of_the_window(run: Run) -> None:
    figures = computed(run)
    assert figures["preload_low_n"] < figures["preload_n"] < figures["preload_high_n"]


def test_needs_no_shop_and_makes_none(run: Run, tmp_path: object) -> None:
    computed(run)
    assert list(tmp_path.iterdir()) == []  # type: ignore[attr-defined]


@pytest.mark.parametrize(("thread", "area"), [("M8", 33.2), ("M10", 53.6), ("M12", 84.3), ("M6", 20.1)])
def test_a_galvanised_screw_bears_by_what_its_thread_has_left(run: Run, thread: str, area: float) -> None:
    # By hand from ISO 965-4: M10 8.696 and 7.829 mm, M8 6.863 and 6.141; M12 and M6 as in ISO 898-1
    words = ("torque", "--thread", thread, "--class", "8.8", "--engaged", "20mm", "--into", "nut", "--head", "flange")
    plain, zinc = (json.loads(run(*words, *more, "--json").out) for more in ((), ("--galvanised",)))
    assert zinc["stress_area_mm2"] == pytest.approx(area, abs=0.05)
    assert (zinc["torque_nm"] < plain["torque_nm"]) == (thread in ("M8", "M10"))
    said = " ".join(zinc["assumptions"])
    assert "alvanis" in said
    assert said in " ".join(run(*words, "--galvanised").out.replace("  - ", "").split())
    assert "alvanis" not in " ".join(plain["assumptions"])


def test_a_galvanised_screw_to_yield_says_what_it_rests_on(run: Run) -> None:
    found = json.loads(run("torque", "--thread", "M10", "--to-yield", "0.9", "--galvanised", "--json").out)
    assert found["stress_area_mm2"] == pytest.approx(53.6, abs=0.05)
    assert "53.6 of 58.0 mm² carry" in " ".join(found["assumptions"])
