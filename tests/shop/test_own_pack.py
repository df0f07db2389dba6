"""“It was something else”, and checks of one's own."""

from dataclasses import replace

import pytest

from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_finding, record_repair, take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.own_pack import (
    add_cause,
    add_check,
    change_cause,
    change_check,
    change_entry,
    entry_named,
    odd_findings,
    take_back_entry,
)
from bellcrank.shop.own_typed import CauseTyped, CheckTyped, ShowsTyped, systems_of
from bellcrank.shop.packs import compiled_now, pack_now
from bellcrank.shop.replay import replay

KIND = "walk-behind-mower"
NEST = CauseTyped("mouse nest under the shroud", minutes="20 min", access=("shroud-off",), price="4")
MIRROR = CheckTyped("Look under the shroud with a mirror", shows=(ShowsTyped("cooling-blocked", "nearly always"),))


@pytest.fixture
def another(shop):
    return take_in(shop, Story(complaint_words="won't start", complaints=("wont-start",), name="Bo Reed"))


def probability(sheet, cause):
    return next((one.probability for one in sheet.causes if one.id == cause), 0.0)


def test_something_else_is_recorded_as_found_and_put_right(shop, job):
    record_finding(shop, job, "fuel-look", "sour")
    add_cause(shop, job, NEST, by="Ina")
    sheet = job_sheet(shop, job)
    assert [one.words for one in sheet.events][-2:] == [
        "“mouse nest under the shroud” was found",
        "Put right: mouse nest under the shroud: it works",
    ]
    assert sheet.events[-1].by == "Ina"
    assert sheet.cure.state == "cured"
    assert not sheet.surprise  # what cured it is what was found


def test_it_explains_the_odd_findings_of_the_job_unless_others_are_named(shop, job, another):
    for number in (job, another):
        record_finding(shop, number, "fuel-look", "sour")
        record_finding(shop, number, "spark-tester", "jumps")
        assert [one.check for one in odd_findings(shop, number)] == ["fuel-look"]
    explaining = add_cause(shop, job, NEST)
    silent = add_cause(shop, another, CauseTyped("something quite else"), explains=())
    rows = {row.cause for check in pack_now(shop, KIND).checks if check.id == "fuel-look" for row in check.likelihoods}
    assert explaining in rows
    assert silent not in rows


def test_the_next_machine_is_weighed_with_it_at_once(shop, job, another):
    before = probability(job_sheet(shop, another), "own-mouse-nest-under-the-shroud")
    name = add_cause(shop, job, NEST)
    looked = next(one for one in job_sheet(shop, another).next if one.id == "own-look-mouse-nest-under-the-shroud")
    assert looked.open_first == ("starter off", "shroud off")
    record_finding(shop, another, looked.id, "yes")
    assert before == 0
    assert job_sheet(shop, another).causes[0].id == name


def test_its_repair_is_priced_like_any_other(shop, job, another):
    add_cause(shop, job, NEST)
    record_repair(shop, another, "own-mend-mouse-nest-under-the-shroud", "cured")
    part = next(one for one in pack_now(shop, KIND).repairs if one.id == "own-mend-mouse-nest-under-the-shroud").parts
    assert [(one.words, one.price) for one in part] == [("parts: mouse nest under the shroud", "4.00")]


def test_one_tap_that_came_in_twice_is_one_cause(shop, job):
    assert add_cause(shop, job, NEST) == add_cause(shop, job, NEST)
    assert len([one for one in job_sheet(shop, job).events if one.kind == "repaired"]) == 1


def test_a_cause_on_the_list_is_refused_with_what_to_record_instead(shop, job, another):
    with pytest.raises(OutOfRange, match=r"on the list already\. Record “Drain"):
        add_cause(shop, job, CauseTyped("Stale or gummed fuel"))
    add_cause(shop, job, NEST)
    with pytest.raises(OutOfRange, match=r"in the shop's own pack already\. Record “Put right: mouse nest"):
        add_cause(shop, another, CauseTyped("Mouse nest under the SHROUD"))


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        (CauseTyped(" … "), "words", "What it was is empty"),
        (CauseTyped("x" * 121), "words", "121 letters"),
        (CauseTyped("nest", system="attic"), "system", "There is no system “attic”"),
        (CauseTyped("nest", minutes="0"), "minutes", "above 0"),
        (CauseTyped("nest", minutes="a while"), "minutes", "not an amount"),
        (CauseTyped("nest", price="-3"), "price", "zero or more"),
        (CauseTyped("nest", access=("roof",)), "access", "There is no thing to open “roof”"),
    ],
)
def test_what_cannot_be_read_is_refused_and_nothing_is_kept(shop, job, typed, field, words):
    with pytest.raises((NotUnderstood, OutOfRange, NotFound), match=words) as refusal:
        add_cause(shop, job, typed)
    assert refusal.value.field == field
    assert [one.kind for one in job_sheet(shop, job).events] == ["complaint"]
    assert compiled_now(shop, KIND).pack == shop.library.packs[KIND]


def test_a_finding_the_job_does_not_have_is_refused(shop, job):
    with pytest.raises(NotFound, match=r"“fuel-look” is no odd finding of job 201\. This job has none yet"):
        add_cause(shop, job, NEST, explains=("fuel-look",))


def test_an_outcome_nobody_knows_is_refused(shop, job):
    with pytest.raises(NotFound, match="“fine” does not say what the repair did"):
        add_cause(shop, job, NEST, outcome="fine")


def test_a_cause_is_counted_by_a_complaint(shop):
    number = take_in(shop, Story(complaint_words="it is odd"))
    with pytest.raises(NotAllowedNow, match="Name the complaint first"):
        add_cause(shop, number, NEST)


def test_no_start_is_recorded_while_a_finding_forbids_it_even_one_it_is_said_to_explain(shop, job):
    record_finding(shop, job, "hit-something", "yes")
    with pytest.raises(NotAllowedNow, match="must not be started yet"):
        add_cause(shop, job, NEST, outcome="cured")
    add_cause(shop, job, NEST)
    assert job_sheet(shop, job).events[-1].words.endswith("not tried yet")
    assert job_sheet(shop, job).cure.state == "open"


def test_not_done_yet_records_the_finding_alone(shop, job):
    add_cause(shop, job, NEST, outcome="not-done")
    assert [one.kind for one in job_sheet(shop, job).events] == ["complaint", "found"]


def test_taking_the_events_back_leaves_the_cause_in_the_pack(shop, job):
    name = add_cause(shop, job, NEST)
    take_back(shop, job)
    take_back(shop, job)
    assert name in compiled_now(shop, KIND).causes


def test_what_is_taken_back_is_asked_of_no_new_job_and_stays_in_the_old(shop, job, another):
    name = add_cause(shop, job, NEST)
    before = job_sheet(shop, job)
    assert take_back_entry(shop, name, by="Ina") == "mouse nest under the shroud"
    assert take_back_entry(shop, name) == "mouse nest under the shroud"  # the tap came in twice
    after = job_sheet(shop, job)
    assert [one.words for one in after.events] == [one.words for one in before.events]
    assert (after.causes, after.cure, after.surprise) == (before.causes, before.cure, before.surprise)
    assert not [one for one in job_sheet(shop, another).next if one.id.startswith("own-")]
    assert entry_named(shop, name).taken_back_by == "Ina"


def test_a_job_that_used_what_was_taken_back_is_still_replayed(shop, job):
    record_finding(shop, job, "fuel-look", "sour")
    name = add_cause(shop, job, NEST)
    before = replay(shop, job)
    take_back_entry(shop, name)
    assert replay(shop, job) == before


def test_the_words_of_one_taken_back_may_be_used_again_under_another_name(shop, job, another):
    first = add_cause(shop, job, NEST)
    take_back_entry(shop, first)
    assert add_cause(shop, another, NEST) == f"{first}-2"


def test_a_change_is_used_at_once_and_keeps_what_it_explains(shop, job):
    record_finding(shop, job, "fuel-look", "sour")
    name = add_cause(shop, job, NEST)
    change_cause(shop, name, CauseTyped("wasps in the air box", repair_words="Take the wasps out", minutes="5"))
    compiled = compiled_now(shop, KIND)
    assert compiled.causes[name].words == "wasps in the air box"
    assert compiled.repairs["own-mend-mouse-nest-under-the-shroud"].minutes == (3.0, 5.0, 10.0)
    assert name in {row.cause for row in compiled.checks["fuel-look"].likelihoods}
    with pytest.raises(NotAllowedNow, match="is no check that stands"):
        change_check(shop, name, MIRROR)


def test_an_own_check_is_ranked_at_once(shop, job):
    name = add_check(shop, job, MIRROR)
    step = next(one for one in job_sheet(shop, job).next if one.id == name)
    assert [one.words for one in step.choices] == ["no", "yes"]
    record_finding(shop, job, name, "yes")
    assert job_sheet(shop, job).events[-1].words == "“Look under the shroud with a mirror” says: yes"


def test_an_own_check_tells_its_cause_apart(shop, job):
    name = add_check(shop, job, MIRROR)
    before = dict(compiled_now(shop, KIND).looks_at)[name]
    record_finding(shop, job, name, "no")
    assert before == {"cooling-blocked"}


def test_a_check_sent_twice_is_one(shop, job):
    assert add_check(shop, job, MIRROR) == add_check(shop, job, MIRROR)


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        (CheckTyped("Look"), "shows", "shows no cause"),
        (CheckTyped("Look", shows=(ShowsTyped("mice"),)), "shows", "There is no cause “mice”"),
        (CheckTyped("Look", shows=(ShowsTyped("coil-dead", "sometimes"),)), "shows", "hardly, nearly always, often"),
        (CheckTyped("Look", shows=(ShowsTyped("coil-dead", "often", "1"),)), "shows", "cannot show as “1”"),
        (CheckTyped("Look", results=("no",), shows=(ShowsTyped("coil-dead"),)), "results", "must have 2 to 6"),
        (CheckTyped("Look", results=("no", "No"), shows=(ShowsTyped("coil-dead"),)), "results", "called the same"),
        (CheckTyped("Look", hazards=("sharks",), shows=(ShowsTyped("coil-dead"),)), "hazards", "no caution “sharks”"),
    ],
)
def test_a_check_that_cannot_be_used_is_refused(shop, job, typed, field, words):
    with pytest.raises((NotUnderstood, OutOfRange, NotFound), match=words) as refusal:
        add_check(shop, job, typed)
    assert refusal.value.field == field
    assert compiled_now(shop, KIND).pack == shop.library.packs[KIND]


def test_a_changed_check_keeps_the_names_of_its_results(shop, job):
    name = add_check(shop, job, MIRROR)
    record_finding(shop, job, name, "yes")
    shows = (ShowsTyped("cooling-blocked", result="straw"),)
    change_check(shop, name, CheckTyped("Look with a mirror", results=("clear", "straw", "a nest"), shows=shows))
    results = compiled_now(shop, KIND).checks[name].results
    assert [(one.id, one.words) for one in results] == [("no", "clear"), ("yes", "straw"), ("a-nest", "a nest")]
    assert job_sheet(shop, job).events[-1].words == "“Look with a mirror” says: straw"
    with pytest.raises(OutOfRange, match="2 are too few"):
        change_check(shop, name, MIRROR)


def test_a_check_sees_the_shops_own_causes_too(shop, job):
    name = add_cause(shop, job, NEST)
    mirror = add_check(shop, job, CheckTyped("Mirror", shows=(ShowsTyped(name),)))
    assert compiled_now(shop, KIND).looks_at[mirror] == {name}
    take_back_entry(shop, name)
    assert compiled_now(shop, KIND).looks_at[mirror] == frozenset()


def test_a_check_never_takes_the_name_of_the_look_for_a_cause(shop, job):
    add_cause(shop, job, CauseTyped("nest"))
    assert add_check(shop, job, CheckTyped("Look nest", shows=(ShowsTyped("coil-dead"),))) == "own-look-nest-2"


def test_some_things_are_changed_and_all_others_stay(shop, job):
    name = add_cause(shop, job, NEST)
    change_entry(shop, name, {"minutes": "40"})
    repair = compiled_now(shop, KIND).repairs["own-mend-mouse-nest-under-the-shroud"]
    assert (repair.minutes[1], repair.access, repair.parts[0].price) == (40.0, ("shroud-off",), "4.00")
    mirror = add_check(shop, job, MIRROR)
    before = compiled_now(shop, KIND).checks[mirror]
    change_entry(shop, mirror, {"tools": "mirror, torch"})
    assert compiled_now(shop, KIND).checks[mirror] == replace(before, tools=("mirror", "torch"))
    with pytest.raises(NotUnderstood, match="is a check; it has no price"):
        change_entry(shop, mirror, {"price": "3"})


def test_an_entry_nobody_made_is_refused(shop):
    with pytest.raises(NotFound, match="no own entry “own-x”"):
        take_back_entry(shop, "own-x")


def test_a_past_event_is_no_system_to_choose(shop):
    systems = systems_of(shop.library.packs[KIND])
    assert "event" not in systems
    assert systems[-1] == "other"
