import pytest

from bellcrank.bootstrap import open_shop
from bellcrank.errors import BellcrankError, NotAllowedNow, NotUnderstood, OutOfRange
from bellcrank.fastening.hand import HandOnThread
from bellcrank.fastening.hand_against import CarriedHand
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.hand import everyone, hand_for, hand_of, people, record_reading, record_readings, take_back_reading
from bellcrank.shop.settings import write_settings
from bellcrank.shop.work import choose_target

FIVE = ("6 N·m", "7 N·m", "7 N·m", "8 N·m", "7 N·m")
FAR_APART = ("4 N·m", "16 N·m", "10 N·m", "5 N·m", "14 N·m")


def kept(shop, person="Kari"):
    return [(one.thread, one.typed) for line in hand_of(shop, person).lines for one in line.readings]


def test_five_readings_make_a_hand(shop):
    record_readings(shop, "M6", FIVE, person="Kari", wrench="beam wrench, 0 to 30 N·m")
    (line,) = hand_of(shop, "Kari").lines
    assert line.says == "By your hand M6×1 gets 3.9 to 10.1 N·m (from 5 readings)."
    assert line.readings[0].wrench == "beam wrench, 0 to 30 N·m"
    assert line.hand.mean == pytest.approx(7.0)


def test_readings_come_one_by_one_and_say_how_many_are_missing(shop):
    for typed in FIVE[:4]:
        record_reading(shop, "M6", typed, person="Kari")
    (line,) = hand_of(shop, "Kari").lines
    assert line.hand is None
    assert line.says.startswith("There are 4 readings of M6×1; it must be 5 or more")
    record_reading(shop, "m6 x 1", FIVE[4], person="Kari")
    assert hand_of(shop, "Kari").lines[0].hand is not None


def test_what_was_typed_is_kept_beside_newton_metres(shop):
    record_reading(shop, "1/4-20", "62 in-lb", person="Kari")
    (reading,) = hand_of(shop, "Kari").lines[0].readings
    assert (reading.thread, reading.typed) == ("1/4-20 UNC", "62 in-lb")
    assert reading.torque_nm == pytest.approx(7.005, abs=0.001)


def test_the_unit_of_the_scale_is_kept_where_none_was_typed(shop):
    record_readings(shop, "M6", ("62", "60 1/2", "7 N·m"), unit="in·lb", person="Kari")
    assert kept(shop) == [("M6×1", "62 in·lb"), ("M6×1", "60 1/2 in·lb"), ("M6×1", "7 N·m")]


def test_nobody_named_is_the_shops_mechanic(shop):
    write_settings(shop, {"mechanic": "Ola"})
    record_readings(shop, "M6", FIVE)
    assert hand_of(shop).person == "Ola"
    assert people(shop) == ("Ola",)


def test_asks_whose_hand_it_is_when_nobody_is_known(shop):
    with pytest.raises(NotUnderstood, match="Whose hand is it") as refusal:
        record_readings(shop, "M6", FIVE)
    assert refusal.value.field == "person"
    with pytest.raises(NotUnderstood, match="mechanic's name into the settings"):
        hand_of(shop)


def test_two_people_have_two_hands_and_one_has_one_however_it_is_spelt(shop):
    record_readings(shop, "M6", FIVE, person="Kari")
    record_readings(shop, "M6", ("12 N·m", "13 N·m"), person="Ola")
    record_reading(shop, "M6", "7 N·m", person=" kari ")
    assert people(shop) == ("Kari", "Ola")
    assert len(kept(shop, "KARI")) == 6
    assert len(kept(shop, "Ola")) == 2


def test_the_hands_of_everyone_are_given_in_the_order_they_came(shop):
    record_reading(shop, "M6", "12 N·m", person="Ola")
    record_readings(shop, "M6", FIVE, person="Kari")
    assert [(one.person, len(one.lines[0].readings)) for one in everyone(shop)] == [("Ola", 1), ("Kari", 5)]


def test_a_reading_sent_twice_by_one_tap_is_kept_once(shop):
    first = record_reading(shop, "M6", "7 N·m", person="Kari")
    again = record_reading(shop, "M6", "7 N·m", person="Kari", after=first)
    assert again > first  # the same figure, read after the first was seen
    assert record_reading(shop, "M6", "7 N·m", person="Kari", after=first) == again
    assert len(kept(shop)) == 2


@pytest.mark.parametrize("other", [("M6", "8 N·m", "Kari"), ("M8", "7 N·m", "Kari"), ("M6", "7 N·m", "Ola")])
def test_another_figure_thread_or_hand_is_never_taken_for_the_same_tap(shop, other):
    thread, typed, person = other
    record_reading(shop, "M6", "7 N·m", person="Kari", after=0)
    record_reading(shop, thread, typed, person=person, after=0)
    assert len(kept(shop)) + len(kept(shop, "Ola")) == 2


def test_a_reading_taken_back_and_kept_again_is_a_new_one(shop):
    first = record_reading(shop, "M6", "7 N·m", person="Kari", after=0)
    take_back_reading(shop, first, person="Kari")
    assert record_reading(shop, "M6", "7 N·m", person="Kari", after=0) > first
    assert len(kept(shop)) == 1


def test_sizes_stand_smallest_first(shop):
    for thread in ("M8", "5/16-18", "M6"):
        record_reading(shop, thread, "12 N·m", person="Kari")
    assert [line.thread for line in hand_of(shop, "Kari").lines] == ["M6×1", "5/16-18 UNC", "M8×1.25"]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("-7 N·m", r"Reading 2 of M6×1 is -7 N·m; it must be above zero"),
        ("0 N·m", "it must be above zero"),
        ("55 lbs", r"Reading 2 of M6×1: “lbs” is a mass, not a torque\. Write it like 9 N·m"),
        ("55 J", r"“J” is not a unit of torque we know"),
        ("", "cannot be read as a number"),
        ("tight", "cannot be read as a number"),
        ("7", "has no unit"),
        ("1e400 N·m", "not a unit of torque"),
        ("9" * 400 + " N·m", "too large to be a measurement"),
        ("62 N·m", r"strongest bolt of that size breaks below 44 N·m \(33 ft·lb\)\. Was it in·lb or ft·lb"),
        ("0.07 N·m", "not 100 times apart"),
        ("70 N·cm", "not a unit of torque"),
    ],
)
def test_a_reading_that_cannot_be_is_refused_and_nothing_is_lost(shop, typed, words):
    record_readings(shop, "M6", FIVE[1:3], person="Kari")
    with pytest.raises(BellcrankError, match=words):
        record_readings(shop, "M6", ("7 N·m", typed, "7 N·m"), person="Kari")
    assert kept(shop) == [("M6×1", "7 N·m"), ("M6×1", "7 N·m")]


@pytest.mark.parametrize("typed", [(), ("",), ("  ", "")])
def test_no_reading_at_all_is_refused(shop, typed):
    with pytest.raises(NotUnderstood, match="There is no reading to keep") as refusal:
        record_readings(shop, "M6", typed, person="Kari")
    assert refusal.value.field == "reading"


@pytest.mark.parametrize("thread", ["", "M6.5", "six", "M6x3"])
def test_a_thread_nobody_knows_is_refused(shop, thread):
    with pytest.raises(NotUnderstood):
        record_readings(shop, thread, FIVE, person="Kari")
    assert people(shop) == ()


def test_a_wrench_note_or_a_name_beyond_all_length_is_refused(shop):
    with pytest.raises(OutOfRange, match="note on the wrench has 201 letters"):
        record_readings(shop, "M6", FIVE, person="Kari", wrench="w" * 201)
    with pytest.raises(OutOfRange, match="name of whose hand it is has 201 letters"):
        record_readings(shop, "M6", FIVE, person="K" * 201)
    assert people(shop) == ()


def test_a_reading_far_from_the_ones_before_is_asked_about(shop):
    record_readings(shop, "M8", ("18 N·m", "19 N·m"), person="Kari")
    with pytest.raises(OutOfRange, match="not 9 times apart"):
        record_reading(shop, "M8", "2.1 N·m", person="Kari")
    record_reading(shop, "M8", "2.1 N·m", person="Ola")  # another hand


def test_the_last_reading_is_taken_back_and_still_there_to_see(shop):
    record_readings(shop, "M6", FIVE, person="Kari")
    assert take_back_reading(shop, person="Kari", by="Ola") == "7 N·m on M6×1"
    hand = hand_of(shop, "Kari")
    assert len(hand.lines[0].readings) == 4
    assert [(one.typed, one.taken_back_by) for one in hand.taken_back] == [("7 N·m", "Ola")]
    assert hand.taken_back[0].taken_back_at > hand.taken_back[0].read_at


def test_a_take_back_that_names_its_reading_takes_no_other_when_it_comes_in_twice(shop):
    first, *_ = record_readings(shop, "M6", FIVE, person="Kari")
    assert take_back_reading(shop, first, person="Kari", by="Ola") == "6 N·m on M6×1"
    assert take_back_reading(shop, first, person="Kari", by="Per") == "6 N·m on M6×1"
    assert len(hand_of(shop, "Kari").lines[0].readings) == 4
    assert [one.taken_back_by for one in hand_of(shop, "Kari").taken_back] == ["Ola"]


def test_nobody_takes_back_what_somebody_else_read(shop):
    first, *_ = record_readings(shop, "M6", FIVE, person="Kari")
    with pytest.raises(NotAllowedNow, match=f"There is no reading {first} for Ola"):
        take_back_reading(shop, first, person="Ola")
    with pytest.raises(NotAllowedNow, match="There is no reading to take back for Ola"):
        take_back_reading(shop, person="Ola")
    assert len(kept(shop)) == 5


def test_a_wrong_reading_taken_back_makes_room_for_the_right_one(shop):
    record_reading(shop, "M8", "2.1 N·m", person="Kari")
    with pytest.raises(OutOfRange, match="Take it back"):
        record_readings(shop, "M8", ("18 N·m", "19 N·m"), person="Kari")
    take_back_reading(shop, person="Kari")
    record_readings(shop, "M8", ("18 N·m", "19 N·m"), person="Kari")
    assert len(kept(shop)) == 2


def test_a_hand_on_a_measured_thread_is_that_hand(shop):
    record_readings(shop, "M6", FIVE, person="Kari")
    assert isinstance(hand_for(shop, "M6", "Kari"), HandOnThread)


def test_a_hand_on_another_thread_is_carried_over_from_two_sizes(shop):
    record_readings(shop, "M6", FIVE, person="Kari")
    with pytest.raises(OutOfRange, match="from two sizes of thread or more"):
        hand_for(shop, "M7", "Kari")
    record_readings(shop, "M8", ("19 N·m", "20 N·m", "20 N·m", "21 N·m", "20 N·m"), person="Kari")
    carried = hand_for(shop, "M7", "Kari")
    assert isinstance(carried, CarriedHand)
    assert carried.measured_on == ("M6×1", "M8×1.25")


def test_readings_that_promise_nothing_are_not_covered_up_by_other_sizes(shop):
    record_readings(shop, "M6", FIVE, person="Kari")
    record_readings(shop, "M8", ("19 N·m", "20 N·m", "20 N·m", "21 N·m", "20 N·m"), person="Kari")
    record_readings(shop, "M7", ("6 N·m", "24 N·m", "14 N·m", "8 N·m", "20 N·m"), person="Kari")
    with pytest.raises(OutOfRange, match="5 of them promise no window"):
        hand_for(shop, "M7", "Kari")


def test_a_hand_nobody_measured_says_what_to_do(shop):
    assert hand_of(shop, "Kari").lines == ()
    with pytest.raises(OutOfRange, match="Take five readings"):
        hand_for(shop, "M6", "Kari")


def test_readings_are_there_after_the_shop_is_closed_and_opened_again(shop, tmp_path):
    record_readings(shop, "M6", FIVE, person="Kari")
    again = open_shop(tmp_path / "data")
    assert len(kept(again)) == 5
    again.close()


def beside(shop, number):
    """What the steps back from the flywheel say of the mechanic's hand, by thread."""
    choose_target(shop, number, "key")
    steps = job_sheet(shop, number).work.steps_out
    return {line.fastener.thread: line.by_hand for step in steps for line in step.fasteners if line.by_hand}


def test_the_steps_know_the_mechanic_however_the_settings_spell_the_name(shop, job):
    record_readings(shop, "M6", FIVE, person="Kari")
    write_settings(shop, {"mechanic": "KARI"})
    assert beside(shop, job)["M6"].startswith("By Kari's hand it gets 3.9 to 10.1 N·m.")


def test_the_steps_say_nothing_of_a_hand_while_no_mechanic_is_named(shop, job):
    record_readings(shop, "M6", FIVE, person="Kari")
    assert beside(shop, job) == {}


def test_the_steps_do_not_cover_up_readings_that_promise_nothing(shop, job):
    write_settings(shop, {"mechanic": "Kari"})
    record_readings(shop, "M5", FIVE)
    record_readings(shop, "M8", ("19 N·m", "20 N·m", "20 N·m", "21 N·m", "20 N·m"))
    assert beside(shop, job)["M6"].startswith("By Kari's hand it probably gets")
    record_readings(shop, "M6", FAR_APART)
    assert beside(shop, job)["M6"] == "Kari's pulls on M6×1 lie too far apart to promise anything. Use the wrench."


def test_what_readings_say_is_worked_out_once_for_all_sheets(shop):
    record_readings(shop, "M6", FIVE, person="Kari")
    first = hand_of(shop, "Kari").on("M6×1")
    assert hand_of(shop, "Kari").on("M6×1") is first
    record_reading(shop, "M6", "7 N·m", person="Kari")
    assert hand_of(shop, "Kari").on("M6×1").hand.count == 6


def test_one_reading_alone_is_not_counted_in_its_refusal(shop):
    with pytest.raises(BellcrankError, match=r"^The reading of M6×1"):
        record_reading(shop, "M6", "tight", person="Kari")
