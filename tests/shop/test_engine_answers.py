"""The engine's answers on the numbers bench: early and late in words, what is sure told apart, both ways of a leak."""

import pytest

from bellcrank.errors import BellcrankError, OutOfRange
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


def test_a_jets_mixture_is_told_apart_by_height_and_by_warmth(answered):
    # by hand: 15 °C to 45 °C at the sea is 288.15 to 318.15 K, √1.1041 = 1.0508; height has no part in it
    lines = dict(answered("jet", height="0 m", jet="0.70 mm", temperature="45 °C").lines)
    assert lines["of it by height"] == "no change"
    assert lines["of it by warmth"] == "5.1% richer, 45 °C instead of 15 °C"


def test_the_parts_of_a_jets_mixture_multiply_to_the_whole(answered):
    found = answered("jet", height="2000 m", jet="0.70 mm", temperature="30 °C", from_temperature="5 °C").found
    assert found.by_height * found.by_temperature == pytest.approx(found.richness, rel=1e-12)


def test_droop_is_said_of_both_speeds(answered):
    # 3750 to 3562.5 rpm is called 5 % in the trade (of no-load speed); of rated speed it is 5.26 %
    found = answered("governor", no_load="3750 rpm", loaded="3562.5 rpm")
    assert found.said == "it droops 5.3% of rated speed"
    assert ("droop", "5.3% of rated speed, 5.0% of no-load speed") in found.lines


def test_a_droop_gives_the_speed_without_load_of_whichever_speed_it_is_a_share(answered):
    # by hand: 3000 × 1.05 = 3150; 3000/0.95 = 3157.9
    assert answered("governor", loaded="3000", droop="5 %").said == "without load 3150 rpm"
    assert answered("governor", loaded="3000", droop="5", of="no-load").said == "without load 3158 rpm"


def test_hunting_is_told_by_how_it_swings_and_every_way_is_named_when_nobody_said(answered):
    speeds = {"no_load": "3150 rpm", "loaded": "3000 rpm"}
    lean = answered("governor", **speeds, swings="calms with choke").sentences
    assert "idle mixture is lean" in lean[0]
    everything = " ".join(answered("governor", **speeds).sentences)
    assert all(words in everything for words in ("too sensitive", "idle mixture is lean", "throttle shaft sticks"))
    assert everything.count("If it") == 3


def test_a_swing_wider_than_from_no_load_to_full_load_hunts(answered):
    speeds = {"no_load": "3150 rpm", "loaded": "3000 rpm", "swings": "evenly"}
    assert "It hunts." in answered("governor", **speeds, swing_low="2900", swing_high="3300").sentences[0]
    assert "before you call it" in answered("governor", **speeds, swing_low="3050", swing_high="3150").sentences[0]


def test_a_blade_that_is_too_fast_without_load_is_the_first_caution(answered):
    # by hand: 0.53 m at 3600 rpm is π × 0.53 × 60 = 99.9 m/s, over 96.52 m/s (19,000 ft/min, ANSI/OPEI B71.1)
    found = answered("governor", no_load="3600", loaded="3400", blade="530 mm")
    assert found.cautions[0].startswith("Blade tips at 99.9 m/s without load: over the 96.5 m/s")
    slow = answered("governor", no_load="2900", loaded="2750", blade="530 mm").cautions
    assert not any("Blade tips at" in one for one in slow)
    assert any("top speed" in one for one in slow)


WEIGHTS = {"weights": "20 g", "circle": "20 mm", "turning": "300 rad/s", "lever": "0.5", "stretch": "1 mm"}


@pytest.mark.parametrize(("pull", "steady"), [("0.8 N", False), ("1 N", True), ("0.9 N", False)])
def test_weights_need_a_spring_stiffer_than_what_they_give_back(answered, pull, steady):
    # by hand: 0.02 kg × 300² × 0.5 = 900 N/m, 0.9 N over 1 mm; at it the governor has no steady place
    found = answered("governor", no_load="3150", loaded="3000", **WEIGHTS, spring_pull=pull)
    assert found.found.weighted.steady is steady
    assert ("Weights and spring are steady by themselves." in found.sentences) is steady


def test_a_tester_proves_voltage_only_when_it_asks_as_much_as_the_cylinder_and_never_timing(answered):
    typed = {"engine": "overhead-valve-160", "gap": "0.75 mm"}
    small, large = (answered("spark", **typed, tester=one) for one in ("3 mm", "15 mm"))
    assert "does not prove" in small.sentences[0]
    assert "proves voltage enough" in large.sentences[0]
    assert all("nothing about timing" in one.sentences[-1] for one in (small, large))


def test_a_tester_at_the_least_gap_asks_as_much_as_the_cylinder_at_the_top(answered):
    found = answered("spark", engine="side-valve-100", gap="0.7 mm").found
    again = answered("spark", engine="side-valve-100", gap="0.7 mm", tester=f"{found.least_tester * 1e3:.9f} mm").found
    assert again.tester.voltage == pytest.approx(found.top.voltage, rel=1e-6)


def test_a_spark_in_the_cylinder_needs_more_than_in_air_and_an_early_one_less_than_a_right_one(answered):
    found = answered("spark", engine="overhead-valve-160", gap="0.75 mm", slip="-60").found
    assert found.air.voltage < found.slipped.voltage < found.placed.voltage < found.top.voltage
    # U = 24.22 × 0.075 + 6.08 √0.075 = 3.48 kV in open air; 3482 V over 420 V·s/rad is 79 rpm (reference page, 1.7)
    assert found.air.voltage == pytest.approx(3482, rel=1e-3)
    assert ("in open air", "3.5 kV, from 79 rpm on (42 to 133)") in answered(
        "spark", engine="overhead-valve-160", gap="0.75 mm"
    ).lines


@pytest.mark.parametrize(
    ("turning", "said"), [("150 rpm", "too slow"), ("400 rpm", "may be fast enough"), ("700 rpm", "fast enough")]
)
def test_a_turning_speed_is_held_against_the_range_of_such_magnetos(answered, turning, said):
    lines = dict(answered("spark", engine="overhead-valve-160", gap="0.75 mm", turning=turning).lines)
    assert lines[f"at {turning}"] == said


@pytest.mark.parametrize(
    ("room", "typed", "part"),
    [
        ("governor", {"no_load": "3000", "loaded": "3150"}, "Swap the two readings"),
        ("governor", {"no_load": "3150", "loaded": "3000", "droop": "5 %"}, "Type either"),
        ("governor", {"loaded": "3000"}, "Type either"),
        ("governor", {"loaded": "3000", "droop": "0.05"}, "in percent"),
        ("governor", {"loaded": "3000", "droop": "some"}, "must be percent"),
        ("governor", {"loaded": "3000", "droop": "5", "of": "idle"}, "rated, no-load"),
        ("governor", {"no_load": "36000", "loaded": "3400"}, "turns faster than"),
        ("governor", {"no_load": "3600", "loaded": "3400", "swings": "wildly"}, "“wildly”"),
        ("governor", {"no_load": "3600", "loaded": "3400", "swing_low": "3000"}, "both the lowest and the highest"),
        ("governor", {"no_load": "3600", "loaded": "3400", "swing_low": "3100", "swing_high": "3000"}, "Swap the two"),
        ("governor", {"no_load": "3600", "loaded": "3400", "blade": "5 mm"}, "mm or in"),
        ("governor", {"no_load": "3600", "loaded": "3400", "weights": "20 g"}, "is missing"),
        ("governor", {"no_load": "3600", "loaded": "3400", **WEIGHTS, "spring_pull": "1 N", "lever": "half"}, "0.5"),
        ("spark", {"engine": "rotary", "gap": "0.7 mm"}, "no engine card"),
        ("spark", {"engine": "side-valve-100", "gap": "30 mm"}, "Gap of the plug is 30 mm"),
        ("spark", {"engine": "side-valve-100", "gap": "0.7 mm", "tester": "wide"}, "Gap of the tester"),
        ("spark", {"engine": "side-valve-100", "gap": "0.7 mm", "slip": "-60", "arc": "3 mm"}, "how far"),
    ],
)
def test_what_no_governor_or_spark_can_be_is_refused_with_a_sentence(answered, room, typed, part):
    with pytest.raises(BellcrankError, match=part):
        answered(room, **typed)
