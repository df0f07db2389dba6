from contextlib import contextmanager

import pytest
from sqlalchemy import event

from bellcrank.shop.fill_sheet import bench_sheet, job_sheet
from bellcrank.shop.findings import record_complaint, record_finding, record_repair
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.work import choose_target

MOST_STATEMENTS = (
    11  # job, owner and machine; events; photos; torques; settings; the hand that tightens; the shop's own entries; its
    # tools; what was found on this machine; what is kept for those like it; and one to spare
)


@contextmanager
def statements(shop):
    """Count what is asked of the file, BEGIN and the settings of a connection apart."""
    seen = []

    def note(connection, cursor, statement, *_):
        if not statement.startswith("BEGIN"):
            seen.append(statement)

    engine = shop.storage._engine
    event.listen(engine, "before_cursor_execute", note)
    yield seen
    event.remove(engine, "before_cursor_execute", note)


def test_a_sheet_asks_the_file_a_few_times_only(shop, job):
    record_finding(shop, job, "spark-tester", "none")
    choose_target(shop, job, "flywheel")
    with statements(shop) as seen:
        job_sheet(shop, job)
    assert 0 < len(seen) <= MOST_STATEMENTS


def test_the_bench_asks_the_file_no_more_often_for_more_machines(shop):
    for _ in range(5):
        take_in(shop, Story(complaints=("hunts",)))
    with statements(shop) as seen:
        bench_sheet(shop)
    assert 0 < len(seen) <= MOST_STATEMENTS


def test_an_empty_bench_is_empty(shop):
    bench = bench_sheet(shop)
    assert (bench.on_the_bench, bench.waiting, bench.ready, bench.gone) == ((), (), (), ())


def test_who_waits_longest_comes_first(shop):
    numbers = [take_in(shop, Story(complaints=("hunts",))) for _ in range(3)]
    assert [line.number for line in bench_sheet(shop).waiting] == numbers


def test_a_machine_stays_on_the_bench_however_many_come_after_it(shop):
    first = take_in(shop, Story(complaint_words="slow", complaints=("hunts",)))
    for _ in range(220):
        take_in(shop, Story(complaints=("hunts",)))
    assert bench_sheet(shop).waiting[0].number == first


def test_causes_come_most_likely_first_with_a_word_for_how_sure(shop, job):
    causes = job_sheet(shop, job).causes
    assert [one.probability for one in causes] == sorted((one.probability for one in causes), reverse=True)
    assert {one.how_sure for one in causes} <= {"hardly", "unlikely", "even", "likely", "almost sure"}


def test_a_finding_is_given_as_the_reason(shop, job):
    record_finding(shop, job, "spark-tester", "none")
    coil = next(one for one in job_sheet(shop, job).causes if one.id == "coil-dead")
    assert any("there is no spark" in reason.words for reason in coil.reasons_for)


def test_the_answers_to_expect_of_a_check_add_up(shop, job):
    for line in job_sheet(shop, job).next:
        if line.kind == "check":
            assert sum(choice.probability for choice in line.choices) == pytest.approx(1.0)


def test_each_next_thing_says_why_and_what_to_see_to_first(shop, job):
    sheet = job_sheet(shop, job)
    assert all(line.why for line in sheet.next)
    for line in sheet.next:
        signals = [caution.signal for caution in line.cautions]
        assert signals.count("DANGER") <= 1
        assert signals == sorted(signals, key=["DANGER", "WARNING", "CAUTION", "NOTICE"].index)


def test_stopping_is_always_among_the_next_things(shop, job):
    assert "stop" in [line.kind for line in job_sheet(shop, job).next]


def test_no_check_asks_a_machine_to_run_that_will_not(shop, job):
    runs = {check.id for check in shop.library.packs["walk-behind-mower"].checks if check.runs_engine}
    assert not runs & {line.id for line in job_sheet(shop, job).next}


def test_two_complaints_are_weighed_together(shop):
    number = take_in(shop, Story(complaints=("hunts",)))
    record_complaint(shop, number, "no-power")
    assert len(job_sheet(shop, number).complaints) == 2


def test_the_cure_names_what_the_same_blow_may_have_done(shop):
    number = take_in(shop, Story(complaints=("kicks-back",), facts={"hit-something": "yes"}))
    record_finding(shop, number, "blade-look", "nicked")
    record_repair(shop, number, "new-key", "cured")
    sheet = job_sheet(shop, number)
    assert sheet.cure.state == "cured"
    assert {"blade-bent", "crank-bent"} & {line.id for line in sheet.cure.look_also}


def test_a_repair_not_tried_yet_asks_to_try_it(shop, job):
    record_repair(shop, job, "fresh-fuel", "not-tried")
    cure = job_sheet(shop, job).cure
    assert (cure.state, "not tried" in cure.words) == ("open", True)


@pytest.mark.parametrize(
    ("story", "words"),
    [
        (Story(complaints=("hunts",)), "Walk-behind mower"),
        (Story(complaints=("hunts",), maker="Ternwick"), "Ternwick walk-behind mower"),
        (Story(complaints=("hunts",), maker="Ternwick", model="46"), "Ternwick 46 walk-behind mower"),
    ],
)
def test_a_machine_is_called_by_what_is_known_of_it(shop, story, words):
    assert job_sheet(shop, take_in(shop, story)).machine.words == words


def test_times_are_in_utc_and_say_so(shop, job):
    assert all(line.at.endswith("+00:00") for line in job_sheet(shop, job).events)


def test_reading_the_sheet_twice_gives_the_same(shop, job):
    record_finding(shop, job, "spark-tester", "none")
    assert job_sheet(shop, job) == job_sheet(shop, job)


def test_one_complaint_cured_of_two_goes_on_with_the_other(shop):
    number = take_in(shop, Story(complaint_words="both", complaints=("wont-stop", "hunts")))
    record_repair(shop, number, "flywheel-brake", "cured")
    sheet = job_sheet(shop, number)
    assert sheet.cure.state == "open"
    assert "still stands" in sheet.cure.words
    assert sheet.next
    assert "hand back" not in next(one for one in bench_sheet(shop).on_the_bench if one.number == number).next
