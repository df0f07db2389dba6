"""A job replayed: at every step what a job with only these events believes, advises and knows."""

import pytest

from bellcrank.errors import NotAllowedNow, NotFound
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_complaint, record_finding, record_repair, take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.records import read_record
from bellcrank.shop.replay import replay, step_of
from bellcrank.shop.weighed import belief_of

STORY = Story(complaint_words="won't start", complaints=("wont-start",), facts={"hit-something": "yes"})
DONE = (
    ("fuel-look", "fresh"),
    ("spark-tester", "none"),
    ("blade-look", "loose"),
    ("wire-off-coil", "returns"),
    ("key-look", "offset"),
)


def go_on(shop, number, upto=5):
    for check, result in DONE[:upto]:
        record_finding(shop, number, check, result)


@pytest.fixture
def long_job(shop):
    number = take_in(shop, STORY)
    go_on(shop, number)
    record_repair(shop, number, "blade-adapter", "not-tried")
    return number


def test_every_step_believes_what_a_fresh_job_with_these_events_does(shop, long_job):
    steps = replay(shop, long_job).steps
    for upto in range(len(DONE) + 1):
        fresh = take_in(shop, STORY)
        go_on(shop, fresh, upto)
        now = belief_of(shop, read_record(shop, fresh)).now
        assert {one.id: one.probability for one in steps[upto].causes} == {
            one.id: now[one.id] for one in steps[upto].causes
        }
        sheet = job_sheet(shop, fresh)
        assert [one.id for one in steps[upto].causes] == [one.id for one in sheet.causes[:5]]
        assert steps[upto].advised == sheet.next[0]
        assert steps[upto].surprise == sheet.surprise


def test_the_last_step_believes_what_the_sheet_says(shop, long_job):
    last, sheet = replay(shop, long_job).steps[-1], job_sheet(shop, long_job)
    assert [(one.id, one.probability) for one in last.causes] == [(one.id, one.probability) for one in sheet.causes[:5]]
    assert (last.kind, last.done) == ("repaired", None)
    assert last.cure_words == sheet.cure.words


def test_the_door_is_one_step_with_all_that_was_told_there(shop, long_job):
    door, first = replay(shop, long_job).steps[:2]
    assert (door.number, door.kind) == (0, "door")
    assert door.words == ("complaint: won't start", "hit something: yes")
    assert (first.number, first.kind, first.words) == (1, "found", ("the fuel is clean and fresh",))
    assert door.causes[0].before is None
    by_name = {one.id: one.probability for one in door.causes}
    assert {one.id: one.before for one in first.causes if one.id in by_name}.items() <= by_name.items()


def test_what_was_taken_back_is_left_out(shop, long_job):
    before = replay(shop, long_job)
    record_finding(shop, long_job, "dipstick", "low")
    take_back(shop, long_job)
    assert replay(shop, long_job) == before
    take_back(shop, long_job)  # the repair
    assert replay(shop, long_job).steps[:-1] == before.steps[:-2]


def test_says_whether_the_advice_was_taken_and_what_it_took(shop):
    number = take_in(shop, STORY)
    advised = job_sheet(shop, number).next[0]
    other = next(one for one in job_sheet(shop, number).next[1:] if one.kind == "check")
    record_finding(shop, number, other.id, other.choices[0].id)
    (done,) = (step.done for step in replay(shop, number).steps[:-1])
    assert not done.as_advised
    assert done.minutes == pytest.approx(other.minutes + other.access_minutes)
    longer = other.expected_minutes - advised.expected_minutes
    assert done.longer_minutes == (pytest.approx(longer) if longer >= 1 else None)
    take_back(shop, number)
    record_finding(shop, number, advised.id, advised.choices[0].id)
    (done,) = (step.done for step in replay(shop, number).steps[:-1])
    assert done.as_advised
    assert done.minutes == pytest.approx(advised.minutes + advised.access_minutes)
    assert done.longer_minutes is None
    assert done.said.endswith(" That was the advice.")


def test_the_paths_follow_the_causes_over_all_steps(shop, long_job):
    sheet = replay(shop, long_job)
    assert len(sheet.paths) == 5
    assert len(sheet.rest) == len(sheet.steps)
    for number, step in enumerate(sheet.steps):
        drawn = {one.id: one.probabilities[number] for one in sheet.paths}
        for cause in step.causes:
            assert cause.probability == drawn.get(cause.id, cause.probability)
            assert cause.id in drawn or cause.probability <= sheet.rest[number]
    ends = [one.probabilities[-1] for one in sheet.paths]
    assert ends == sorted(ends, reverse=True)
    peaks = [max(one.probabilities) for one in sheet.paths]
    assert max(sheet.rest) <= min(peaks)


def test_a_contradiction_is_told_at_the_step_it_came_up(shop, job):
    record_finding(shop, job, "spark-tester", "jumps")
    record_finding(shop, job, "wire-off-coil", "returns")
    surprises = [step.surprise for step in replay(shop, job).steps]
    assert surprises[:2] == ["", ""]
    assert "goes badly with this: the spark tester fires" in surprises[2]


def test_a_job_asked_for_again_is_not_weighed_again(shop, long_job, monkeypatch):
    first = replay(shop, long_job)
    monkeypatch.setattr("bellcrank.shop.replay.believe", lambda *_: pytest.fail("weighed again"))
    assert replay(shop, long_job) == first


def test_what_was_found_before_a_complaint_was_known_belongs_to_the_door(shop):
    number = take_in(shop, Story(complaint_words="it just will not go"))
    with pytest.raises(NotAllowedNow, match="before a known complaint is named"):
        replay(shop, number)
    record_finding(shop, number, "fuel-look", "sour")
    record_complaint(shop, number, "wont-start")
    record_finding(shop, number, "spark-tester", "none")
    assert [step.words for step in replay(shop, number).steps] == [
        ("the fuel smells sour", "complaint: won't start"),
        ("there is no spark",),
    ]


def test_a_second_complaint_is_a_step_of_its_own(shop, job):
    record_finding(shop, job, "fuel-look", "sour")
    record_complaint(shop, job, "vibrates")
    steps = replay(shop, job).steps
    assert steps[-1].kind == "complaint"
    assert steps[1].done.kind == "complaint"
    assert steps[1].done.minutes is None


@pytest.mark.parametrize("number", [-1, 2, 99])
def test_refuses_a_step_that_is_not_there(shop, job, number):
    record_finding(shop, job, "fuel-look", "sour")
    with pytest.raises(NotFound, match=f"There is no step {number} on job {job}. It must be from 0, the door, to 1."):
        step_of(replay(shop, job), number)
