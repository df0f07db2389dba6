"""The checker: it finds what is wrong with plans and with models."""

from dataclasses import replace

import pytest

from bellcrank.teardown.legality import assembly_problems, back_problems, plan_problems

from .small_models import fastener, machine, operation

LEAD = operation("lead-off", part="plug-lead", kind="make-safe")
MOWER = machine(
    LEAD,
    operation("tank-aside", ["lead-off"]),
    operation("tank-off", ["lead-off"]),
    operation("shroud-off", [("tank-aside", "tank-off")]),
    operation("blade-off", ["lead-off"], turns_crank=True),
)


@pytest.mark.parametrize(
    ("order", "problems"),
    [
        (["lead-off", "tank-off", "shroud-off"], []),
        (["lead-off", "shroud-off"], ["“shroud-off” before any of tank-aside, tank-off"]),
        (["lead-off", "lead-off"], ["“lead-off” twice"]),
        (
            ["blade-off"],
            ["“blade-off” before any of lead-off", "“blade-off” turns the engine while the plug lead is on"],
        ),
    ],
)
def test_a_way_in_is_walked_step_by_step(order, problems):
    assert plan_problems(MOWER, order) == problems


@pytest.mark.parametrize(
    ("back", "problems"),
    [
        (["shroud-off", "tank-off", "lead-off"], []),
        (["tank-off", "shroud-off", "lead-off"], ["“tank-off” back while “shroud-off” is still off"]),
        (["shroud-off", "tank-off"], ["“lead-off” never goes back"]),
        (["shroud-off", "blade-off", "tank-off", "lead-off"], ["“blade-off” is not off"]),
    ],
)
def test_a_way_out_is_walked_step_by_step(back, problems):
    assert back_problems(MOWER, ["lead-off", "tank-off", "shroud-off"], back) == problems


def test_the_lead_goes_on_last_of_all():
    found = back_problems(MOWER, ["lead-off", "tank-off"], ["lead-off", "tank-off"])
    assert "“lead-off” back before tank-off" in found


def test_a_sound_model_has_no_problems():
    assert assembly_problems(MOWER) == []


@pytest.mark.parametrize(
    ("bad", "words"),
    [
        (operation("a", ["ghost"]), "“a” needs “ghost”, which is no step"),
        (operation("a", ["a"]), "“a” can never be done"),
        (operation("a"), "“a” can be done with the plug lead on"),
        (operation("lead-off", ["tank-off"], part="x"), "“lead-off” stands twice"),
        (operation("a", ["lead-off"], kind="wish"), "“a” is of kind “wish”"),
        (operation("a", ["lead-off"], undo=""), "“a” does not say how it is done and how it is undone"),
        (operation("a", ["lead-off"], undo_minutes=0.0), "“a” takes no time"),
        (operation("a", ["lead-off"], tool=""), "“a” names no tool"),
        (operation("a", ["lead-off"], kind="unfasten"), "“a” unfastens nothing"),
    ],
)
def test_names_what_is_wrong_with_a_step(bad, words):
    assert any(words in problem for problem in assembly_problems(machine(*MOWER.operations, bad)))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"into": ""}, "screws into nothing"),
        ({"under_head": ""}, "presses on nothing"),
        ({"engaged_mm": None}, "how much thread is engaged"),
        ({"count": 0}, "counts 0"),
        ({"where": ""}, "where it sits"),
    ],
)
def test_names_what_is_wrong_with_a_fastener(changes, words):
    bad = operation("a", ["lead-off"], kind="unfasten", fasteners=(fastener(**changes),))
    assert any(words in problem for problem in assembly_problems(machine(*MOWER.operations, bad)))


def test_a_fastener_stands_in_one_step_only():
    twice = (operation(name, ["lead-off"], fasteners=(fastener("bolts"),)) for name in "ab")
    assert "fastener “bolts” stands twice" in assembly_problems(machine(LEAD, *twice))


@pytest.mark.parametrize(
    ("target", "problems"),
    [
        ("key", []),
        ("flywheel-key", []),
        ("crank", ["target “crank” is freed by “key-out”, which frees “key”"]),
    ],
)
def test_a_target_is_the_part_a_step_frees_or_one_of_its_fasteners(target, problems):
    key = operation("key-out", ["lead-off"], part="key", fasteners=(fastener("flywheel-key", thread=""),))
    assert assembly_problems(replace(machine(LEAD, key), targets={target: "key-out"})) == problems


def test_a_machine_without_a_plug_lead_step_is_no_safe_model():
    assert "no step takes the “plug-lead” off" in assembly_problems(machine(operation("a")))
