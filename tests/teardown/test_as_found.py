from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.knowledge.assembly import CONDITIONS
from bellcrank.teardown.as_found import CONDITION, LENGTH, MISSING, NOTE, Captured, NewLength, as_found, conditions_of
from bellcrank.teardown.legality import assembly_problems, back_problems, plan_problems
from bellcrank.teardown.steps import on_the_tray
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out
from tests.teardown.small_models import fastener, machine, operation, safe_machines


def longer(numbers, length, name="bolts"):
    return Captured(LENGTH, "shroud-off", name, lengths=(NewLength(name, tuple(numbers), length),))


def gone(missing, numbers=(1, 2, 3)):
    return Captured(MISSING, "shroud-off", "bolts", numbers=numbers, missing=missing)


@pytest.fixture
def shroud():
    places = ((10.0, 0.0), (20.0, 0.0), (30.0, 0.0))
    bolts = fastener(count=3, length_mm=20.0, engaged_mm=12.0, places=places)
    return machine(
        operation("lead-off", part="plug-lead", kind="make-safe"),
        operation("shroud-off", ("lead-off",), fasteners=(bolts,)),
    )


def bolts_of(assembly):
    return assembly.operations[1].fasteners


def test_one_longer_bolt_stands_apart_with_its_number_and_place(shroud):
    usual, odd = bolts_of(as_found(shroud, [longer([2], 35.0)]))
    assert (usual.id, usual.count, usual.length_mm, usual.where) == (
        "bolts",
        2,
        20.0,
        "numbers 1, 3 of 3: left and right",
    )
    assert (odd.id, odd.count, odd.length_mm, odd.where) == ("bolts-n2", 1, 35.0, "number 2 of 3: left and right")
    assert (usual.places, odd.places) == (((10.0, 0.0), (30.0, 0.0)), ((20.0, 0.0),))


def test_all_of_another_length_stay_one_group_under_their_name(shroud):
    (bolts,) = bolts_of(as_found(shroud, [longer([1, 2, 3], 25.0)]))
    assert (bolts.id, bolts.count, bolts.length_mm) == ("bolts", 3, 25.0)


def test_a_longer_bolt_is_not_trusted_to_hold_with_more_thread_a_shorter_one_holds_less(shroud):
    (longer_ones,) = bolts_of(as_found(shroud, [longer([1, 2, 3], 30.0)]))
    (shorter_ones,) = bolts_of(as_found(shroud, [longer([1, 2, 3], 15.0)]))
    assert longer_ones.engaged_mm == 12.0
    assert shorter_ones.engaged_mm == 12.0 - (20.0 - 15.0)


def test_a_bolt_far_too_short_for_the_drawing_still_holds_with_no_more_than_itself(shroud):
    (bolts,) = bolts_of(as_found(shroud, [longer([1, 2, 3], 5.0)]))
    assert bolts.engaged_mm == 5.0


def test_the_last_word_on_a_length_counts(shroud):
    assert as_found(shroud, [longer([2], 35.0), longer([2], 20.0)]) == shroud


def test_what_is_missing_does_not_lie_on_the_tray(shroud):
    found = as_found(shroud, [gone(1)])
    assert bolts_of(found)[0].missing == 1
    assert on_the_tray(found, ["shroud-off"]) == 3 - 1


def test_the_last_word_on_what_is_missing_counts(shroud):
    assert bolts_of(as_found(shroud, [gone(3), gone(1)]))[0].missing == 1
    assert as_found(shroud, [gone(2), gone(0)]) == shroud


def test_a_missing_bolt_among_those_that_stand_apart_is_missing_there(shroud):
    usual, odd = bolts_of(as_found(shroud, [longer([2], 35.0), gone(1, (2,))]))
    assert (usual.missing, odd.missing) == (0, 1)


def test_a_bolt_whose_length_was_told_is_not_the_missing_one(shroud):
    for told in ([longer([3], 35.0), gone(1)], [gone(1), longer([3], 35.0)]):
        usual, odd = bolts_of(as_found(shroud, told))
        assert (usual.missing, odd.missing) == (1, 0)


def test_what_speaks_of_fasteners_of_another_machine_changes_nothing(shroud):
    assert as_found(shroud, [longer([1], 35.0, name="rivets"), Captured(NOTE, "no-step", words="mind")]) == shroud


def test_a_nut_takes_no_length():
    nut = fastener(into="", engaged_mm=None, length_mm=None)
    one = machine(operation("lead-off", part="plug-lead"), operation("shroud-off", ("lead-off",), fasteners=(nut,)))
    assert as_found(one, [longer([1, 2], 30.0)]) == one


def test_the_last_condition_of_each_fastener_counts():
    told = [
        Captured(CONDITION, "shroud-off", "bolts", condition="seized"),
        Captured(CONDITION, "shroud-off", "stud", condition="corroded"),
        Captured(CONDITION, "shroud-off", "bolts", condition="rounded"),
        Captured(CONDITION, "blade-off", "bolt", condition="seized"),
        Captured(CONDITION, "blade-off", "bolt", condition=""),
    ]
    assert conditions_of(told) == {"shroud-off": {"rounded", "corroded"}}


@st.composite
def captures(draw, assembly):
    """Anything that may be tapped, also about fasteners and numbers there are none of."""
    names = [one.id for step in assembly.operations for one in step.fasteners] + ["rivets"]
    numbers = st.lists(st.integers(1, 5), unique=True, max_size=3).map(tuple)
    lengths = st.sampled_from([3.0, 8.0, 16.0, 20.0, 35.5])
    new = st.builds(NewLength, st.sampled_from(names), numbers, lengths)
    return draw(
        st.lists(
            st.builds(
                Captured,
                st.sampled_from([LENGTH, MISSING, CONDITION, NOTE]),
                st.sampled_from([step.id for step in assembly.operations]),
                st.sampled_from(names),
                lengths=st.lists(new, max_size=2).map(tuple),
                condition=st.sampled_from(["", *CONDITIONS]),
                numbers=numbers,
                missing=st.integers(0, 4),
            ),
            max_size=6,
        )
    )


@given(st.data())
def test_any_captures_leave_a_sound_model_with_legal_ways_in_and_out(data):
    drawn = data.draw(safe_machines())
    kinds = data.draw(st.lists(st.sampled_from(["bolt", "nut", "clip"]), min_size=8, max_size=8))
    changes = {
        "bolt": {"count": 4},
        "nut": {"count": 3, "into": "", "engaged_mm": None, "length_mm": None},
        "clip": {"count": 2, "thread": "", "strength": "", "into": "", "engaged_mm": None, "length_mm": None},
    }
    drawn = replace(
        drawn,
        operations=tuple(
            replace(one, fasteners=tuple(replace(each, **changes[kind]) for each in one.fasteners))
            for one, kind in zip(drawn.operations, kinds, strict=False)
        ),
    )
    told = data.draw(captures(drawn))
    found = as_found(drawn, told)
    assert set(assembly_problems(found)) <= set(assembly_problems(drawn))  # what cannot be reached, nobody captured
    counts = [sum(one.count for step in each.operations for one in step.fasteners) for each in (drawn, found)]
    assert counts[0] == counts[1]
    plan = way_in(found, (found.operations[0].part,))
    order = [step.operation.id for step in plan.steps]
    assert plan_problems(found, order) == []
    assert back_problems(found, order, [step.operation.id for step in way_out(found, tuple(order)).steps]) == []
