import pytest

from bellcrank.bootstrap import open_shop
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_complaint, record_finding, record_reading, record_repair, take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.release import hand_back
from bellcrank.shop.work import choose_target, tick


def words(sheet):
    return [event.words for event in sheet.events if not event.taken_back]


def chance(sheet, cause):
    return next((line.probability for line in sheet.causes if line.id == cause), 0.0)


def test_a_first_finding_puts_the_machine_on_the_bench(shop, job):
    record_finding(shop, job, "spark-tester", "none")
    assert job_sheet(shop, job).state == "on the bench"


def test_a_finding_moves_the_causes(shop, job):
    before = job_sheet(shop, job)
    record_finding(shop, job, "spark-tester", "none")
    after = job_sheet(shop, job)
    assert chance(after, "coil-dead") > chance(before, "coil-dead")
    assert chance(after, "stale-fuel") < chance(before, "stale-fuel")


def test_not_sure_is_kept_and_moves_nothing(shop, job):
    before = job_sheet(shop, job).causes
    record_finding(shop, job, "spark-tester", "not-sure")
    after = job_sheet(shop, job)
    assert [(line.id, line.probability) for line in after.causes] == [(line.id, line.probability) for line in before]
    assert "not sure" in words(after)[-1]


def test_a_result_tapped_twice_is_kept_once(shop, job):
    first = record_finding(shop, job, "spark-tester", "none")
    assert record_finding(shop, job, "spark-tester", "none") == first


def test_a_result_tapped_anew_after_another_is_kept(shop, job):
    first = record_finding(shop, job, "spark-tester", "none")
    record_finding(shop, job, "spark-tester", "jumps")
    assert record_finding(shop, job, "spark-tester", "none") > first


def test_taking_back_gives_the_sheet_as_it_was(shop, job):
    before = job_sheet(shop, job)
    record_finding(shop, job, "spark-tester", "none", "Ina")
    take_back(shop, job, by="Ola")
    after = job_sheet(shop, job)
    assert (after.causes, after.next, after.state) == (before.causes, before.next, before.state)


def test_what_was_taken_back_stays_in_the_history_with_who_and_when(shop, job):
    record_finding(shop, job, "spark-tester", "none", "Ina")
    take_back(shop, job, by="Ola")
    line = job_sheet(shop, job).events[-1]
    assert (line.by, line.taken_back, line.taken_back_by, line.can_take_back) == ("Ina", True, "Ola", False)
    assert line.taken_back_at > line.at


def test_takes_back_the_last_thing_first(shop, job):
    record_finding(shop, job, "spark-tester", "none")
    record_finding(shop, job, "sat-over-winter", "yes")
    last = job_sheet(shop, job).last_event
    take_back(shop, job)
    assert last is not None
    assert words(job_sheet(shop, job))[-1] != last.words


def test_takes_back_a_named_thing_and_leaves_the_rest(shop, job):
    first = record_finding(shop, job, "spark-tester", "none")
    record_finding(shop, job, "sat-over-winter", "yes")
    take_back(shop, job, first)
    assert words(job_sheet(shop, job))[-1] == "sat over winter: yes"


def test_refuses_to_take_back_the_same_thing_twice(shop, job):
    event = record_finding(shop, job, "spark-tester", "none")
    take_back(shop, job, event)
    with pytest.raises(NotAllowedNow, match=f"Entry {event} cannot be taken back"):
        take_back(shop, job, event)


def test_refuses_to_take_back_what_belongs_to_another_job(shop, job):
    event = record_finding(shop, job, "spark-tester", "none")
    other = take_in(shop, Story(complaints=("hunts",)))
    with pytest.raises(NotAllowedNow):
        take_back(shop, other, event)


def test_says_when_there_is_nothing_to_take_back(shop, job):
    take_back(shop, job)
    with pytest.raises(NotAllowedNow, match="There is nothing to take back"):
        take_back(shop, job)


def test_a_complaint_may_be_recorded_later(shop):
    number = take_in(shop, Story(complaint_words="it is poorly"))
    record_complaint(shop, number, "hunts")
    sheet = job_sheet(shop, number)
    assert len(sheet.complaints) == 1
    assert sheet.next


def test_a_repair_that_cured_it_ends_the_looking(shop, job):
    record_repair(shop, job, "fresh-fuel", "cured")
    sheet = job_sheet(shop, job)
    assert (sheet.cure.state, sheet.next) == ("cured", ())


def test_a_repair_that_did_not_cure_it_makes_its_cause_less_likely(shop, job):
    before = chance(job_sheet(shop, job), "stale-fuel")
    record_repair(shop, job, "fresh-fuel", "not-cured")
    sheet = job_sheet(shop, job)
    assert sheet.cure.state == "not cured"
    assert chance(sheet, "stale-fuel") < before


@pytest.mark.parametrize(
    ("check", "result", "match"),
    [
        ("taste", "sweet", "There is no check “taste”"),
        ("spark-tester", "purple", "“purple” is no result of “spark-tester”"),
        ("spark-tester", "", "is no result"),
    ],
)
def test_refuses_a_check_or_result_that_is_not_known(shop, job, check, result, match):
    with pytest.raises(NotFound, match=match):
        record_finding(shop, job, check, result)


def test_refuses_a_repair_or_outcome_that_is_not_known(shop, job):
    with pytest.raises(NotFound, match="There is no repair “prayer”"):
        record_repair(shop, job, "prayer", "cured")
    with pytest.raises(NotFound, match="does not say what the repair did"):
        record_repair(shop, job, "fresh-fuel", "maybe")


@pytest.mark.parametrize("number", [0, -1, 999, 2**31, 2**63, 10**40])
def test_an_unknown_job_is_refused_with_the_numbers_there_are(shop, job, number):
    with pytest.raises(NotFound, match=f"There is no job {number}. The jobs are 201 to 201"):
        record_finding(shop, number, "spark-tester", "none")


def test_an_empty_shop_says_that_it_has_no_job_yet(shop):
    with pytest.raises(NotFound, match="There is no job yet"):
        job_sheet(shop, 201)


def test_refuses_a_name_that_cannot_be_kept(shop, job):
    with pytest.raises(NotUnderstood, match="half a letter"):
        record_finding(shop, job, "spark-tester", "none", "\udcff")


def test_everything_is_there_after_the_program_was_started_anew(shop, job):
    record_finding(shop, job, "spark-tester", "none", "Ina")
    choose_target(shop, job, "flywheel")
    tick(shop, job, "in", "lead-off", done=True)
    before = job_sheet(shop, job)
    shop.close()
    again = open_shop(shop.folder)
    assert job_sheet(again, job) == before
    again.close()


def test_a_machine_that_went_back_not_ready_may_come_back_to_the_bench(shop, job):
    hand_back(shop, job, ready=False, reason="Ola Quay takes it home as it is")
    record_finding(shop, job, "spark-tester", "none")
    assert job_sheet(shop, job).state == "on the bench"


def test_what_she_only_thinks_counts_for_less(shop, job):
    before = chance(job_sheet(shop, job), "coil-dead")
    record_finding(shop, job, "spark-tester", "none", unsure=True)
    thought = job_sheet(shop, job)
    assert words(thought)[-1] == "there is no spark, only thought so"
    take_back(shop, job)
    record_finding(shop, job, "spark-tester", "none")
    assert before < chance(thought, "coil-dead") < chance(job_sheet(shop, job), "coil-dead")


def test_not_sure_stays_not_sure_whether_she_thinks_so_or_not(shop, job):
    record_finding(shop, job, "spark-tester", "not-sure", unsure=True)
    assert "only thought so" not in words(job_sheet(shop, job))[-1]


def test_a_reading_is_kept_as_typed_and_stands_for_its_result(shop, job):
    record_reading(shop, job, "compression-gauge", "25 psi")
    assert words(job_sheet(shop, job))[-1] == "the compression is low (25 psi)"


def test_a_reading_without_a_unit_is_in_the_unit_asked_for(shop, job):
    record_reading(shop, job, "compression-gauge", "520")
    assert words(job_sheet(shop, job))[-1] == "the compression is as it should be (520 kPa)"


def test_a_reading_near_a_limit_says_less_than_one_far_below(shop, job):
    record_reading(shop, job, "compression-gauge", "280 kPa")
    near = chance(job_sheet(shop, job), "valve-sticking")
    take_back(shop, job)
    record_reading(shop, job, "compression-gauge", "100 kPa")
    assert near < chance(job_sheet(shop, job), "valve-sticking")


@pytest.mark.parametrize(
    ("check", "typed", "refusal", "sentence"),
    [
        ("compression-gauge", "", NotUnderstood, "No reading was typed. Type what the instrument shows, in kPa."),
        ("compression-gauge", "plenty", NotUnderstood, "cannot be read as a number"),
        ("compression-gauge", "-5", OutOfRange, "cannot be below zero"),
        ("spark-tester", "5 mm", NotAllowedNow, "gives no number. Record one of its results"),
        ("no-such-check", "5", NotFound, "There is no check “no-such-check”"),
    ],
)
def test_refuses_a_reading_in_a_sentence(shop, job, check, typed, refusal, sentence):
    with pytest.raises(refusal, match=sentence):
        record_reading(shop, job, check, typed)


def test_a_compression_reading_is_judged_by_the_engine_of_the_job(shop):
    told = {}
    for card in ("side-valve-150", "overhead-valve-190"):
        number = take_in(shop, Story(complaints=("wont-start",), engine_card=card))
        record_reading(shop, number, "compression-gauge", "700 kPa")
        told[card] = words(job_sheet(shop, number))[-1]
    assert told["side-valve-150"] == "the compression is very high (700 kPa)"
    assert told["overhead-valve-190"] == "the compression is as it should be (700 kPa)"
