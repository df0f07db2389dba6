"""The questions of the numbers bench ask for what they need, and take nothing that was told."""

import pytest

from bellcrank.errors import NotFound
from bellcrank.shop.rooms import ROOMS, room_named


@pytest.mark.parametrize("key", ROOMS)
def test_whatever_is_needed_taken_or_replaced_is_asked_for(key):
    room = ROOMS[key]
    fields = {one.name for one in room.fields}
    assert fields >= set(room.needs)
    assert fields >= set(room.taken({}))
    assert fields >= {name for told, names in room.instead.items() for name in (told, *names)}


@pytest.mark.parametrize("key", ROOMS)
def test_what_is_needed_is_never_taken_for_granted(key):
    room = ROOMS[key]
    assert not set(room.needs) & set(room.taken({}))
    assert not room.ready({})


def test_what_was_told_is_not_assumed_and_what_was_replaced_neither():
    pull = ROOMS["pull-off"]
    assert "ratio" in pull.assumed({})
    assert "ratio" not in pull.assumed({"ratio": "1:6"})
    assert "ratio" not in pull.assumed({"force_low": "6 kN"})
    assert pull.ready({"force_low": "6 kN", "force_high": "18 kN", "bolt": "M6", "engaged": "10 mm"})


def test_bolts_nobody_named_the_mark_of_are_taken_by_their_family():
    pull = ROOMS["pull-off"]
    assert pull.assumed({"bolt": "M6"})["strength"] == "8.8"
    assert pull.assumed({"bolt": "1/4-20"})["strength"] == "G5"


def test_a_taper_is_taken_as_long_as_it_is_wide():
    assert ROOMS["taper"].assumed({"mean_diameter": "16 mm"})["length"] == "16 mm"


def test_what_is_taken_is_said_with_what_it_is():
    assert ROOMS["key"].taken_words({}) == (
        "Not told, so taken: what the hub is made of: die-cast aluminium. Common sizes, no source: measure yours and "
        "type them.",
    )


def test_a_room_that_is_not_there_is_refused():
    with pytest.raises(NotFound, match="no number called “weather”"):
        room_named("weather")
