"""The answers of the numbers bench come in the system of the shop's torque unit, the other one beside it."""

import pytest

from bellcrank.shop.rooms import ROOMS

TAPER = {"ratio": "1:8", "mean_diameter": "20 mm", "length": "25 mm", "nut": "5/8-18", "nut_torque": "60 ft·lb"}
TYPED = {
    "strip": {"thread": "5/16-24", "engaged": "0.3125 in", "into": "die-cast aluminium"},
    "taper": TAPER,
    "key": {"key": "606", "shaft": "20 mm"},
    "pull-off": {**TAPER, "bolt": "1/4-20", "engaged": "8 mm", "circle": "20 mm"},
    "strike": {**TAPER, "flywheel_inertia": "0.01", "speed": "3000", "stop_angle": "45"},
}
NO_TORQUE_OR_FORCE = {
    "timing",
    "leak-down",
    "compression",
    "jet",
    "governor",
    "spark",
    "cord",
}  # angles, areas, speeds, volts


@pytest.fixture
def answers(shop):
    return lambda unit: {key: ROOMS[key].answered(shop.library, typed, unit) for key, typed in TYPED.items()}


def everything(answer):
    return " ".join((answer.figure, *answer.sentences, *(value for _, value in answer.lines), *answer.notes))


def test_the_answers_are_those_of_every_room():
    assert set(TYPED) == set(ROOMS) - NO_TORQUE_OR_FORCE


@pytest.mark.parametrize("unit", ["ft·lb", "in·lb"])
def test_a_shop_that_works_in_inches_reads_pounds_and_inches_first(answers, unit):
    found = answers(unit)
    assert found["strip"].figure == "3465 lbf (15.4 kN)"
    assert dict(found["key"].lines)["width"] == "0.1875 in (4.76 mm)"
    assert "Push of the nut: 5760 lbf (25.6 kN)" in found["taper"].notes[0]
    for answer in found.values():
        assert not any(f" {metric} (" in everything(answer) for metric in ("N·m", "kN", "N", "mm"))


def test_a_metric_shop_reads_newtons_and_millimetres_first(answers):
    found = answers("N·m")
    assert found["strip"].figure == "15.4 kN (3465 lbf)"
    assert dict(found["key"].lines)["width"] == "4.76 mm (0.1875 in)"
    assert found["strike"].sentences[0].endswith("took 628 N·m (463 ft·lb) on average.")
    for answer in found.values():
        assert not any(f" {inch} (" in everything(answer) for inch in ("ft·lb", "in·lb", "lbf", "in"))
