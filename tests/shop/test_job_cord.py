"""What a job knows of its cord by itself, and what is kept of so many pulls."""

import pytest
from tests.counting import counting, without_counting

from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood
from bellcrank.shop.cords import COUNTED_CHECK
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_finding, record_repair, take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.job_cord import MENDED, SEEN, cord_of_job, keep_cord
from bellcrank.shop.records import read_record

TYPED = {"engine": "overhead-valve-160", "jerks": "3", "of": "10", "starts": "0"}


@pytest.fixture
def shop(shop):
    """Give a shop whose mowers are asked how many pulls jerked."""
    return counting(shop)


@pytest.fixture
def job(shop):
    """Give a mower that hit something and kicks back."""
    told = {"hit-something": "yes"}
    return take_in(shop, Story("ran onto a ring", ("kicks-back",), told, engine_card="overhead-valve-190"))


def test_knows_the_engine_and_what_the_customer_told(shop, job):
    assert cord_of_job(shop, job).typed == {"engine": "overhead-valve-190", "struck": "yes"}
    assert cord_of_job(shop, job).known == ("hit something: yes",)


@pytest.mark.parametrize(
    ("check", "result", "name", "value"),
    [
        ("key-look", "lined-up", "key", "whole"),
        ("key-look", "bruised", "key", "bruised"),
        ("key-look", "offset", "key", "sheared"),
        ("blade-look", "sound", "blade", "tight"),
        ("blade-look", "loose", "blade", "loose"),
        ("blade-against-flywheel", "together", "blade", "tight"),
        ("blade-against-flywheel", "alone", "blade", "loose"),
    ],
)
def test_takes_over_what_was_seen(shop, job, check, result, name, value):
    record_finding(shop, job, check, result)
    assert cord_of_job(shop, job).typed[name] == value


def test_every_result_that_is_taken_over_is_one_of_the_pack(shop):
    pack = shop.library.packs["walk-behind-mower"]
    assert {(one.id, result.id) for one in pack.checks for result in one.results} >= set(SEEN)
    assert {one.id for one in pack.repairs} >= set(MENDED)


def test_a_bent_blade_says_nothing_of_its_bolt(shop, job):
    record_finding(shop, job, "blade-look", "bent")
    assert "blade" not in cord_of_job(shop, job).typed


def test_what_was_seen_last_holds_and_what_was_taken_back_does_not(shop, job):
    record_finding(shop, job, "blade-look", "sound")
    record_finding(shop, job, "blade-against-flywheel", "alone")
    assert cord_of_job(shop, job).typed["blade"] == "loose"
    take_back(shop, job)
    assert cord_of_job(shop, job).typed["blade"] == "tight"


@pytest.mark.parametrize(("jerks", "result"), [("0", "none"), ("2", "seldom"), ("5", "often"), ("9", "mostly")])
def test_keeps_how_often_it_jerked_as_a_finding(shop, job, jerks, result):
    keep_cord(shop, job, TYPED | {"jerks": jerks}, "Ina")
    assert read_record(shop, job).case.events[-1].result == result


def test_what_was_counted_is_told_in_the_history_and_stands_there_the_next_time(shop, job):
    keep_cord(shop, job, TYPED, "Ina")
    assert job_sheet(shop, job).events[-1].words.endswith(": 3 of 10 pulls")
    assert cord_of_job(shop, job).typed == TYPED | {"struck": "yes"}


def test_a_key_that_was_seen_since_goes_over_what_was_typed_with_the_count(shop, job):
    keep_cord(shop, job, TYPED | {"key": "whole"}, "Ina")
    record_finding(shop, job, "key-look", "offset")
    assert cord_of_job(shop, job).typed["key"] == "sheared"


def test_after_a_repair_the_old_count_says_nothing_and_the_new_key_is_whole(shop, job):
    record_finding(shop, job, "key-look", "offset")
    keep_cord(shop, job, TYPED, "Ina")
    record_repair(shop, job, "new-key", "not-tried")
    known = cord_of_job(shop, job)
    assert known.typed == {"engine": TYPED["engine"], "struck": "yes", "key": "whole"}
    assert not any("pulls" in one for one in known.known)


def test_jerks_that_were_kept_speak_more_for_the_key_than_none(shop):
    job = take_in(shop, Story("won't start", ("wont-start",), {"hit-something": "yes"}))

    def key_after(jerks):
        keep_cord(shop, job, TYPED | {"jerks": jerks})
        told = next(one.probability for one in job_sheet(shop, job).causes if one.id == "key-sheared")
        take_back(shop, job)
        return told

    assert key_after("4") > key_after("0")


def test_a_kind_without_engine_cards_has_no_pulls_worked_out(shop):
    saw = take_in(shop, Story(complaints=("wont-start",), kind="two-stroke-handheld"))
    with pytest.raises(NotFound, match="No pulls are worked out for this kind of machine"):
        cord_of_job(shop, saw)


def test_keeps_nothing_that_was_not_counted(shop, job):
    with pytest.raises(NotUnderstood, match="Say how many pulls jerked"):
        keep_cord(shop, job, {"engine": "overhead-valve-160", "starts": "0", "of": "5"})


def test_says_so_where_the_machine_has_no_such_check(shop, job):
    bare = without_counting(shop)
    assert not cord_of_job(bare, job).keeps
    with pytest.raises(NotAllowedNow, match="has no check that counts jerks"):
        keep_cord(bare, job, TYPED)
    assert all(event.body.get("check") != COUNTED_CHECK for event in read_record(shop, job).events)
