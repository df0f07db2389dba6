"""Closed jobs teach the shop its own numbers, once each, and only as long as that helps."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bellcrank.bootstrap import open_shop
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.shop import learnt
from bellcrank.shop.demo_past import JOBS, add_past
from bellcrank.shop.fill_learnt import learnt_sheet
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_finding, record_repair, take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.learning import learn
from bellcrank.shop.learnt import Gate, gate_of, taught_now
from bellcrank.shop.packs import compiled_now, pack_now, usual_now
from bellcrank.shop.release import hand_back
from bellcrank.shop.storage.lessons import KeptLesson
from bellcrank.shop.what_it_was import record_what_it_was

KIND = "walk-behind-mower"


def close(shop, repair="fuel-filter", outcome="cured", complaint="wont-start"):
    """Take a machine in, mend it and hand it back as it is."""
    number = take_in(shop, Story(complaint_words="it does not go", complaints=(complaint,)))
    record_repair(shop, number, repair, outcome)
    hand_back(shop, number, ready=False, reason="the rest is for another day")
    return number


def share(shop, cause="fuel-filter-blocked", complaint="wont-start"):
    return next(one for one in pack_now(shop, KIND).causes if one.id == cause).shares.get(complaint, 0.0)


def minutes(shop, repair="fuel-filter"):
    return next(one for one in pack_now(shop, KIND).repairs if one.id == repair).minutes


def test_a_shop_without_closed_jobs_has_the_packs_numbers(shop, job):
    assert compiled_now(shop, KIND) is usual_now(shop, KIND)
    assert learnt_sheet(shop).says.startswith("No job has closed yet")


def test_a_closed_job_moves_the_numbers_at_once_and_an_open_one_does_not(shop):
    before = share(shop)
    number = take_in(shop, Story(complaint_words="it does not go", complaints=("wont-start",)))
    record_repair(shop, number, "fuel-filter", "cured")
    assert share(shop) == before
    hand_back(shop, number, ready=False, reason="no time")
    assert share(shop) > before
    assert pack_now(shop, KIND) is pack_now(shop, KIND)


def test_a_job_that_was_not_handed_back_after_all_teaches_nothing(shop):
    before = share(shop)
    number = close(shop)
    take_back(shop, number)
    assert share(shop) == before
    hand_back(shop, number, ready=False, reason="no time")
    assert share(shop) > before


def test_a_job_without_a_cure_moves_no_share(shop):
    before = share(shop)
    close(shop, outcome="not-cured")
    assert share(shop) == pytest.approx(before)
    assert learnt_sheet(shop).known_jobs == 0


def test_where_one_repair_mends_several_the_mechanic_may_say_which_it_was(shop):
    number = close(shop, "fresh-fuel")
    asked = job_sheet(shop, number).was
    assert [name for name, _ in asked.choices] == ["stale-fuel", "water-in-fuel", "wrong-fuel", "not-listed"]
    before = share(shop, "water-in-fuel")
    record_what_it_was(shop, number, "water-in-fuel")
    assert share(shop, "water-in-fuel") > before
    known = job_sheet(shop, number).was
    assert (known.choices, known.cause, known.named) == ((), "water in the fuel", True)
    take_back(shop, number)
    assert share(shop, "water-in-fuel") == pytest.approx(before)


def test_minutes_that_were_said_move_the_minutes_of_the_repair(shop):
    number = close(shop)
    before = minutes(shop)
    record_what_it_was(shop, number, minutes="60 min")
    assert minutes(shop)[1] > before[1]
    record_what_it_was(shop, number, minutes="15")  # what is said last counts
    assert minutes(shop)[1] == pytest.approx(15.0, abs=1e-3)


@pytest.mark.parametrize(
    ("cause", "took", "trouble", "words"),
    [
        ("", "", NotUnderstood, "Say which cause it was"),
        ("mouse-nest", "", NotFound, "There is no cause “mouse-nest”"),
        ("", "an hour", NotUnderstood, "no time of work"),
        ("", "0", OutOfRange, "must be above 0"),
        ("", "9999", OutOfRange, "at most 1440"),
    ],
)
def test_what_cannot_be_is_refused(shop, cause, took, trouble, words):
    number = close(shop)
    with pytest.raises(trouble, match=words):
        record_what_it_was(shop, number, cause, took)


def test_minutes_of_no_repair_are_refused(shop, job):
    with pytest.raises(NotAllowedNow, match="No repair cured"):
        record_what_it_was(shop, job, minutes="20")


def test_nothing_is_asked_of_a_job_that_is_not_cured(shop, job):
    record_finding(shop, job, "spark-tester", "none")
    assert job_sheet(shop, job).was is None


def test_jobs_fade_with_the_seasons(shop):
    for _ in range(6):
        close(shop)
    now = shop.now()
    later = replace(shop, now=lambda: now + timedelta(days=6 * 365))
    pack = next(one for one in shop.library.packs[KIND].causes if one.id == "fuel-filter-blocked").shares["wont-start"]
    assert pack < share(later) < share(shop)


def test_a_job_is_read_once_and_pages_read_none(shop, monkeypatch):
    add_past(shop, KIND, "Ina")
    assert learn(shop, KIND, at_once=30) == JOBS - 30
    assert learn(shop, KIND, at_once=30) == 0
    monkeypatch.setattr("bellcrank.shop.learning.lesson_of", None)  # reading one more would break
    monkeypatch.setattr("bellcrank.shop.learning.replay", None)
    assert learn(shop, KIND) == 0
    assert learnt_sheet(shop).closed_jobs == JOBS


def test_what_the_last_jobs_are_told_by_was_learnt_before_them(shop):
    # Leave the future out: a job closed later changes nothing of how the earlier ones were told.
    add_past(shop, KIND, "Ina")
    learn(shop, KIND)
    before = learnt_sheet(shop).rightness
    close(shop, "new-coil")
    after = learnt_sheet(shop)
    assert after.closed_jobs == JOBS + 1
    assert after.rightness == before  # the new one left two causes open, so it is not scored


def test_another_programs_writing_is_seen(shop):
    before, other = share(shop), open_shop(shop.folder, now=shop.now)
    close(other)
    other.close()
    assert share(shop) > before


def lesson(pack, taught):
    return KeptLesson(1, None, "", "{}", "", pack, "", "", taught)


def test_the_gate_shuts_when_the_last_fifty_were_told_worse():
    good, bad = [lesson(3.0, 2.9)] * 80, [lesson(3.0, 3.1)] * 50
    assert not gate_of(good).closed
    assert gate_of(good + bad).closed
    assert gate_of(good + bad) == Gate(50, pytest.approx(3.0), pytest.approx(3.1))
    assert not gate_of(bad + good).closed


def test_the_gate_looks_from_ten_jobs_on_and_past_those_it_cannot_tell():
    assert not gate_of([lesson(3.0, 3.1)] * 9).closed
    assert gate_of([lesson(3.0, 3.1)] * 10).closed
    assert gate_of([lesson(None, None)] * 20) == Gate(0, 0.0, 0.0)


def test_what_told_worse_is_not_used_and_the_page_says_so(shop, monkeypatch):
    add_past(shop, KIND, "Ina")
    assert learnt_sheet(shop).used
    monkeypatch.setattr(learnt, "gate_of", lambda _: Gate(50, 3.0, 3.1))
    shop = replace(shop, answers=type(shop.answers)())
    sheet = learnt_sheet(shop)
    assert not sheet.used
    assert sheet.says.startswith("Not used now: on the last 50 closed jobs the pack's own numbers told better")
    assert compiled_now(shop, KIND) is usual_now(shop, KIND)
    assert sheet.shares  # and what would be learnt can be looked at


def test_the_demo_town_has_water_in_its_fuel(shop):
    add_past(shop, KIND, "Ina")
    sheet = learnt_sheet(shop)
    water = next(one for one in sheet.shares if (one.complaint, one.cause) == ("wont-start", "water-in-fuel"))
    assert water.learnt > 1.5 * water.before
    assert water.low < water.learnt < water.high
    assert (sheet.closed_jobs, sheet.known_jobs) == (JOBS, JOBS)
    assert {one.moment for one in sheet.rightness} == {"after the story", "before the repair"}
    assert all(one.jobs == JOBS for one in sheet.rightness)


def test_numbers_that_can_hurt_are_told_and_left(shop):
    for _ in range(5):
        close(shop, "new-blade", complaint="vibrates")
    sheet = learnt_sheet(shop)
    held = next(one for one in sheet.held if one.cause == "blade-bent")
    assert held.held == "can hurt somebody"
    assert held.learnt != held.before
    assert share(shop, "blade-bent", "vibrates") == held.before


def test_a_kind_nobody_has_is_refused(shop):
    with pytest.raises(NotFound, match="There is no kind of machine “tractor”"):
        learnt_sheet(shop, "tractor")


def test_few_jobs_are_too_few_to_say(shop):
    for _ in range(3):
        close(shop)
    sheet = learnt_sheet(shop)
    assert {one.says for one in sheet.rightness} == {"3 closed jobs: too few to say."}
    assert "too few to say whether" in sheet.says
    assert taught_now(shop, usual_now(shop, KIND)).gate.jobs == 3
