"""What the pack for tillers must hold, and what it makes of stories a shop knows."""

import pytest

from bellcrank.diagnosis.case import Found
from bellcrank.diagnosis.network import compile_pack
from bellcrank.knowledge.pack import read_library

from .kind_rules import (
    belief_of,
    first_step,
    likeliest,
    without_hazard,
    without_lead,
)

LIBRARY = read_library()
PACK = LIBRARY.packs["tiller"]
COMPILED = compile_pack(PACK)
COMPLAINTS = tuple(one.id for one in PACK.complaints)
CHECKS = {check.id: check for check in PACK.checks}


def test_knows_the_complaints_people_come_in_with():
    assert set(COMPLAINTS) >= {
        "wont-start",
        "tines-wont-turn",
        "wont-drive",
        "digs-badly",
        "wont-stop",
        "leaks",
        "cord-wont-pull",
        "vibrates",
    }


@pytest.mark.parametrize(
    ("complaint", "found", "cause"),
    [
        ("tines-wont-turn", [("belt-look", "off")], "tine-belt-off"),
        ("tines-wont-turn", [("belt-look", "worn"), ("lever-play", "tight")], "tine-belt-worn"),
        ("tines-wont-turn", [("belt-look", "good"), ("lever-play", "slack")], "lever-cable-slack"),
        ("tines-wont-turn", [("shear-pin-look", "broken")], "shear-pin-broken"),
        ("tines-wont-turn", [("belt-look", "good"), ("turn-tines", "fast")], "tines-jammed"),
        (
            "tines-wont-turn",
            [("belt-look", "good"), ("shear-pin-look", "whole"), ("tine-rock", "tight"), ("turn-tines", "freewheels")],
            "gearbox-stripped",
        ),
        ("wont-drive", [("what-works", "reverse")], "reverse-belt"),
        ("wont-drive", [("wheel-look", "pin")], "wheel-pin"),
        ("digs-badly", [("what-ground", "bed"), ("tine-look", "wrong-way")], "tines-wrong-way"),
        ("digs-badly", [("tine-measure", "short")], "tines-worn"),
        ("digs-badly", [("depth-look", "wrong")], "depth-stake"),
        ("wont-stop", [("stops-on-release", "tines"), ("idler-move", "stuck")], "idler-stuck"),
        ("wont-stop", [("stops-on-release", "wheels"), ("reverse-look", "stays")], "reverse-stuck-on"),
        ("leaks", [("gearbox-wet", "wet")], "gearbox-seal"),
        ("vibrates", [("tine-runout", "differ"), ("tine-rock", "tight")], "tine-bent"),
    ],
)
def test_a_plain_finding_points_at_its_cause(complaint, found, cause):
    assert likeliest(belief_of(COMPILED, complaint, *(Found(*one) for one in found))) == cause


def test_tines_that_stand_are_first_asked_about_or_looked_at_without_tools():
    step = first_step(COMPILED, "tines-wont-turn")
    assert step.kind == "check"
    assert step.minutes + step.access_minutes <= 3


def test_after_a_hit_the_tines_are_looked_at_before_anything_runs():
    assert first_step(COMPILED, "vibrates", Found("hit-something", "yes")).id == "tine-look"


def test_tines_that_go_on_are_put_right_before_anything_runs():
    step = first_step(COMPILED, "wont-stop", Found("stops-on-release", "tines"))
    assert not CHECKS[step.id].runs_engine if step.kind == "check" else step.id in {"lever-cable", "free-idler"}


@pytest.mark.parametrize(
    ("check", "result"),
    [
        ("stops-on-release", "tines"),
        ("stops-on-release", "wheels"),
        ("lever-return", "slow"),
        ("tine-run", "goes-on"),
        ("reverse-run", "goes-on"),
        ("tine-look", "bent"),
        ("guard-look", "bent"),
        ("leaks", "line"),
    ],
)
def test_a_dangerous_finding_forbids_running(check, result):
    assert next(one for one in CHECKS[check].results if one.id == result).forbids_running


def test_the_plug_lead_is_off_before_a_hand_goes_near_tines_or_belts():
    assert without_lead(PACK, {"tool-turns", "belt-draws-in"}) == []


def test_whoever_opens_the_belt_cover_or_takes_the_tines_off_is_warned():
    assert without_hazard(PACK, {"belt-cover-off"}, {"belt-draws-in"}) == []
    assert without_hazard(PACK, {"tines-off", "gearbox-out"}, {"tool-turns"}) == []


def test_whoever_runs_the_tines_is_warned_of_them():
    running = [check for check in PACK.checks if check.runs_engine and "tine" in check.words.lower()]
    assert running
    assert [check.id for check in running if "tines-run" not in check.hazards] == []


def test_every_run_is_sent_outdoors():
    assert [check.id for check in PACK.checks if check.runs_engine and "run-outdoors" not in check.hazards] == []
