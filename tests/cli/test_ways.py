"""``bellcrank way-in`` and ``way-out``."""

import json
from dataclasses import replace

import pytest
from tests.teardown.small_models import machine, operation

from bellcrank.errors import NotFound
from bellcrank.shop.work import assembly_with


def test_a_way_in_needs_no_job_and_says_whether_a_shorter_one_may_exist(run):
    told = json.loads(run("way-in", "walk-behind-mower", "--to", "key", "--json").out)
    assert told["steps"][0]["do"].startswith("Pull the plug lead off")
    assert {"do", "part", "tool", "minutes", "fasteners", "cautions"} <= told["steps"][-1].keys()
    assert told["steps"][-1]["part"] == "key"
    assert told["proven"] is (told["minutes"] - told["bound"] < 1e-9)
    work = sum(step["minutes"] for step in told["steps"])
    assert abs(told["work_minutes"] + told["changeover_minutes"] - told["minutes"]) < 1e-9
    assert abs(work - told["work_minutes"]) < 1e-9


def test_two_parts_are_got_at_on_one_way(run):
    told = json.loads(run("way-in", "walk-behind-mower", "--to", "key", "--to", "blade", "--json").out)
    parts = [step["part"] for step in told["steps"]]
    assert {"key", "blade"} <= set(parts)
    assert parts.count("plug-lead") == 1


def test_a_fastener_may_be_named_for_what_it_holds(run):
    told = json.loads(run("way-in", "walk-behind-mower", "--to", "flywheel-key", "--json").out)
    assert told["targets"] == ["key"]
    assert told["steps"][-1]["fasteners"][0]["fastener"]["id"] == "flywheel-key"


def test_a_tool_that_is_not_here_is_said_before_anything_is_opened(run):
    run("tools", "--lacking", "flywheel puller")
    told = run("way-in", "walk-behind-mower", "--to", "key").out
    assert told.index("not in this shop: flywheel puller. Borrow or hire") < told.index("Pull the plug lead off")
    fetch = json.loads(run("way-in", "walk-behind-mower", "--to", "key", "--json").out)["fetch"]
    assert (fetch[0]["tool"], fetch[0]["here"]) == ("flywheel puller", False)
    assert all(one["here"] for one in fetch[1:])


def test_a_part_and_a_kind_nobody_knows_are_refused_with_those_there_are(refused):
    assert "no way in to “gearbox”" in refused("way-in", "walk-behind-mower", "--to", "gearbox")
    assert "There is no kind of machine “boat”" in refused("way-in", "boat", "--to", "key")


def test_the_way_back_has_a_torque_and_counts_the_tray(run):
    run("take-in", "kicks back")
    run("steps", "201", "--to", "key")
    told = json.loads(run("way-out", "201", "--json").out)
    assert told["steps"][-1]["part"] == "plug-lead"
    assert told["on_the_tray"] == 0
    assert any(one["torque"] for step in told["steps"] for one in step["fasteners"])


def test_a_job_without_a_way_in_is_told_how_to_get_one(run, refused):
    run("take-in", "kicks back")
    assert "Choose a part with: bellcrank steps 201 --to PART" in refused("way-out", "201")


def test_corrosion_forbids_the_impact_wrench_and_the_blade_is_held(run):
    free = json.loads(run("way-in", "walk-behind-mower", "--to", "blade", "--json").out)
    assert "impact wrench" in {step["tool"] for step in free["steps"]}
    rusty = json.loads(
        run("way-in", "walk-behind-mower", "--to", "blade", "--found", "blade-bolt-out=corroded", "--json").out
    )
    assert "blade-blocked" in {step["operation"] for step in rusty["steps"]}
    impact = next(one for one in rusty["others"] if "impact" in one["instead"])
    assert (impact["more"], impact["says"]) == (None, "Not while it is corroded.")


def test_another_way_named_with_without_takes_the_minutes_that_were_told(run):
    free = json.loads(run("way-in", "walk-behind-mower", "--to", "blade", "--json").out)
    held = next(
        one for one in free["others"] if "held with wood" in one["instead"] and "gripping" not in one["instead"]
    )
    without = [part for name in held["barred"] for part in ("--without", name)]
    other = json.loads(run("way-in", "walk-behind-mower", "--to", "blade", *without, "--json").out)
    assert abs(other["minutes"] - free["minutes"] - held["more"]) < 1e-9
    assert "blade-blocked" in {step["operation"] for step in other["steps"]}


def test_a_tool_that_is_not_here_is_planned_around_and_said_what_it_would_save(run):
    run("tools", "--lacking", "impact wrench")
    told = json.loads(run("way-in", "walk-behind-mower", "--to", "blade", "--json").out)
    assert "impact wrench" not in {step["tool"] for step in told["steps"]}
    assert told["quicker"].startswith("With an impact wrench it would take 1 min less. Borrow or hire")


def test_what_was_found_must_be_one_of_the_conditions(refused):
    assert "like nut-off=corroded" in refused("way-in", "walk-behind-mower", "--to", "key", "--found", "nut-off=odd")


def test_a_job_is_planned_anew_without_what_is_left_out_on_purpose(run):
    run("take-in", "kicks back")
    run("steps", "201", "--to", "blade")
    told = json.loads(run("other-ways", "201", "--json").out)
    held = next(one for one in told["lines"] if one["barred"] and "blade held with wood" in one["instead"])
    without = [part for name in held["barred"] for part in ("--without", name)]
    work = json.loads(run("steps", "201", *without, "--json").out)["work"]
    assert "blade-blocked" in {step["operation"] for step in work["steps_in"]}
    again = json.loads(run("other-ways", "201", "--json").out)
    assert set(again["barred"]) == set(held["barred"])
    assert again["left_out"]


def test_every_step_but_what_is_to_be_got_at_says_what_it_is_done_for(run):
    steps = json.loads(run("way-in", "walk-behind-mower", "--to", "key", "--json").out)["steps"]
    assert [step["part"] for step in steps if not step["why"]] == ["key"]
    assert "why: It " in run("way-in", "walk-behind-mower", "--to", "key").out


def test_without_a_part_it_lists_those_there_are(run):
    told = json.loads(run("way-in", "snow-thrower", "--json").out)
    assert told["parts"] == sorted(told["parts"])
    assert {"shear-pins", "friction-wheel", "carburettor"} <= set(told["parts"])


def test_a_part_that_is_not_there_is_answered_with_the_nearest_names(refused):
    said = refused("way-in", "snow-thrower", "--to", "friction-disc")
    assert "The names nearest to it: friction-wheel" in said


def test_parts_of_two_drawings_are_got_at_one_after_the_other():
    drawn, recorded = (replace(machine(operation(name)), id=name) for name in ("hood", "flap"))
    with pytest.raises(NotFound, match=r"No one drawing of this machine has “hood” and “flap”\. Choose them one"):
        assembly_with((drawn, recorded), ("hood", "flap"))


def test_the_way_back_says_whether_a_shorter_one_may_exist(run):
    run("take-in", "kicks back")
    run("steps", "201", "--to", "blade")
    told = json.loads(run("way-out", "201", "--json").out)
    assert told["bound"] <= told["minutes"] + 1e-9
    assert told["proven"] is (told["minutes"] - told["bound"] < 1e-9)
