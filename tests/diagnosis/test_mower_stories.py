"""Stories of mowers, each with the answer a mechanic would expect; the answers are common practice."""

import pytest

from bellcrank.diagnosis.allowed import checks_left
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found
from bellcrank.diagnosis.network import NOT_LISTED, compile_pack
from bellcrank.diagnosis.next_step import rank
from bellcrank.knowledge.pack import read_library

PACK = read_library().packs["walk-behind-mower"]
COMPILED = compile_pack(PACK)
CHECKS = {check.id: check for check in PACK.checks}


def told(complaint, *pairs):
    return Case((complaint,), tuple(Found(*pair.split("=")) for pair in pairs))


@pytest.mark.parametrize(
    ("complaint", "found", "cause"),
    [
        ("fuel-leak", ("fuel-where=throat",), "float-needle-leaking"),
        ("fuel-leak", ("leaks=carburettor", "tap-bowl=changes"), "float-needle-leaking"),
        ("fuel-leak", ("leaks=carburettor", "fuel-where=bowl"), "bowl-gasket"),
        ("fuel-leak", ("leaks=line", "fuel-where=line"), "fuel-line-cracked"),
        ("fuel-leak", ("fuel-where=tank",), "tank-leaking"),
        ("uses-oil", ("leaks=oil", "oil-where=output"), "crank-seal-output"),
        ("uses-oil", ("oil-where=joint",), "sump-leaking"),
        ("uses-oil", ("leaks=dry", "smoke-watch=shut", "read-plug=oily"), "guide-seal-worn"),
        ("uses-oil", ("leaks=dry", "smoke-watch=load", "oil-in-cylinder=rises"), "rings-worn"),
        ("wont-drive", ("drive-belt-look=off",), "drive-belt-off"),
        ("wont-drive", ("drive-how=weak", "drive-belt-look=worn"), "drive-belt-worn"),
        ("wont-drive", ("drive-cable-play=slack", "drive-belt-look=good"), "drive-cable-slack"),
        ("wont-drive", ("drive-belt-look=good", "drive-cable-play=tight", "wheel-gear-look=worn"), "wheel-gear-worn"),
        ("wont-drive", ("drive-belt-look=good", "gear-case-turn=nothing"), "gear-case-stripped"),
        ("wont-drive", ("drive-how=stays", "push-released=drags", "drive-cable-play=tight"), "drive-stuck-on"),
        ("wont-drive", ("drive-idler-feel=bad",), "drive-idler-bad"),
        ("electric-start-dead", ("battery-volts=flat",), "battery-flat"),
        ("electric-start-dead", ("battery-volts=good", "start-drop=solenoid"), "start-solenoid"),
        ("electric-start-dead", ("start-button=spins",), "start-pinion-stuck"),
        ("electric-start-dead", ("battery-volts=good", "start-switch-measure=bad"), "start-switch-bad"),
        ("electric-start-dead", ("battery-volts=flat", "charge-volts=stays", "post-look=tight"), "charge-dead"),
        ("kicks-back", ("hit-something=yes", "blade-look=nicked"), "key-sheared"),
        ("kicks-back", ("blade-look=loose", "key-look=lined-up"), "blade-loose"),
        ("vibrates", ("hit-something=yes", "blade-look=bent", "crank-runout=steady"), "blade-bent"),
        ("vibrates", ("hit-something=yes", "tip-track=differ", "crank-runout=wobbles"), "crank-bent"),
        ("vibrates", ("spindle-rock=play", "blade-look=sound"), "spindle-bearing"),
        ("no-power", ("plug-hold=loose", "noises=hiss", "slow-pull=hiss"), "head-gasket"),
        ("wont-start", ("plug-hold=loose", "slow-pull=hiss", "worked-on=yes"), "plug-thread"),
        ("wont-start", ("spark-tester=weak", "points-look=burnt"), "points-bad"),
        ("wont-start", ("slow-pull=none", "valve-timing=off", "rocker-look=equal"), "cam-gear"),
        ("hunts", ("top-speed=high", "governor-push=slack", "worked-on=no", "governor-look=right"), "governor-gear"),
        ("hunts", ("air-vane=stuck", "hold-throttle=steady", "governor-arm=sticks"), "air-vane-stuck"),
        ("starts-then-dies", ("inline-spark=stops", "hot-or-cold=hot"), "coil-dead"),
        ("smokes", ("smoke=blue-start", "tipped-over=yes"), "tipped-wrong"),
    ],
)
def test_a_plain_story_points_at_its_cause(complaint, found, cause):
    blocking = believe(COMPILED, told(complaint, *found)).blocking
    assert max(blocking, key=lambda name: blocking[name]) == cause


def test_a_strike_makes_key_blade_adapter_crank_and_bolts_likelier():
    before = believe(COMPILED, told("vibrates")).now
    after = believe(COMPILED, told("vibrates", "hit-something=yes")).now
    for cause in ("key-sheared", "blade-bent", "blade-loose", "crank-bent", "mounts-loose"):
        assert after[cause] > before[cause], cause


def test_after_a_strike_nothing_is_run_until_the_blade_was_looked_at():
    left = checks_left(COMPILED, told("vibrates", "hit-something=yes"))
    assert not any(check.runs_engine or check.tries_to_start for check in left)
    seen = checks_left(COMPILED, told("vibrates", "hit-something=yes", "blade-look=sound"))
    assert any(check.runs_engine for check in seen)


def test_a_leak_of_fuel_is_looked_at_before_anything_is_taken_off_or_run():
    step = rank(COMPILED, believe(COMPILED, told("fuel-leak")))[0]
    assert step.kind == "check"
    assert step.access_minutes == 0
    assert not any((CHECKS[step.id].runs_engine, CHECKS[step.id].tries_to_start))


def test_a_drive_that_fails_is_first_asked_about_or_tried_by_hand_with_the_covers_on():
    step = rank(COMPILED, believe(COMPILED, told("wont-drive")))[0]
    assert step.kind == "check"
    assert step.access_minutes == 0


def test_findings_that_fit_nothing_leave_something_that_is_not_on_the_list():
    sound = [f"{name}={CHECKS[name].results[0].id}" for name in ("drive-belt-look", "drive-cable-play", "drive-run")]
    case = told("wont-drive", *sound, "wheel-gear-look=good", "gear-case-turn=turns", "drive-idler-feel=free")
    before = believe(COMPILED, told("wont-drive")).blocking[NOT_LISTED]
    assert believe(COMPILED, case).blocking[NOT_LISTED] > 3 * before
