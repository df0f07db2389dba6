import pytest
from tests.shop.test_photos import picture

from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.captured import capture, capture_photo
from bellcrank.shop.captured_typed import Typed
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.machine_model import assemblies_for, conditions_for
from bellcrank.shop.records import read_record
from bellcrank.shop.tray import tray_sheet
from bellcrank.shop.work import choose_target, tick

KITTIWAKE = {"complaints": ("hunts",), "maker": "Ternwick", "model": "Kittiwake 46"}
STEP, BOLTS = "shroud-bolts-out", "shroud-bolts-long"


@pytest.fixture
def on_the_way(shop):
    """Give a job on its way in to the flywheel."""
    number = take_in(shop, Story(**KITTIWAKE, serial="TK-1"))
    choose_target(shop, number, "flywheel")
    return number


def bolts(shop, number, name=BOLTS):
    steps = (s for each in assemblies_for(shop, read_record(shop, number)) for s in each.operations)
    return next(one for step in steps for one in step.fasteners if one.id == name)


def length(**typed):
    return Typed("length", at=STEP, **{"fastener": BOLTS, "length": "35", **typed})


def test_a_longer_bolt_is_known_on_this_machine_and_no_other(shop, on_the_way):
    drawn = bolts(shop, on_the_way).length_mm
    capture(shop, on_the_way, length(than="longer"))
    other = take_in(shop, Story(**KITTIWAKE, serial="TK-2"))
    assert bolts(shop, on_the_way).length_mm == 35.0
    assert bolts(shop, other).length_mm == drawn


def test_it_is_known_again_when_the_same_machine_comes_in_again(shop, on_the_way):
    capture(shop, on_the_way, length())
    again = take_in(shop, Story(**KITTIWAKE, serial="tk-1"))
    assert bolts(shop, again).length_mm == 35.0


def test_machines_without_a_serial_number_are_not_taken_for_one_another(shop):
    first, second = (take_in(shop, Story(**KITTIWAKE)) for _ in range(2))
    capture(shop, first, length())
    assert bolts(shop, second).length_mm != 35.0


def test_kept_for_all_it_is_known_on_every_machine_of_that_maker_and_model(shop, on_the_way):
    capture(shop, on_the_way, length(for_all=True))
    alike = take_in(shop, Story(**KITTIWAKE, serial="TK-2"))
    another = take_in(shop, Story(complaints=("hunts",), maker="Saltmarsh"))
    assert bolts(shop, alike).length_mm == 35.0
    assert bolts(shop, another).length_mm != 35.0


def test_kept_from_a_machine_nobody_named_it_is_known_on_every_one_of_the_kind(shop):
    plain = take_in(shop, Story(complaints=("hunts",)))
    capture(shop, plain, length(for_all=True))
    assert bolts(shop, take_in(shop, Story(**KITTIWAKE))).length_mm == 35.0


def test_bolts_that_were_swapped_have_each_others_length_however_often_it_is_tapped(shop, on_the_way):
    long, short = (bolts(shop, on_the_way, name).length_mm for name in (BOLTS, "shroud-bolts-short"))
    for _ in range(2):
        capture(shop, on_the_way, Typed("swap", at=STEP, fastener=BOLTS, other="shroud-bolts-short"))
    assert (bolts(shop, on_the_way).length_mm, bolts(shop, on_the_way, "shroud-bolts-short").length_mm) == (short, long)


def test_one_of_the_bolts_can_be_longer(shop, on_the_way):
    capture(shop, on_the_way, length(which="2"))
    work = job_sheet(shop, on_the_way).work
    step = next(one for one in work.steps_out if one.operation == STEP)
    assert [(one.fastener.id, one.fastener.count) for one in step.fasteners] == [
        (BOLTS, 1), (f"{BOLTS}-n2", 1), ("shroud-bolts-short", 2),
    ]  # fmt: skip
    assert all(one.torque for one in step.fasteners)


def test_what_was_captured_is_taken_back(shop, on_the_way):
    before = assemblies_for(shop, read_record(shop, on_the_way))
    capture(shop, on_the_way, length(for_all=True))
    take_back(shop, on_the_way)
    assert assemblies_for(shop, read_record(shop, on_the_way)) == before
    assert bolts(shop, take_in(shop, Story(**KITTIWAKE))).length_mm != 35.0


def test_a_second_tap_keeps_nothing_twice(shop, on_the_way):
    assert capture(shop, on_the_way, length(for_all=True)) == capture(shop, on_the_way, length(for_all=True))


def test_the_tray_holds_less_what_is_missing_and_the_way_back_asks_for_new_ones(shop, on_the_way):
    capture(shop, on_the_way, Typed("missing", at=STEP, fastener=BOLTS, missing="2"))
    order = [step.operation for step in job_sheet(shop, on_the_way).work.steps_in]
    for name in order[: order.index(STEP)]:
        tick(shop, on_the_way, "in", name, done=True)
    before = job_sheet(shop, on_the_way).work.on_the_tray
    tick(shop, on_the_way, "in", STEP, done=True)
    assert job_sheet(shop, on_the_way).work.on_the_tray == before + 2 + 2 - 2  # two long, two short, two missing


def test_what_is_missing_has_no_spot_on_the_tray_sheet(shop, on_the_way):
    before = tray_sheet(job_sheet(shop, on_the_way))
    capture(shop, on_the_way, Typed("missing", at=STEP, fastener=BOLTS, missing="1"))
    capture(shop, on_the_way, Typed("missing", at=STEP, fastener="shroud-bolts-short", missing="2"))
    after = tray_sheet(job_sheet(shop, on_the_way))
    assert (after.total, len(after.trays)) == (before.total - 3, len(before.trays) - 1)
    assert sum(len(tray.spots) for tray in after.trays) == after.total


def test_what_is_missing_is_no_longer_so_on_the_next_job(shop, on_the_way):
    capture(shop, on_the_way, Typed("missing", at=STEP, fastener=BOLTS))
    assert bolts(shop, on_the_way).missing == 1
    assert bolts(shop, take_in(shop, Story(**KITTIWAKE, serial="TK-1"))).missing == 0


def test_missing_is_not_kept_for_every_machine(shop, on_the_way):
    with pytest.raises(NotAllowedNow, match="missing on this machine only"):
        capture(shop, on_the_way, Typed("missing", at=STEP, fastener=BOLTS, for_all=True))


def test_a_seized_fastener_is_known_until_it_came_loose(shop, on_the_way):
    seized = Typed("condition", at=STEP, fastener=BOLTS, condition="seized")
    capture(shop, on_the_way, seized)
    assert conditions_for(shop, read_record(shop, on_the_way)) == {STEP: {"seized"}}
    capture(shop, on_the_way, Typed("condition", at=STEP, fastener=BOLTS, condition="free"))
    assert conditions_for(shop, read_record(shop, on_the_way)) == {}


def test_a_note_stands_at_its_step_and_can_be_taken_back_there(shop, on_the_way):
    event = capture(shop, on_the_way, Typed("note", at=STEP, words="spring washer under the left one"))
    (found,) = job_sheet(shop, on_the_way).work.captured.found
    assert (found.operation, found.words, found.entry) == (STEP, "spring washer under the left one", event)


def test_without_a_step_the_one_that_is_next_is_meant(shop, on_the_way):
    capture(shop, on_the_way, Typed("note", words="lead cracked"))
    assert job_sheet(shop, on_the_way).work.captured.found[0].operation == "lead-off"


def test_a_photo_taken_at_a_step_is_shown_there(shop, on_the_way):
    capture_photo(shop, on_the_way, STEP, "bolts.png", picture())
    (photo,) = job_sheet(shop, on_the_way).photos
    assert photo.operation == STEP
    assert job_sheet(shop, on_the_way).events[-1].words.startswith("photo added at “")


def test_the_history_says_what_was_found(shop, on_the_way):
    capture(shop, on_the_way, length(which="2", for_all=True))
    assert job_sheet(shop, on_the_way).events[-1].words == (
        "long shroud bolts, number 2 of 2: 35 mm long, not 28 mm; kept for every Ternwick Kittiwake 46"
    )


@pytest.mark.parametrize(
    ("typed", "error", "match", "field"),
    [
        (length(length=""), NotUnderstood, "How long are the", "length"),
        (length(length="long"), NotUnderstood, "cannot be read as a number", None),
        (length(length="-3"), OutOfRange, "must be above zero", None),
        (length(length="2 m"), OutOfRange, "that cannot be", "length"),
        (length(length="9", than="longer"), OutOfRange, "9 mm is not longer: .* known as 28 mm", "length"),
        (length(which="3"), OutOfRange, "no number 3 .* they are 1 to 2", "which"),
        (length(fastener=""), NotUnderstood, "Which fasteners of", "fastener"),
        (length(fastener="rivets"), NotFound, "has no fastener “rivets”", "fastener"),
        (Typed("length", at="nut-off", length="20"), NotAllowedNow, "are nuts", "length"),
        (Typed("length", at="lead-off", length="20"), NotAllowedNow, "has no fasteners in the model", "fastener"),
        (Typed("swap", at=STEP, fastener=BOLTS, other=BOLTS), NotUnderstood, "Swapped with itself", "other"),
        (Typed("condition", at="nut-off", condition="tight"), NotUnderstood, "no condition known here", "condition"),
        (Typed("missing", at=STEP, fastener=BOLTS, missing="3"), OutOfRange, "there are 2. Type 0 to 2", "missing"),
        (Typed("missing", at=STEP, fastener=BOLTS, missing="-1"), OutOfRange, "cannot be missing", "missing"),
        (Typed("note", at=STEP, words="  "), NotUnderstood, "The note is empty", "words"),
        (Typed("paint", at=STEP), NotUnderstood, "does not say what was found", "what"),
        (Typed("note", at="paint-off", words="x"), NotFound, "There is no step “paint-off”", "at"),
    ],
)
def test_refuses_what_cannot_be_and_keeps_nothing(shop, on_the_way, typed, error, match, field):
    before = job_sheet(shop, on_the_way).events
    with pytest.raises(error, match=match) as refusal:
        capture(shop, on_the_way, typed)
    assert refusal.value.field == field
    assert job_sheet(shop, on_the_way).events == before


def test_asks_for_a_step_where_none_is_next(shop, job):
    with pytest.raises(NotAllowedNow, match="No step is next"):
        capture(shop, job, Typed("note", words="dented"))


CORRODED = Typed("condition", fastener="blade-bolt", condition="corroded")


@pytest.fixture
def to_the_blade(shop):
    """Give a job on its way in to the blade, whose bolt comes out by impact where nothing speaks against it."""
    number = take_in(shop, Story(**KITTIWAKE))
    choose_target(shop, number, "blade")
    assert "blade-blocked" not in steps_in(shop, number)
    return number


def steps_in(shop, number):
    return [step.operation for step in job_sheet(shop, number).work.steps_in]


def test_a_corroded_bolt_forbids_the_impact_wrench_and_the_way_in_is_planned_anew(shop, to_the_blade):
    tick(shop, to_the_blade, "in", "lead-off", done=True)
    capture(shop, to_the_blade, CORRODED)
    work = job_sheet(shop, to_the_blade).work
    assert "blade-blocked" in steps_in(shop, to_the_blade)
    assert work.steps_in[0].done
    assert "impact wrench" not in work.tools


def test_taken_back_the_way_is_as_it_was_with_one_tap(shop, to_the_blade):
    before = steps_in(shop, to_the_blade)
    capture(shop, to_the_blade, CORRODED)
    take_back(shop, to_the_blade)
    assert steps_in(shop, to_the_blade) == before


def test_a_condition_with_steps_ticked_on_its_way_cannot_be_taken_back(shop, to_the_blade):
    event = capture(shop, to_the_blade, CORRODED)
    tick(shop, to_the_blade, "in", "lead-off", done=True)
    with pytest.raises(NotAllowedNow, match="cannot be taken back"):
        take_back(shop, to_the_blade, event)


def test_the_next_way_on_such_a_machine_knows_it_from_the_start(shop, to_the_blade):
    capture(shop, to_the_blade, Typed("condition", fastener="blade-bolt", condition="rounded", for_all=True))
    alike = take_in(shop, Story(**KITTIWAKE))
    choose_target(shop, alike, "blade")
    assert "blade-blocked" in steps_in(shop, alike)


def test_what_was_barred_stays_barred_when_the_way_is_planned_anew(shop, to_the_blade):
    steps = [one for each in assemblies_for(shop, read_record(shop, to_the_blade)) for one in each.operations]
    step = next(one for one in steps if one.id == "blade-bolt-out")
    others = [f"{step.id}:{one.id}" for one in step.methods if "corroded" not in one.not_when]
    choose_target(shop, to_the_blade, "blade", barred=[f"{step.id}:", *others])
    capture(shop, to_the_blade, CORRODED)  # the rest is barred, impact forbidden: no way is left
    (found,) = job_sheet(shop, to_the_blade).work.captured.found
    assert found.words.startswith("blade bolt: corroded; ")
    assert "blade-blocked" not in steps_in(shop, to_the_blade)


def test_found_on_a_step_that_is_done_the_way_stays(shop, to_the_blade):
    for name in steps_in(shop, to_the_blade):
        tick(shop, to_the_blade, "in", name, done=True)
    before = steps_in(shop, to_the_blade)
    capture(shop, to_the_blade, CORRODED)
    assert steps_in(shop, to_the_blade) == before
