import tomllib
from dataclasses import replace
from datetime import timedelta

import pytest

from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.knowledge.assembly_text import assembly
from bellcrank.shop.fill_sheet import bench_sheet, job_sheet
from bellcrank.shop.findings import take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.machine_model import assemblies_for
from bellcrank.shop.own_models import model_files, own_model_lines, take_back_model
from bellcrank.shop.recording import begin_recording, keep_as_model, record_step, recording
from bellcrank.shop.recording_typed import FastenersTyped, StepTyped, fasteners_in_words
from bellcrank.shop.records import read_record
from bellcrank.shop.ways import way_in_to
from bellcrank.shop.work import choose_target, tick

SAW = {"complaints": ("bogs",), "kind": "two-stroke-handheld"}
BOLTS = FastenersTyped("2", "", "M6", "25", "10 mm socket", "front", "8.8", "cast-aluminium", "12")


@pytest.fixture
def shop(shop):
    """Give a shop in which nobody drew up a saw."""
    packs = shop.library.packs
    saws = replace(packs[SAW["kind"]], assemblies=())
    return replace(shop, library=replace(shop.library, packs={**packs, SAW["kind"]: saws}))


@pytest.fixture
def saw(shop):
    """Give a job on a saw, a kind nobody drew up, with its plug lead off."""
    number = take_in(shop, Story(**SAW, maker="Ternwick", model="Petrel 40"))
    begin_recording(shop, number)
    return number


def cover_and_drum(shop, number):
    record_step(shop, number, StepTyped("clutch cover", fasteners=(BOLTS,)))
    record_step(shop, number, StepTyped("clutch drum", tool="clutch tool", lies="on its side"))


def test_nothing_is_recorded_before_the_plug_lead_is_off(shop):
    number = take_in(shop, Story(**SAW))
    with pytest.raises(NotAllowedNow, match="First the plug lead"):
        record_step(shop, number, StepTyped("clutch cover"))
    assert recording(shop, number) is None


def test_what_is_recorded_is_at_once_the_way_of_the_job_done_up_to_here(shop, saw):
    cover_and_drum(shop, saw)
    work = job_sheet(shop, saw).work
    assert [step.do for step in work.steps_in][1:] == ["Take the clutch cover off", "Take the clutch drum off"]
    assert all(step.done for step in work.steps_in)
    assert (work.on_the_tray, work.target_words) == (2, "clutch drum")
    assert [step.operation for step in work.steps_out] == [step.operation for step in reversed(work.steps_in)]
    assert work.current.do == "Put the clutch drum back"


def test_the_way_back_has_a_torque_where_all_of_a_screw_is_known(shop, saw):
    cover_and_drum(shop, saw)
    back = {step.do: step for step in job_sheet(shop, saw).work.steps_out}
    (screws,) = back["Put the clutch cover back"].fasteners
    assert screws.torque.basis == "computed"
    record_step(shop, saw, StepTyped("muffler", fasteners=(FastenersTyped("3", thread="M5"),)))
    (screws,) = job_sheet(shop, saw).work.steps_out[0].fasteners
    assert (screws.torque, screws.no_torque_words) == (None, "Seat it by hand.")


def test_everything_goes_back_and_the_tray_is_empty_the_lead_last(shop, saw):
    cover_and_drum(shop, saw)
    for step in job_sheet(shop, saw).work.steps_out:
        tick(shop, saw, "out", step.operation, done=True)
    work = job_sheet(shop, saw).work
    assert (work.current, work.on_the_tray) == (None, 0)
    assert work.steps_out[-1].operation == f"own-{saw}-plug-lead"


def test_the_lead_does_not_go_back_before_the_rest(shop, saw):
    cover_and_drum(shop, saw)
    with pytest.raises(NotAllowedNow, match="first “Put the clutch drum back”"):
        tick(shop, saw, "out", f"own-{saw}-plug-lead", done=True)


def test_no_step_is_recorded_while_the_way_back_is_under_way(shop, saw):
    cover_and_drum(shop, saw)
    tick(shop, saw, "out", f"own-{saw}-clutch-drum", done=True)
    with pytest.raises(NotAllowedNow, match="The way back has begun"):
        record_step(shop, saw, StepTyped("muffler"))


def test_a_step_waits_for_the_one_before_unless_others_are_named(shop, saw):
    cover_and_drum(shop, saw)
    cover, drum = f"own-{saw}-clutch-cover", f"own-{saw}-clutch-drum"
    record_step(shop, saw, StepTyped("spring", needs=(cover,)))
    record_step(shop, saw, StepTyped("air filter", needs=("nothing",)))
    needs = {one.part: one.needs for one in recording(shop, saw).operations}
    assert needs["clutch-drum"] == ((cover,),)
    assert needs["spring"] == ((cover,),)
    assert needs["air-filter"] == ((f"own-{saw}-plug-lead",),)
    assert drum in recording(shop, saw).targets.values()


def test_only_the_last_recorded_step_can_be_taken_back(shop, saw):
    cover_and_drum(shop, saw)
    events = [event for event in job_sheet(shop, saw).events if event.kind == "recorded"]
    assert [event.can_take_back for event in events] == [False, False, True]
    take_back(shop, saw)
    assert len(recording(shop, saw).operations) == 2
    take_back(shop, saw)
    take_back(shop, saw)
    assert job_sheet(shop, saw).work is None


def test_a_second_tap_records_nothing_twice(shop, saw):
    step = StepTyped("clutch cover", fasteners=(BOLTS,))
    assert record_step(shop, saw, step) == record_step(shop, saw, step)
    assert begin_recording(shop, saw) < record_step(shop, saw, step)
    assert len(recording(shop, saw).operations) == 2


def test_the_clock_tells_the_minutes_where_they_are_plausible(shop, saw):
    start = shop.now.at
    for after, part in ((timedelta(minutes=4), "cover"), (timedelta(hours=3), "drum"), (timedelta(seconds=1), "plug")):
        shop.now.at = start = start + after - timedelta(minutes=1)  # the clock goes on by a minute when it is asked
        record_step(shop, saw, StepTyped(part))
        start += timedelta(minutes=1)
    kept = [event.body for event in read_record(shop, saw).standing("recorded")][1:]
    assert [one["minutes"] for one in kept] == [pytest.approx(4, abs=1), 1.0, 1.0]
    assert [one["basis"] for one in kept] == ["own shop", "guess", "guess"]


def test_kept_as_a_model_it_leads_the_next_such_machine(shop, saw):
    cover_and_drum(shop, saw)
    keep_as_model(shop, saw)
    alike = take_in(shop, Story(**SAW, maker="ternwick", model="Petrel 40"))
    choose_target(shop, alike, "clutch-drum")
    work = job_sheet(shop, alike).work
    assert [step.done for step in work.steps_in] == [False] * 3
    assert work.current.do.startswith("Pull the plug lead off")
    assert assemblies_for(shop, read_record(shop, take_in(shop, Story(**SAW)))) == ()


def test_kept_for_the_kind_it_leads_every_machine_of_it(shop, saw):
    cover_and_drum(shop, saw)
    keep_as_model(shop, saw, every_kind=True)
    other = take_in(shop, Story(**SAW, maker="Brackenholm"))
    choose_target(shop, other, "clutch-cover")
    assert len(job_sheet(shop, other).work.steps_in) == 2


def test_kept_for_the_kind_it_is_planned_with_without_a_job(shop, saw):
    cover_and_drum(shop, saw)
    keep_as_model(shop, saw, every_kind=True)
    sheet = way_in_to(shop, SAW["kind"], ["clutch-drum"])
    assert [step.do for step in sheet.steps][1:] == ["Take the clutch cover off", "Take the clutch drum off"]


def test_a_model_taken_back_is_gone_for_the_next_machine_not_for_its_own_job(shop, saw):
    cover_and_drum(shop, saw)
    keep_as_model(shop, saw, every_kind=True)
    (line,) = own_model_lines(shop)
    take_back_model(shop, line.id)
    assert assemblies_for(shop, read_record(shop, take_in(shop, Story(**SAW)))) == ()
    assert job_sheet(shop, saw).work is not None
    assert not own_model_lines(shop)[0].stands


def test_a_mower_not_like_the_drawing_can_be_recorded_and_its_model_comes_first(shop):
    story = Story(complaints=("hunts",), maker="Ternwick", model="Kittiwake 46")
    odd = take_in(shop, story)
    begin_recording(shop, odd)
    record_step(shop, odd, StepTyped("carburettor"))
    keep_as_model(shop, odd)
    alike = take_in(shop, story)
    choose_target(shop, alike, "carburettor")
    assert len(job_sheet(shop, alike).work.steps_in) == 2
    choose_target(shop, alike, "blade")  # what was not recorded is as drawn
    assert job_sheet(shop, alike).work.steps_in[0].operation == "lead-off"


def test_a_recording_does_not_begin_while_a_drawn_way_has_steps_off(shop, job):
    choose_target(shop, job, "blade")
    tick(shop, job, "in", "lead-off", done=True)
    with pytest.raises(NotAllowedNow, match="steps of the drawn way are off"):
        begin_recording(shop, job)


def test_a_drawn_way_does_not_begin_while_a_recorded_one_has_steps_off(shop, job):
    begin_recording(shop, job)
    record_step(shop, job, StepTyped("deck cover"))
    with pytest.raises(NotAllowedNow, match="are still off"):
        choose_target(shop, job, "blade")
    choose_target(shop, job, "deck-cover")
    assert job_sheet(shop, job).work.target_words == "deck cover"
    record_step(shop, job, StepTyped("belt"))
    assert [step.done for step in job_sheet(shop, job).work.steps_in] == [True] * 3


def test_what_was_written_out_reads_back_as_the_model(shop, saw):
    cover_and_drum(shop, saw)
    keep_as_model(shop, saw)
    ((name, text),) = model_files(shop).items()
    assert name == "two-stroke-handheld/assembly-recorded-201.toml"
    read = assembly(name, tomllib.loads(text))
    assert (read.operations, read.targets) == (recording(shop, saw).operations, recording(shop, saw).targets)
    assert read.words == "every Ternwick Petrel 40, as recorded on job 201"


def test_nothing_is_kept_of_the_plug_lead_alone(shop, saw):
    with pytest.raises(NotAllowedNow, match="nothing to keep yet"):
        keep_as_model(shop, saw)


def test_a_blade_that_was_recorded_calls_up_its_lines_of_the_release_list(shop, job):
    begin_recording(shop, job)
    before = {line.id for line in job_sheet(shop, job).release.lines}
    record_step(shop, job, StepTyped("blade", fasteners=(FastenersTyped(thread="M10"),)))
    assert "blade-bolt" in {line.id for line in job_sheet(shop, job).release.lines} - before


def test_the_bench_says_what_goes_back_next(shop, saw):
    cover_and_drum(shop, saw)
    (line,) = bench_sheet(shop).on_the_bench
    assert line.next == "next: put the clutch drum back"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2 x M6 x 25, 10 mm socket, front", FastenersTyped("2", "", "M6", "25", "10 mm socket", "front")),
        ("M8x1", FastenersTyped("", "", "M8x1")),
        (
            "4 × 1/4-20 x 3/4 in, class 8.8, into thin-sheet",
            FastenersTyped("4", "", "1/4-20", "3/4 in", "", "", "8.8", "thin-sheet"),
        ),
        ("3 x clips, left, right", FastenersTyped("3", "clips", where="left, right")),
        ("2 x M5, T25 bit, G5, into nut", FastenersTyped("2", "", "M5", "", "T25 bit", "", "G5", "nut")),
    ],
)  # fmt: skip
def test_fasteners_in_words_are_taken_apart(shop, text, expected):
    assert fasteners_in_words(text, shop.library) == expected


@pytest.mark.parametrize(
    ("typed", "error", "match", "field"),
    [
        (StepTyped(), NotUnderstood, "Which part", "part"),
        (StepTyped("Plug lead"), NotUnderstood, "off already", "part"),
        (StepTyped("cover", needs=("own-1-x",)), NotFound, "No step “own-1-x” was recorded", "needs"),
        (StepTyped("cover", fasteners=(FastenersTyped("0", "clips"),)), OutOfRange, "cannot be", "count"),
        (StepTyped("cover", fasteners=(FastenersTyped(thread="thick"),)), NotUnderstood, "thick", None),
        (StepTyped("cover", fasteners=(FastenersTyped(thread="M6", into="cheese"),)), NotFound, "no material", "into"),
        (StepTyped("cover", fasteners=(FastenersTyped(thread="M6", strength="9"),)), NotFound, "strength", "strength"),
        (StepTyped("cover", fasteners=(FastenersTyped(length="9 m"),)), OutOfRange, "500 mm at most", "length"),
    ],
)
def test_refuses_what_cannot_be_recorded_and_keeps_nothing(shop, saw, typed, error, match, field):
    with pytest.raises(error, match=match) as refusal:
        record_step(shop, saw, typed)
    assert refusal.value.field == field
    assert len(recording(shop, saw).operations) == 1
