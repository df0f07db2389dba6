"""What the pack for generators must hold, and what it makes of stories a shop knows."""

import pytest

from bellcrank.diagnosis.case import Found
from bellcrank.diagnosis.network import compile_pack
from bellcrank.knowledge.pack import read_library

from .kind_rules import (
    belief_of,
    first_step,
    likeliest,
)

LIBRARY = read_library()
PACK = LIBRARY.packs["generator"]
COMPILED = compile_pack(PACK)
COMPLAINTS = tuple(one.id for one in PACK.complaints)
CHECKS = {check.id: check for check in PACK.checks}


def test_knows_the_complaints_people_come_in_with():
    assert set(COMPLAINTS) >= {
        "wont-start",
        "starts-then-dies",
        "hunts",
        "no-output",
        "low-voltage",
        "voltage-hunts",
        "trips",
        "bogs-down",
        "leaks",
        "vibrates",
    }


@pytest.mark.parametrize(
    ("complaint", "found", "cause"),
    [
        ("no-output", [("output-bare", "residual")], "residual-lost"),
        ("no-output", [("stood-unused", "yes"), ("brush-look", "good")], "residual-lost"),
        ("no-output", [("flash-test", "comes")], "residual-lost"),
        ("no-output", [("breaker-look", "tripped")], "breaker-off"),
        ("no-output", [("output-bare", "residual"), ("brush-look", "brushes")], "brushes-worn"),
        ("no-output", [("output-bare", "residual"), ("capacitor-measure", "low")], "capacitor-dead"),
        ("no-output", [("flash-test", "same"), ("brush-look", "good"), ("rotor-resistance", "wrong")], "rotor-open"),
        (
            "no-output",
            [("output-bare", "none"), ("inverter-input", "alike"), ("lamps-look", "overload")],
            "inverter-dead",
        ),
        ("no-output", [("other-outlet", "one-dead"), ("outlet-look", "burnt")], "outlet-burnt"),
        ("low-voltage", [("frequency-bare", "low")], "governor-spring"),
        ("low-voltage", [("frequency-bare", "right"), ("capacitor-measure", "low")], "capacitor-dead"),
        ("voltage-hunts", [("frequency-bare", "right"), ("brush-look", "rings")], "slip-rings-dirty"),
        ("voltage-hunts", [("frequency-bare", "swings"), ("half-choke", "smooth")], "idle-circuit-blocked"),
        ("trips", [("lamp-load", "lamp-good"), ("cord-measure", "leaks")], "cord-or-tool-bad"),
        ("trips", [("what-was-plugged", "too-much")], "overloaded"),
        ("trips", [("unplug-all", "bare-trips"), ("insulation", "leaks")], "winding-to-frame"),
        ("trips", [("house-wiring", "fed"), ("bond-measure", "other")], "neutral-bond-wrong"),
        ("wont-start", [("levels", "slope"), ("spark-tester", "none")], "oil-switch-unlevel"),
        ("starts-then-dies", [("where-it-ran", "closed"), ("lamps-look", "carbon-monoxide")], "ran-in-closed-air"),
        ("vibrates", [("mount-feel", "torn")], "vibration-mounts"),
        ("electric-start-dead", [("battery-volts", "flat")], "battery-flat"),
        ("electric-start-dead", [("battery-volts", "flat"), ("charge-volts", "stays")], "charge-dead"),
        ("electric-start-dead", [("battery-volts", "good"), ("start-drop", "solenoid")], "start-solenoid"),
        ("leaks", [("what-leaks", "petrol"), ("fuel-where", "line")], "fuel-line-cracked"),
        ("leaks", [("what-leaks", "oil"), ("oil-where", "joint")], "sump-leaking"),
    ],
)
def test_a_plain_finding_points_at_its_cause(complaint, found, cause):
    assert likeliest(belief_of(COMPILED, complaint, *(Found(*one) for one in found))) == cause


def test_without_power_the_first_step_is_a_cheap_check():
    step = first_step(COMPILED, "no-output")
    assert step.kind == "check"
    assert step.minutes + step.access_minutes <= 4


@pytest.mark.parametrize(
    ("check", "result"),
    [
        ("lamps-look", "carbon-monoxide"),
        ("co-label", "old"),
        ("where-it-ran", "closed"),
        ("outlet-look", "burnt"),
        ("panel-look", "loose"),
        ("insulation", "leaks"),
        ("stator-resistance", "to-frame"),
        ("output-bare", "high"),
        ("frequency-bare", "high"),
        ("leakage-button", "fails"),
        ("leaks", "line"),
    ],
)
def test_a_dangerous_finding_forbids_running(check, result):
    assert next(one for one in CHECKS[check].results if one.id == result).forbids_running


def test_panel_and_windings_are_opened_only_stopped_with_the_lead_off():
    opened = [one for one in (*PACK.checks, *PACK.repairs) if {"panel-off", "end-cover-off"} & set(one.access)]
    at_rest = [one for one in opened if not getattr(one, "runs_engine", False)]
    assert at_rest
    assert [
        one.id for one in at_rest if "generator-stopped" not in one.hazards or "plug lead" not in one.off_first
    ] == []


def test_whoever_measures_a_running_generator_is_warned_that_it_kills():
    measured = [check for check in PACK.checks if check.runs_engine and {"meter", "lamp"} & set(check.tools)]
    assert measured
    assert [check.id for check in measured if "generator-live" not in check.hazards] == []


def test_whoever_handles_a_capacitor_is_told_to_empty_it():
    handled = [one for one in (*PACK.checks, *PACK.repairs) if "capacitor" in one.words]
    assert handled
    assert [one.id for one in handled if "capacitor-charged" not in one.hazards] == []


def test_the_field_is_flashed_only_at_rest_with_its_own_caution():
    flashing = [
        one for one in (*PACK.checks, *PACK.repairs) if "battery on the brushes" in one.words or "flash" in one.id
    ]
    assert {one.id for one in flashing} == {"flash-test", "flash-field"}
    assert all("field-flash" in one.hazards and "topped" in one.words for one in flashing)
    assert "never the mains" in LIBRARY.hazards["field-flash"].control


def test_house_wiring_and_insulation_are_left_to_licensed_people():
    assert "licensed electrician" in LIBRARY.hazards["back-feed"].control
    assert "licensed electrician" in LIBRARY.hazards["insulation-licensed"].control
    assert "back-feed" in CHECKS["house-wiring"].hazards
    assert "insulation-licensed" in CHECKS["insulation"].hazards


def test_the_carbon_monoxide_shut_off_is_never_bridged():
    module = [one for one in (*PACK.checks, *PACK.repairs) if one.id in {"co-label", "co-module"}]
    assert all("co-not-bypassed" in one.hazards for one in module)


def test_every_run_is_sent_outdoors():
    assert [check.id for check in PACK.checks if check.runs_engine and "run-outdoors" not in check.hazards] == []
