from dataclasses import replace

import pytest

from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.last_answers import LastAnswers
from bellcrank.shop.records import record
from bellcrank.shop.typed_torque import record_torque
from bellcrank.shop.work import choose_target, tick


@pytest.fixture
def on_the_way(shop, job):
    """Give a job on its way in to the flywheel."""
    choose_target(shop, job, "flywheel")
    return job


def work(shop, number):
    return job_sheet(shop, number).work


def test_a_kind_that_is_not_drawn_up_says_where_to_look_instead(shop):
    saw = take_in(shop, Story(complaints=("bogs",), kind="two-stroke-handheld"))
    packs = shop.library.packs
    undrawn = replace(packs["two-stroke-handheld"], assemblies=())
    library = replace(shop.library, packs={**packs, "two-stroke-handheld": undrawn})
    with pytest.raises(NotFound, match="not drawn up step by step yet"):
        choose_target(replace(shop, library=library, answers=LastAnswers()), saw, "carburettor")


@pytest.mark.parametrize("kind", ["two-stroke-handheld", "snow-thrower", "tiller", "generator"])
def test_the_other_kinds_are_drawn_up_from_the_plug_lead_to_the_carburettor(shop, kind):
    number = take_in(shop, Story(complaint_words="will not start", kind=kind))
    choose_target(shop, number, "carburettor")
    steps = [one.operation for one in work(shop, number).steps_in]
    assert (steps[0], steps[-1]) == ("lead-off", "carburettor-off")


def do_next(shop, number):
    current = work(shop, number).current
    tick(shop, number, current.direction, current.operation, done=True)
    return current


def bolt(shop, number, fastener):
    lines = (one for step in work(shop, number).steps_in for one in step.fasteners)
    return next(one for one in lines if one.fastener.id == fastener)


def first_threaded(shop, number):
    lines = (one for step in work(shop, number).steps_in for one in step.fasteners)
    return next(one for one in lines if one.torque is not None).fastener.id


def test_the_way_in_starts_with_the_plug_lead_and_ends_at_the_target(shop, on_the_way):
    way = work(shop, on_the_way)
    assert way.steps_in[0].operation == "lead-off"
    assert way.steps_in[-1].operation == "flywheel-off"
    assert way.target_words == "flywheel"


def test_the_plug_lead_goes_back_on_last(shop, on_the_way):
    assert work(shop, on_the_way).steps_out[-1].operation == "lead-off"


def test_all_that_comes_off_goes_back_on(shop, on_the_way):
    way = work(shop, on_the_way)
    assert sorted(one.operation for one in way.steps_in) == sorted(one.operation for one in way.steps_out)


def test_ticking_goes_in_and_out_again_step_by_step(shop, on_the_way):
    directions = []
    while work(shop, on_the_way).current:
        directions.append(do_next(shop, on_the_way).direction)
    way = work(shop, on_the_way)
    assert directions == ["in"] * len(way.steps_in) + ["out"] * len(way.steps_out)
    assert way.on_the_tray == 0


def test_the_tray_holds_what_is_off(shop, on_the_way):
    while work(shop, on_the_way).current.direction == "in":
        do_next(shop, on_the_way)
    way = work(shop, on_the_way)
    assert way.on_the_tray == sum(one.fastener.count for step in way.steps_in for one in step.fasteners)


def test_a_tick_can_be_taken_off(shop, on_the_way):
    step = do_next(shop, on_the_way)
    tick(shop, on_the_way, "in", step.operation, done=False)
    assert work(shop, on_the_way).current.operation == step.operation


def test_taking_back_a_tick_opens_the_step_again(shop, on_the_way):
    step = do_next(shop, on_the_way)
    take_back(shop, on_the_way)
    assert work(shop, on_the_way).current.operation == step.operation


def test_a_step_before_its_turn_is_refused_with_the_one_that_comes_first(shop, on_the_way):
    with pytest.raises(NotAllowedNow, match="Not yet: first “"):
        tick(shop, on_the_way, "in", "flywheel-off", done=True)


def test_nothing_goes_back_that_never_came_off(shop, on_the_way):
    with pytest.raises(NotAllowedNow, match="nothing to put back"):
        tick(shop, on_the_way, "out", "flywheel-off", done=True)


def test_a_new_target_goes_on_from_what_is_off(shop, on_the_way):
    while work(shop, on_the_way).current.direction == "in":
        do_next(shop, on_the_way)
    off = [step.operation for step in work(shop, on_the_way).steps_in]
    choose_target(shop, on_the_way, "blade")
    way = work(shop, on_the_way)
    assert [step.operation for step in way.steps_in if step.done] == off
    assert {step.operation for step in way.steps_out} >= set(off)
    assert way.current.operation not in off


def test_refuses_a_tick_without_a_way(shop, job):
    with pytest.raises(NotAllowedNow, match="Choose the part to get to first"):
        tick(shop, job, "in", "lead-off", done=True)


@pytest.mark.parametrize(("direction", "operation"), [("in", "paint-off"), ("up", "lead-off"), ("out", "")])
def test_refuses_a_step_that_is_not_on_the_way(shop, on_the_way, direction, operation):
    with pytest.raises(NotFound, match="There is no step"):
        tick(shop, on_the_way, direction, operation, done=True)


def test_refuses_a_target_nobody_knows_the_way_to_and_names_those_there_are(shop, job):
    with pytest.raises(NotFound, match=r"no way in to “gearbox”.*nearest to it: gearcase"):
        choose_target(shop, job, "gearbox")


def test_a_published_torque_is_shown_with_where_it_stands(shop, on_the_way):
    fastener = first_threaded(shop, on_the_way)
    record_torque(shop, on_the_way, fastener, "80 in·lb", basis="published", source="maker's sheet, page 12")
    torque = bolt(shop, on_the_way, fastener).torque
    assert torque.target_nm == pytest.approx(9.0388, abs=5e-4)  # 80 x 0.112985 N·m, US Navy manual, Appendix B
    assert (torque.basis, torque.source, torque.typed) == ("published", "maker's sheet, page 12", "80 in·lb")


def test_a_torque_stays_with_the_machine_not_with_the_next_one(shop, on_the_way):
    fastener = first_threaded(shop, on_the_way)
    before = bolt(shop, on_the_way, fastener).torque
    record_torque(shop, on_the_way, fastener, "11 N·m", basis="own shop", source="")
    other = take_in(shop, Story(complaints=("hunts",)))
    choose_target(shop, other, "flywheel")
    assert bolt(shop, other, fastener).torque == before


def test_a_torque_taken_back_gives_the_one_before(shop, on_the_way):
    fastener = first_threaded(shop, on_the_way)
    record_torque(shop, on_the_way, fastener, "11 N·m", basis="own shop", source="")
    record_torque(shop, on_the_way, fastener, "12 N·m", basis="own shop", source="")
    take_back(shop, on_the_way)
    assert bolt(shop, on_the_way, fastener).torque.typed == "11 N·m"


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ("55 lbs", NotUnderstood),
        ("55", NotUnderstood),
        ("tight", NotUnderstood),
        ("", NotUnderstood),
        ("-9 N·m", OutOfRange),
        ("0 N·m", OutOfRange),
        ("5000 ft·lb", OutOfRange),
        ("9" * 400 + " N·m", OutOfRange),
        ("9 J", NotUnderstood),
    ],
)
def test_refuses_what_is_no_torque(shop, on_the_way, typed, error):
    before = job_sheet(shop, on_the_way).events
    with pytest.raises(error):
        record_torque(shop, on_the_way, first_threaded(shop, on_the_way), typed, basis="own shop", source="")
    assert job_sheet(shop, on_the_way).events == before


def test_pounds_alone_are_refused_as_what_they_are(shop, on_the_way):
    with pytest.raises(NotUnderstood, match="“lbs” is a mass, not a torque"):
        record_torque(shop, on_the_way, first_threaded(shop, on_the_way), "55 lbs", basis="own shop", source="")


def test_a_published_torque_that_does_not_sit_with_the_joint_is_kept_and_asked_about(shop, on_the_way):
    fastener = first_threaded(shop, on_the_way)
    record_torque(shop, on_the_way, fastener, "80 ft·lb", basis="published", source="maker's sheet, page 12")
    torque = bolt(shop, on_the_way, fastener).torque
    assert (torque.basis, torque.typed) == ("published", "80 ft·lb")
    assert torque.doubt.endswith("Was 80 in·lb (9.0 N·m) meant?")


def test_the_shops_own_torque_far_off_is_refused(shop, on_the_way):
    with pytest.raises(OutOfRange, match="mixed up"):
        record_torque(shop, on_the_way, first_threaded(shop, on_the_way), "80 ft·lb", basis="own shop", source="")


def test_a_published_torque_needs_the_place_where_it_stands(shop, on_the_way):
    with pytest.raises(NotUnderstood, match="needs the place where it stands") as refusal:
        record_torque(shop, on_the_way, first_threaded(shop, on_the_way), "9 N·m", basis="published", source=" ")
    assert refusal.value.field == "source"


def test_refuses_a_basis_nobody_may_type(shop, on_the_way):
    with pytest.raises(NotUnderstood, match="Say published or own shop"):
        record_torque(shop, on_the_way, first_threaded(shop, on_the_way), "9 N·m", basis="computed", source="x")


def test_refuses_a_fastener_that_is_not_known(shop, on_the_way):
    with pytest.raises(NotFound, match="There is no fastener “rivet”"):
        record_torque(shop, on_the_way, "rivet", "9 N·m", basis="own shop", source="")


def test_a_way_with_steps_ticked_cannot_be_taken_back(shop, on_the_way):
    tick(shop, on_the_way, "in", job_sheet(shop, on_the_way).work.current.operation, done=True)
    target = next(event for event in job_sheet(shop, on_the_way).events if event.kind == "target")
    assert not target.can_take_back
    with pytest.raises(NotAllowedNow, match="cannot be taken back"):
        take_back(shop, on_the_way, target.id)
    assert job_sheet(shop, on_the_way).work.steps_in[0].done


def test_a_part_more_on_the_same_way_keeps_those_it_leads_to(shop, on_the_way):
    choose_target(shop, on_the_way, "blade", also=True)
    way = work(shop, on_the_way)
    assert way.targets == ("flywheel", "blade")
    assert way.target_words == "flywheel and the blade"
    assert {"flywheel-off", "blade-off"} <= {step.operation for step in way.steps_in}


def test_a_way_planned_when_one_part_was_all_it_could_lead_to_is_still_read(shop, job):
    body = {"assembly": "engine-top", "target": "plug", "steps": [["lead-off", "upright"]], "off": [], "proven": True}
    record(shop, job, "target", body, by="")
    assert work(shop, job).targets == ("plug",)
    assert "way in planned to the plug" in [event.words for event in job_sheet(shop, job).events]


def test_a_way_planned_on_an_older_drawing_that_named_its_steps_otherwise_is_planned_anew(shop, job):
    body = {"assembly": "engine-top", "targets": ["plug"], "steps": [["lead-loose", "upright", ""]], "off": []}
    record(shop, job, "target", body, by="")
    assert work(shop, job) is None
    choose_target(shop, job, "plug")
    assert work(shop, job).steps_in[0].operation == "lead-off"


def test_a_gap_on_the_way_back_says_what_it_rests_on(shop, job):
    choose_target(shop, job, "key")
    gap = next(gap for step in work(shop, job).steps_out for gap in step.gaps)
    assert (gap.where, gap.basis, gap.source) == ("coil legs to magnet", "guess", "from memory")
