"""The checker: it finds what is wrong with plans and with models."""

from dataclasses import replace

import pytest

from bellcrank.sources import Basis, Origin
from bellcrank.teardown.legality import assembly_problems, back_problems, plan_problems

from .small_models import fastener, machine, method, operation

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


def test_a_target_is_the_part_its_step_frees():
    wrong = replace(MOWER, targets={"crank": "tank-off"})
    assert assembly_problems(wrong) == ["target “crank” is freed by “tank-off”, which frees “tank-off”"]


def test_the_plug_lead_waits_for_nothing():
    waiting = machine(operation("cover-off"), operation("lead-off", ["cover-off"], part="plug-lead"))
    assert "“lead-off” takes the plug lead off and waits for another step" in assembly_problems(waiting)


def test_a_machine_without_a_plug_lead_step_is_no_safe_model():
    assert "no step takes the “plug-lead” off" in assembly_problems(machine(operation("a")))


def test_a_blade_that_was_not_blocked_must_say_how_its_bolt_goes_back():
    blocked = operation("blocked", ["lead-off"], kind="make-safe")
    impact = method("impact", needs=(("lead-off",),))
    bolt = operation("bolt-out", ["blocked"], turns_crank=True, words="held", methods=(impact,))
    assert assembly_problems(machine(LEAD, blocked, bolt)) == [
        "“bolt-out” by “impact” is not made safe as usual and does not say how it goes back"
    ]
    told = replace(bolt, methods=(replace(impact, undo="Block the blade, tighten the bolt, take the wood out"),))
    assert assembly_problems(machine(LEAD, blocked, told)) == []
    assert (
        back_problems(machine(LEAD, blocked, told), ["lead-off", ("bolt-out", "impact")], ["bolt-out", "lead-off"])
        == []
    )


BLADE = machine(
    LEAD,
    operation("block-in", ["lead-off"]),
    operation("blade-off", ["block-in"], turns_crank=True, methods=(method("impact", ["lead-off"], turns_crank=True),)),
)


def test_a_step_done_another_way_is_held_to_what_that_way_needs():
    assert plan_problems(BLADE, ["lead-off", ("blade-off", "impact")]) == []
    assert plan_problems(BLADE, ["lead-off", "blade-off"]) == ["“blade-off” before any of block-in"]
    assert "turns the engine" in " ".join(plan_problems(BLADE, [("blade-off", "impact")]))


def test_a_step_done_another_way_goes_back_by_what_that_way_needed():
    assert back_problems(BLADE, ["lead-off", ("blade-off", "impact")], ["blade-off", "lead-off"]) == []
    assert back_problems(BLADE, ["lead-off", ("blade-off", "impact")], ["lead-off", "blade-off"]) == [
        "“lead-off” back while “blade-off” is still off",
        "“lead-off” back before blade-off",
    ]


def test_only_a_screw_recorded_at_the_bench_may_say_nothing_of_what_it_is_made_of():
    bare = fastener(strength="", into="", under_head="", engaged_mm=None)
    drawn = machine(LEAD, operation("cover-off", ["lead-off"], fasteners=(bare,)))
    assert assembly_problems(drawn) == [
        "fastener “bolts” screws into nothing",
        "fastener “bolts” presses on nothing",
    ]
    assert assembly_problems(replace(drawn, origin=Origin(Basis.OWN_SHOP, "recorded"))) == []
