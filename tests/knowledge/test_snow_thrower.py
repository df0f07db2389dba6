"""What the pack for snow throwers must hold, and what it makes of stories a shop knows."""

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
PACK = LIBRARY.packs["snow-thrower"]
COMPILED = compile_pack(PACK)
COMPLAINTS = tuple(one.id for one in PACK.complaints)
CHECKS = {check.id: check for check in PACK.checks}


def test_knows_the_complaints_people_come_in_with():
    assert set(COMPLAINTS) >= {
        "wont-start",
        "auger-wont-turn",
        "wont-drive",
        "throws-badly",
        "wont-stop",
        "leaks",
        "cord-wont-pull",
        "vibrates",
    }


@pytest.mark.parametrize(
    ("complaint", "found", "cause"),
    [
        ("auger-wont-turn", [("shear-pin-look", "broken")], "shear-pin-broken"),
        ("auger-wont-turn", [("shear-pin-look", "whole"), ("auger-belt-look", "off")], "auger-belt-off"),
        ("auger-wont-turn", [("shear-pin-look", "whole"), ("turn-impeller", "fast")], "auger-jammed"),
        ("auger-wont-turn", [("shear-pin-look", "whole"), ("turn-impeller", "auger-stands")], "gearbox-stripped"),
        ("auger-wont-turn", [("auger-belt-look", "good"), ("lever-play", "slack")], "lever-cable-slack"),
        ("wont-drive", [("friction-look", "worn")], "friction-wheel-worn"),
        ("wont-drive", [("friction-look", "oily")], "friction-wheel-oily"),
        ("wont-drive", [("push-engaged", "free")], "wheel-pin"),
        ("wont-stop", [("stops-on-release", "wheels"), ("friction-gap", "touches")], "drive-stuck-on"),
        ("wont-stop", [("stops-on-release", "auger"), ("brake-look", "off")], "auger-brake"),
        ("wont-stop", [("stops-on-release", "auger"), ("lever-return", "slow")], "lever-cable-stuck"),
        ("throws-badly", [("what-it-cleared", "light"), ("impeller-gap", "wide")], "impeller-worn"),
        ("starts-then-dies", [("heater-box-look", "off"), ("ice-look", "frost")], "carburettor-iced"),
        ("vibrates", [("auger-look", "rubs")], "impeller-bent"),
        ("wont-start", [("safety-key", "out")], "key-out"),
        ("electric-start-dead", [("start-button", "spins")], "start-pinion-stuck"),
        ("electric-start-dead", [("start-button", "silent"), ("mains-cord-measure", "broken")], "mains-cord-bad"),
        ("leaks", [("what-leaks", "petrol"), ("fuel-where", "bowl")], "bowl-gasket"),
        ("leaks", [("what-leaks", "petrol"), ("fuel-where", "throat")], "float-needle-leaking"),
    ],
)
def test_a_plain_finding_points_at_its_cause(complaint, found, cause):
    assert likeliest(belief_of(COMPILED, complaint, *(Found(*one) for one in found))) == cause


def test_an_auger_that_stands_is_first_asked_about_or_looked_at_without_tools():
    step = first_step(COMPILED, "auger-wont-turn")
    assert step.kind == "check"
    assert step.minutes + step.access_minutes <= 3


def test_after_something_hard_went_in_somebody_looks_into_the_housing_before_it_is_run():
    assert first_step(COMPILED, "auger-wont-turn", Found("hit-something", "yes")).id == "auger-look"


def test_a_jam_is_cleared_before_anything_is_run():
    step = first_step(COMPILED, "throws-badly", Found("auger-look", "jammed"))
    assert step.id == "free-auger"


@pytest.mark.parametrize(
    ("check", "result"),
    [
        ("stops-on-release", "auger"),
        ("stops-on-release", "wheels"),
        ("lever-return", "slow"),
        ("tool-stop-time", "long"),
        ("auger-look", "jammed"),
        ("friction-gap", "touches"),
        ("leaks", "line"),
    ],
)
def test_a_dangerous_finding_forbids_running(check, result):
    assert next(one for one in CHECKS[check].results if one.id == result).forbids_running


def test_the_plug_lead_is_off_before_a_hand_goes_near_auger_or_belts():
    assert without_lead(PACK, {"auger-stores-energy", "tool-turns", "belt-draws-in"}) == []


def test_whoever_opens_the_belt_cover_or_the_auger_is_warned():
    assert without_hazard(PACK, {"belt-cover-off"}, {"belt-draws-in"}) == []
    assert without_hazard(PACK, {"auger-housing-off", "gearbox-out"}, {"auger-stores-energy", "tool-turns"}) == []


def test_the_auger_is_cleared_with_a_tool():
    clearing = [one for one in PACK.repairs if one.id in {"free-auger", "clear-chute"}]
    assert all("clean-out tool" in one.tools and "auger-stores-energy" in one.hazards for one in clearing)
    assert "never a hand" in LIBRARY.hazards["auger-stores-energy"].control


def test_the_mains_cord_is_out_before_a_hand_goes_near_the_start_motor():
    near = [one for one in (*PACK.checks, *PACK.repairs) if "start motor" in one.words.lower()]
    assert near
    assert [one.id for one in near if "mains-start" not in one.hazards] == []


def test_every_run_is_sent_outdoors():
    assert [check.id for check in PACK.checks if check.runs_engine and "run-outdoors" not in check.hazards] == []
