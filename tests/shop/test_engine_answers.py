"""The engine's answers on the numbers bench: early and late in words, what is sure told apart, both ways of a leak."""

import pytest

from bellcrank.errors import OutOfRange
from bellcrank.shop.rooms import ROOMS


@pytest.fixture
def answered(shop):
    return lambda room, **typed: ROOMS[room].answered(shop.library, typed, "N·m")


def test_a_quarter_turn_forward_is_early_and_the_same_place_as_late(answered):
    found = answered("timing", engine="overhead-valve-160", slip="-90 °")
    assert found.said == "the spark comes 90° early"
    assert ("the same place as", "270° late") in found.lines
    assert "May kick the cord back (not sure)." in found.sentences


def test_a_flywheel_in_its_place_is_said_so(answered):
    found = answered("timing", engine="overhead-valve-160", slip="0 °")
    assert found.figure == "where it belongs"
    assert ("the same place as", "a whole turn round") in found.lines
    assert "Does not kick." in found.sentences


def test_cautions_come_with_what_is_measured_on_the_machine(answered):
    assert any("fingers" in one for one in answered("timing", engine="side-valve-100", slip="30").cautions)
    assert any("bar" in one for one in answered("leak-down", reading="60 psi").cautions)
    assert answered("compression", engine="side-valve-100", height="0 m").cautions


def test_a_leak_reads_and_a_reading_leaks(answered):
    assert answered("leak-down", reading="60 psi").lead == "leaks of"
    assert answered("leak-down", leak="1 mm²").lead == "reads"


def test_at_the_height_it_was_chosen_for_a_jet_stays(answered):
    assert answered("jet", height="0 m", jet="0.70 mm").figure == "0.700 mm instead of 0.700 mm"


def test_a_reading_over_the_supply_is_refused(answered):
    with pytest.raises(OutOfRange, match="under the supply"):
        answered("leak-down", reading="90 psi")
