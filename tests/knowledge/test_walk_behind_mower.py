"""What the pack for walk-behind mowers must hold, whoever edits its tables."""

import pytest

from bellcrank.knowledge.computed_likelihoods import SOURCE
from bellcrank.knowledge.model import Cause, Check, CheckKind, Library, Pack, Repair, Signal
from bellcrank.knowledge.pack import read_library
from bellcrank.sources import Basis, Status

NEAR_THE_BLADE = {"deck-under", "blade-off", "sump-off", "output-free"}


@pytest.fixture(scope="module")
def library() -> Library:
    return read_library()


@pytest.fixture(scope="module")
def pack(library: Library) -> Pack:
    return library.packs["walk-behind-mower"]


@pytest.fixture(scope="module")
def causes(pack: Pack) -> dict[str, Cause]:
    return {cause.id: cause for cause in pack.causes}


@pytest.fixture(scope="module")
def checks(pack: Pack) -> dict[str, Check]:
    return {check.id: check for check in pack.checks}


def test_knows_at_least_seventy_five_causes_and_a_hundred_checks(pack: Pack):
    assert len(pack.causes) >= 75
    assert len(pack.checks) >= 100


def test_has_checks_of_every_kind(pack: Pack):
    assert {check.kind for check in pack.checks} == set(CheckKind)


def test_knows_the_complaints_people_come_in_with(pack: Pack):
    known = {complaint.id for complaint in pack.complaints}
    assert known >= {
        "wont-start",
        "kicks-back",
        "starts-then-dies",
        "hunts",
        "no-power",
        "vibrates",
        "wont-stop",
        "cord-wont-pull",
        "smokes",
        "uses-oil",
        "fuel-leak",
        "wont-drive",
    }


def test_takes_in_the_facts_a_customer_can_tell(pack: Pack):
    told = {check.id for check in pack.checks if check.story}
    assert told >= {"hit-something", "sat-over-winter", "ran-out-of-fuel", "tipped-over", "worked-on"}


def test_no_run_is_asked_of_a_machine_that_cannot_run_or_will_not_stop(pack: Pack):
    quiet = {complaint.id for complaint in pack.complaints if not complaint.engine_runs}
    assert quiet >= {"wont-start", "kicks-back", "cord-wont-pull", "wont-stop"}


# How often a cause is behind a complaint: the trade's frequency table, from memory, as the reference of this project
# gives it; no public count of such faults was found.
@pytest.mark.parametrize(
    ("complaint", "cause", "percent"),
    [
        ("wont-start", "stale-fuel", 22),
        ("wont-start", "coil-dead", 5),
        ("wont-start", "key-sheared", 4),
        ("starts-then-dies", "main-jet-blocked", 22),
        ("hunts", "idle-circuit-blocked", 33),
        ("hunts", "air-leak", 10),
        ("kicks-back", "key-sheared", 45),
        ("kicks-back", "blade-loose", 15),
        ("kicks-back", "flywheel-loose", 10),
        ("no-power", "blade-blunt", 9),
        ("vibrates", "blade-bent", 48),
        ("vibrates", "crank-bent", 18),
        ("wont-stop", "stop-circuit-open", 60),
        ("cord-wont-pull", "recoil-spring", 22),
        ("fuel-leak", "float-needle-leaking", 42),
        ("uses-oil", "rings-worn", 22),
        ("wont-drive", "wheel-gear-worn", 20),
    ],
)
def test_keeps_the_shares_of_the_trade_s_table(causes: dict[str, Cause], complaint: str, cause: str, percent: float):
    assert causes[cause].shares[complaint] == pytest.approx(percent / 100)


def test_leaves_room_for_what_is_not_on_the_list(pack: Pack):
    for complaint in pack.complaints:
        assert sum(cause.shares.get(complaint.id, 0) for cause in pack.causes) < 1


def test_says_that_likelihoods_are_guesses_from_memory_or_computed_pulls(library: Library, pack: Pack):
    origins = {row.origin for check in pack.checks for row in check.likelihoods}
    assert {origin.basis for origin in origins if origin.source != SOURCE} == {Basis.GUESS}
    assert {origin.basis for origin in origins if origin.source == SOURCE} == {Basis.COMPUTED}
    assert {library.sources[origin.source].status for origin in origins} <= {
        Status.FROM_MEMORY,
        Status.COMMON_PRACTICE,
    }


def test_a_strike_brings_about_key_blade_adapter_and_crank_damage(pack: Pack):
    brought = {link.consequence for link in pack.links if link.root == "strike"}
    assert brought >= {"key-sheared", "blade-bent", "blade-loose", "crank-bent", "mounts-loose"}


def test_a_strike_is_an_event_that_nothing_repairs(pack: Pack, causes: dict[str, Cause]):
    assert causes["strike"].repair is None
    assert not any("strike" in repair.fixes for repair in pack.repairs)


@pytest.mark.parametrize(
    ("check", "result"),
    [
        ("blade-look", "cracked"),
        ("blade-look", "loose"),
        ("blade-look", "bent"),
        ("key-look", "offset"),
        ("leaks", "line"),
        ("stops-on-release", "no"),
        ("crank-runout", "wobbles"),
        ("stop-time", "long"),
        ("spindle-rock", "play"),
        ("deck-look", "cracked"),
        ("drive-run", "goes-on"),
        ("fuel-where", "line"),
    ],
)
def test_a_dangerous_finding_forbids_running(checks: dict[str, Check], check: str, result: str):
    assert next(one for one in checks[check].results if one.id == result).forbids_running


def test_every_run_is_sent_outdoors(pack: Pack):
    assert [check.id for check in pack.checks if check.runs_engine and "run-outdoors" not in check.hazards] == []


def near_the_blade(pack: Pack) -> list[Check | Repair]:
    return [one for one in (*pack.checks, *pack.repairs) if NEAR_THE_BLADE & set(one.access)]


def test_the_plug_lead_is_off_before_a_hand_goes_near_the_blade(pack: Pack):
    assert [one.id for one in near_the_blade(pack) if "plug lead" not in one.off_first] == []


def test_whoever_goes_near_the_blade_is_warned_of_it(pack: Pack):
    assert [one.id for one in near_the_blade(pack) if not {"blade-turns", "sharp-blade"} <= set(one.hazards)] == []


def test_the_plug_lead_is_off_before_the_flywheel_comes_off(pack: Pack):
    flywheel = {"flywheel-nut-off", "flywheel-off"}
    work = [one for one in (*pack.checks, *pack.repairs) if flywheel & set(one.access)]
    assert work
    assert all("plug lead" in one.off_first for one in work)


def test_a_hand_near_a_blade_an_engine_that_can_fire_exhaust_gas_and_petrol_are_dangers(library: Library):
    dangers = {hazard.id for hazard in library.hazards.values() if hazard.signal is Signal.DANGER}
    assert dangers >= {"blade-turns", "engine-fires-when-turned", "run-outdoors", "petrol-vapour", "plug-lead-off"}


def test_knows_the_cautions_of_the_bench(library: Library):
    assert library.hazards.keys() >= {
        "closed-spark-tester",
        "recoil-spring",
        "sharp-blade",
        "hot-muffler",
        "tip-carb-up",
        "kick-back",
        "puller-stand-clear",
        "eyes-air",
        "moving-parts",
        "hot-oil",
        "prop-machine",
        "leave-nut-on",
    }


def test_whoever_opens_the_belt_cover_is_warned_of_the_belt(pack: Pack):
    work = [one for one in (*pack.checks, *pack.repairs) if "belt-cover-off" in one.access]
    assert len(work) >= 6
    assert [one.id for one in work if "belt-draws-in" not in one.hazards or "plug lead" not in one.off_first] == []


def test_no_repair_of_the_electric_start_bridges_a_switch(pack: Pack):
    repairs = {one.id: one.words for one in pack.repairs}
    assert "never bridge" in repairs["start-switch"]


def test_every_engine_card_is_marked_generic(pack: Pack):
    assert pack.engine_cards
    assert all("generic" in card.words for card in pack.engine_cards)


def test_ids_are_plain_words_joined_by_hyphens(pack: Pack):
    named = (*pack.complaints, *pack.causes, *pack.checks, *pack.accesses, *pack.repairs)
    assert [one.id for one in named if not one.id.replace("-", "").isalpha() or one.id != one.id.lower()] == []
