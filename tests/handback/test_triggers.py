"""Why a line of the release list is asked."""

import pytest

from bellcrank.errors import NotUnderstood
from bellcrank.handback.triggers import asked, in_words, of_kind, triggers_of
from bellcrank.knowledge.closed_lists import TRIGGERS
from bellcrank.knowledge.pack import read_library

ITEMS = read_library().release_items
SAW, MOWER = "two-stroke-handheld", "walk-behind-mower"


def ids(kind, *triggers):
    return {one.item.id for one in asked(of_kind(ITEMS, kind), triggers)}


def test_a_saw_is_never_asked_for_blade_deck_or_governor_whatever_was_touched():
    mower_s = {"blade-crack", "blade-bolt", "stop-time", "tip-speed", "blade-control", "mounts-deck-belt", "governor"}
    assert mower_s & ids(SAW, *TRIGGERS) == set()
    assert mower_s <= ids(MOWER, *TRIGGERS)


def test_a_saw_goes_back_only_with_brake_idle_interlock_switch_and_guards_proven_and_no_fuel_leak():
    # 29 CFR 1910.266(e)(2)(i), chain brake; the others common practice: the project's safety reference, section 1.5.
    wanted = {"chain-brake", "chain-brake-stops", "still-at-idle", "throttle-lock", "hand-guards", "kill-switch"}
    wanted |= {"fuel-leak", "plug-lead-last"}
    hard = {one.id for one in of_kind(ITEMS, SAW) if one.hard}
    assert wanted <= ids(SAW, "always") & hard
    assert {"chain-brake", "still-at-idle", "throttle-lock"} & ids(MOWER, *TRIGGERS) == set()


@pytest.mark.parametrize("kind", read_library().packs)
def test_every_kind_proves_switch_guards_and_no_leak_before_it_goes_back(kind):
    asked_always = ids(kind, "always") & {one.id for one in ITEMS if one.hard}
    assert {"kill-switch", "fuel-leak", "plug-lead-last"} <= asked_always
    assert asked_always & {"guards", "hand-guards"}


@pytest.mark.parametrize(
    ("kind", "item"),
    [
        (MOWER, "blade-control"),
        ("snow-thrower", "auger-stops"),
        ("tiller", "tines-stop"),
        (SAW, "still-at-idle"),
        ("generator", "leakage-trips"),
    ],
)
def test_what_turns_or_strikes_is_proven_safe_on_every_machine_that_has_it(kind, item):
    assert item in ids(kind, "always")


def test_what_names_no_kind_is_asked_of_every_kind():
    everyone = {one.id for one in ITEMS if not one.kinds}
    assert {"fuel-leak", "kill-switch", "flywheel-key"} <= everyone
    assert everyone <= {one.id for one in of_kind(ITEMS, "a kind nobody made yet")}


def test_what_is_asked_of_every_machine_is_always_asked():
    assert triggers_of(struck=False, touched=frozenset()) == ("always",)


def test_what_happened_is_told_in_words():
    assert in_words(triggers_of(struck=True, touched=frozenset({"fuel"}))) == ("hit something", "fuel side opened")


def test_something_unknown_that_was_touched_is_refused():
    with pytest.raises(NotUnderstood, match="“sump” is not one of"):
        triggers_of(struck=False, touched=frozenset({"sump"}))
