from decimal import Decimal

import pytest

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.shop.billing import record_agreement, record_worth
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.further import further_line
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.settings import write_settings


def line(sheet, name):
    return next(one for one in sheet.next if one.id == name)


def test_says_how_far_it_got_when_the_time_was_up(shop, job):
    # The clock of these tests goes on by a minute at each look: after the first step the two seconds are over.
    looked = further_line(shop, job)
    assert looked.looked_at == 1 < looked.to_look_at
    assert f"The time was up after 1 step of {looked.to_look_at}" in looked.words


def test_all_is_looked_at_where_there_is_time(shop, job):
    still = shop.now()
    shop_with_time = type(shop)(shop.storage, shop.library, shop.folder, lambda: still, shop.answers)
    looked = further_line(shop_with_time, job)
    assert looked.looked_at == looked.to_look_at == 13
    assert looked.changed == (looked.before != looked.after)
    assert (looked.worth_minutes > 0) == looked.changed
    assert {one.id for one in looked.next} == {one.id for one in job_sheet(shop, job).next}


@pytest.mark.parametrize(("typed", "refusal"), [("soon", NotUnderstood), ("0", OutOfRange), ("1e9", OutOfRange)])
def test_refuses_seconds_that_cannot_be(shop, job, typed, refusal):
    with pytest.raises(refusal, match=r"second|Looking ahead"):
        further_line(shop, job, typed)


def test_without_a_complaint_there_is_nothing_to_look_into(shop):
    bare = take_in(shop, Story(complaint_words="something odd", name="Ola Quay"))
    assert further_line(shop, bare).words.startswith("Name the complaint first")


def test_every_step_tells_its_money(shop, job):
    # Second route: minutes of work at the shop's rate of 54.00 an hour, no tax, and the parts.
    for one in job_sheet(shop, job).next:
        labour = Decimal(str(one.ahead.work_minutes)) * 54 / 60
        assert abs(labour + one.ahead.parts - one.ahead.price) <= Decimal("0.01")


def test_a_dearer_hour_makes_parts_count_for_less(shop, job):
    before = job_sheet(shop, job)
    write_settings(shop, {"labour_rate": "108"})
    after = job_sheet(shop, job)
    assert line(after, "stop").expected_minutes == line(before, "stop").expected_minutes  # no worth is known
    assert after.next[0].expected_minutes < before.next[0].expected_minutes


def test_what_the_machine_is_worth_is_the_most_that_is_put_into_it(shop, job):
    record_worth(shop, job, worth="9")
    sheet = job_sheet(shop, job)
    assert sheet.price.worth == Decimal("9")
    assert line(sheet, "stop").expected_minutes == pytest.approx(10.0)  # 9.00 at 54.00 an hour
    assert sheet.next[0].id in ("stop", "quote")
    assert "the machine is worth 9 EUR" in [event.words for event in sheet.events]


@pytest.mark.parametrize(("typed", "refusal"), [("", NotUnderstood), ("0", OutOfRange), ("a lot", NotUnderstood)])
def test_refuses_a_worth_that_is_none(shop, job, typed, refusal):
    with pytest.raises(refusal) as told:
        record_worth(shop, job, worth=typed)
    assert told.value.field == "worth"


def test_asking_tells_the_range_and_how_often_it_is_too_much(shop, job):
    free = line(job_sheet(shop, job), "quote")
    assert free.why.startswith("Half of such jobs stay below ")
    assert "No limit is known" in free.why
    record_agreement(shop, job, limit="20", how="at the door")
    asked = line(job_sheet(shop, job), "quote")
    assert asked.ahead.says_no > free.ahead.says_no == 0.0
    assert "come to more than may be spent" in asked.why
