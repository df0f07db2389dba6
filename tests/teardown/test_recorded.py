import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.knowledge.assembly_tables import assembly_toml
from bellcrank.knowledge.assembly_text import assembly
from bellcrank.knowledge.pack import read_library
from bellcrank.teardown.legality import assembly_problems, back_problems, plan_problems
from bellcrank.teardown.recorded import (
    NUT,
    RecordedFastener,
    RecordedStep,
    lead_off,
    part_name,
    recorded_assembly,
    step_name,
)
from bellcrank.teardown.torques import NoTorque, torque_for
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

LIBRARY = read_library()
LEAD = lead_off("own-7-plug-lead")


def step(part, *fasteners, needs=("own-7-plug-lead",), lies="upright", **changes):
    fields = {"do": f"Take the {part} off", "tool": "hand", "aside": False, "minutes": 1.0}
    name = step_name(7, part, ())
    return RecordedStep(id=name, part=part, lies=lies, needs=needs, fasteners=fasteners, **(fields | changes))


def recorded(*steps):
    return recorded_assembly("recorded-7", "as recorded", (LEAD, *steps))


def test_every_part_is_a_target_and_what_was_swung_aside_is_swung_back():
    model = recorded(step("Belt cover"), step("idler arm", aside=True))
    assert dict(model.targets) == {
        "plug-lead": "own-7-plug-lead",
        "belt-cover": "own-7-belt-cover",
        "idler-arm": "own-7-idler-arm",
    }
    assert [one.undo for one in model.operations][1:] == ["Put the Belt cover back", "Swing the idler arm back"]


def test_the_plug_lead_goes_back_last_with_its_caution():
    model = recorded(step("belt cover"))
    assert model.operations[0].undo.startswith("Last of all")
    assert model.operations[0].hazards[0] == "plug-lead-off"


@pytest.mark.parametrize(
    ("part", "touches", "caution"),
    [
        ("blade", "blade", "blade-turns"),
        ("fuel tank", "fuel", "petrol-vapour"),
        ("tine shaft", "tool", "tool-turns"),
        ("recoil starter", "engine", "recoil-spring"),
    ],
)
def test_what_a_part_is_brings_its_caution_and_its_lines_of_the_release_list(part, touches, caution):
    operation = recorded(step(part)).operations[1]
    assert touches in operation.touches
    assert caution in operation.hazards
    assert caution in operation.undo_hazards


def test_the_screws_of_a_blade_are_a_safety_joint_and_turn_the_engine():
    operation = recorded(step("blade", RecordedFastener("", 1, "M10", 30.0))).operations[1]
    assert operation.turns_crank
    assert operation.fasteners[0].safety_joint


def test_a_screw_told_in_full_gets_a_computed_torque():
    told = RecordedFastener("", 2, "M6", 25.0, "10 mm socket", "front", "8.8", "cast-aluminium", 12.0)
    (screw,) = recorded(step("cover", told)).operations[1].fasteners
    assert not isinstance(torque_for(screw, LIBRARY.materials, LIBRARY.strength_classes), NoTorque)


@pytest.mark.parametrize("left_out", ["strength", "into", "thread"])
def test_a_screw_of_which_something_is_not_known_gets_none(left_out):
    told = {"thread": "M6", "strength": "8.8", "into": "cast-aluminium"} | {left_out: ""}
    (screw,) = recorded(step("cover", RecordedFastener("", 2, length_mm=25.0, **told))).operations[1].fasteners
    assert torque_for(screw, LIBRARY.materials, LIBRARY.strength_classes) == NoTorque("Seat it by hand.")


def test_thread_nobody_measured_is_taken_as_one_diameter_and_said_to_be_so():
    told = RecordedFastener("", 2, "M6", 25.0, strength="8.8", into="cast-aluminium")
    (screw,) = recorded(step("cover", told)).operations[1].fasteners
    assert screw.engaged_mm == pytest.approx(6.0)  # M6: 6 mm across, ISO 68-1
    assert "not measured" in screw.thread_care


def test_a_screw_through_into_a_nut_keeps_its_length_in_words():
    told = RecordedFastener("cover screws", 2, "M6", 25.0, strength="8.8", into=NUT)
    (screw,) = recorded(step("cover", told)).operations[1].fasteners
    assert (screw.words, screw.length_mm, screw.into) == ("cover screws, 25 mm long", None, "")


def test_words_without_a_plain_letter_still_make_a_name():
    assert part_name("护罩", "own-7-part") == "own-7-part"
    assert step_name(7, "护罩", ["own-7-part"]) == "own-7-part-again"


@st.composite
def recordings(draw):
    """A recording as the bench can make it: each step needs some of those before it."""
    steps = [LEAD]
    words = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), min_size=1, max_size=12)
    fasteners = st.builds(
        RecordedFastener,
        words,
        st.integers(1, 9),
        st.sampled_from(["", "M6", "1/4-20", "M8×1"]),
        st.sampled_from([None, 12.5, 40.0]),
        st.sampled_from(["", "10 mm socket", "T25 bit"]),
        words,
        st.sampled_from(["", "8.8", "G5"]),
        st.sampled_from(["", NUT, "cast-aluminium", "thin-sheet"]),
        st.sampled_from([None, 6.0]),
    )
    for _ in range(draw(st.integers(1, 6))):
        part = draw(st.sampled_from(["cover", "blade", "fuel tank", "护罩", 'bracket "A"']))
        known = [one.id for one in steps]
        steps.append(
            RecordedStep(
                id=step_name(7, part, known),
                do=draw(words),
                part=part,
                tool=draw(st.sampled_from(["hand", "10 mm socket"])),
                aside=draw(st.booleans()),
                lies=draw(st.sampled_from(["upright", "on its side", "auf dem Kopf"])),
                minutes=draw(st.sampled_from([0.3, 1.0, 7.5])),
                needs=tuple(draw(st.lists(st.sampled_from(known), min_size=1, max_size=3, unique=True))),
                fasteners=tuple(draw(st.lists(fasteners, max_size=3))),
            )
        )
    return recorded_assembly("recorded-7", draw(words), steps)


@given(recordings(), st.data())
def test_every_recording_is_a_sound_model_with_legal_ways_in_and_out(model, data):
    assert assembly_problems(model) == []
    plan = way_in(model, (data.draw(st.sampled_from(sorted(model.targets))),))
    order = [one.operation.id for one in plan.steps]
    assert plan_problems(model, order) == []
    assert back_problems(model, order, [one.operation.id for one in way_out(model, tuple(order)).steps]) == []
    as_done = [one.id for one in model.operations]
    assert plan_problems(model, as_done) == []


@given(recordings())
def test_a_recording_written_as_a_file_reads_back_the_same(model):
    assert assembly("written", tomllib.loads(assembly_toml(model))) == model
