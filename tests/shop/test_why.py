"""The whole story of one cause, and what stands of it on the sheet."""

import pytest

from bellcrank.errors import NotAllowedNow, NotFound
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_finding, record_repair
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.why import why


@pytest.fixture
def struck(shop):
    number = take_in(shop, Story(complaints=("wont-start",), facts={"hit-something": "yes"}))
    record_finding(shop, number, "spark-tester", "none")
    return number


def test_tells_of_a_cause_what_the_sheet_says_of_it(shop, struck):
    sheet = job_sheet(shop, struck)
    for place, line in enumerate(sheet.causes, start=1):
        told = why(shop, struck, line.id)
        assert (told.place, told.cause) == (place, line)
        assert told.surprise == sheet.surprise
    assert why(shop, struck, sheet.causes[0].id).verdict == sheet.verdict


def test_any_cause_can_be_asked_for_however_unlikely(shop, struck):
    told = why(shop, struck, "main-jet-blocked")
    assert told.cause.probability < 0.05
    assert told.verdict.cause == told.cause.id
    assert not told.verdict.leads
    assert why(shop, struck, "not-listed").cause.words == "something that is not on this list"


def test_what_has_passed_has_no_place_among_the_causes(shop, struck):
    events = [one.id for one in shop.library.packs["walk-behind-mower"].causes if one.system == "event"]
    assert why(shop, struck, events[0]).place == 0


def test_a_move_is_told_as_where_it_would_take_the_cause(shop, struck):
    verdict = job_sheet(shop, struck).verdict
    for move in verdict.moves:
        most, least = move.results[0], move.results[-1]
        assert move.words.startswith(f"If {most.says}, “")
        assert f"to {100 * most.after:.0f} in 100" in move.words
        assert f"; if {least.says}, " in move.words
        assert ("it is out" in move.words) == (least.after < 0.01)
    assert verdict.leads


def test_what_could_overturn_the_leader_is_told_or_that_nothing_can(shop, struck):
    verdict = job_sheet(shop, struck).verdict
    assert verdict.overturn is not None
    assert verdict.overturn_words.startswith("Quickest to put another cause first: ")
    assert verdict.overturn.says in verdict.overturn_words
    hunts = take_in(shop, Story(complaints=("hunts",), facts={"sat-over-winter": "yes"}))
    record_finding(shop, hunts, "fuel-look", "sour")
    settled = job_sheet(shop, hunts).verdict
    assert settled.overturn is None
    assert settled.overturn_words == "No open check can put another cause first on its own."


def test_the_combinations_name_their_causes_and_are_at_most_all(shop, struck):
    sheet = job_sheet(shop, struck)
    assert sum(one.probability for one in sheet.combinations) <= 1 + 1e-9
    assert [one.probability for one in sheet.combinations] == sorted(
        (one.probability for one in sheet.combinations), reverse=True
    )
    words = {one.id: one.words for one in sheet.causes}
    for one in sheet.combinations:
        assert all(words[cause] in one.words for cause in one.causes)
    for one in why(shop, struck, "key-sheared").combinations:
        assert "key-sheared" in one.causes


def test_a_cured_machine_has_no_verdict_to_change(shop, job):
    record_finding(shop, job, "fuel-look", "sour")
    record_repair(shop, job, "fresh-fuel", "cured")
    sheet = job_sheet(shop, job)
    assert sheet.cure.state == "cured"
    assert (sheet.verdict, sheet.combinations) == (None, ())
    assert why(shop, job, "stale-fuel").verdict is None


def test_refuses_a_cause_it_does_not_know(shop, job):
    with pytest.raises(NotFound, match="There is no cause “gremlins”"):
        why(shop, job, "gremlins")


def test_refuses_before_a_complaint_is_known(shop):
    number = take_in(shop, Story(complaint_words="it just will not go"))
    assert job_sheet(shop, number).verdict is None
    with pytest.raises(NotAllowedNow, match="before a known complaint is named"):
        why(shop, number, "key-sheared")
