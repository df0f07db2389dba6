"""The way in: held against plain search, walked by an independent checker, continued from half-open machines."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bellcrank.errors import KnowledgeFault, NotFound
from bellcrank.teardown.changeover import Changeover
from bellcrank.teardown.legality import back_problems, plan_problems
from bellcrank.teardown.search import Effort
from bellcrank.teardown.way_in import way_in

from .small_models import (
    TOOLS,
    WAYS,
    changeovers,
    least_minutes,
    machine,
    machines,
    operation,
    reachable,
    safe_machines_of_many_ways,
    ways_of,
    ways_to_do,
)

FEW = settings(max_examples=150, deadline=None)


def minutes_of(assembly, steps, changeover, lies):
    """What a plan takes, added up step by step from the raw figures."""
    spent, held, lying = 0.0, "", lies
    turns = changeover.turns_between(ways_of(assembly, changeover, lies))
    for step in steps:
        way = next(way for way in ways_to_do(step.operation) if way[0] == step.method)
        _, _, tool, minutes, orientations, _ = way
        assert step.tool == tool
        if tool not in ("hand", held):
            spent += changeover.tool_minutes
            held = tool
        spent += minutes + turns[lying, step.orientation]
        assert step.turn_first == (lying != step.orientation)
        assert not orientations or step.orientation in orientations
        lying = step.orientation
    return spent


@FEW
@given(machines(), changeovers(), st.data())
def test_no_plain_search_finds_a_shorter_way_in(assembly, changeover, data):
    names = sorted(reachable(assembly))
    assume(names)
    targets = tuple(data.draw(st.lists(st.sampled_from(names), min_size=1, max_size=2, unique=True)))
    lies = data.draw(st.sampled_from(WAYS))
    way = way_in(assembly, targets, changeover=changeover, lies=lies)
    assert way.proven
    assert way.minutes == pytest.approx(least_minutes(assembly, set(targets), changeover, lies=lies))
    assert way.minutes == pytest.approx(minutes_of(assembly, way.steps, changeover, lies))
    assert way.minutes == pytest.approx(way.work_minutes + way.changeover_minutes)
    assert plan_problems(assembly, [step.operation.id for step in way.steps]) == []


@FEW
@given(machines(), changeovers(), st.data())
def test_a_half_open_machine_is_gone_on_with_in_least_time(assembly, changeover, data):
    names = sorted(reachable(assembly))
    assume(names)
    first, second = data.draw(st.sampled_from(names)), data.draw(st.sampled_from(names))
    before = way_in(assembly, (first,), changeover=changeover)
    stopped_after = data.draw(st.integers(0, len(before.steps)))
    already = frozenset(step.operation.id for step in before.steps[:stopped_after])
    way = way_in(assembly, (second,), already_done=already, changeover=changeover)
    assert way.proven
    assert way.minutes == pytest.approx(least_minutes(assembly, {second}, changeover, already))
    assert plan_problems(assembly, [step.operation.id for step in way.steps], already) == []


@FEW
@given(machines(), changeovers(), st.data(), st.integers(0, 3))
def test_a_search_given_up_says_honestly_how_far_off_it_may_be(assembly, changeover, data, most_states):
    names = sorted(reachable(assembly))
    assume(names)
    target = data.draw(st.sampled_from(names))
    way = way_in(assembly, (target,), changeover=changeover, effort=Effort(most_states))
    least = least_minutes(assembly, {target}, changeover)
    assert way.bound <= least + 1e-9 <= way.minutes + 2e-9
    assert not way.proven or way.minutes == pytest.approx(least)
    assert plan_problems(assembly, [step.operation.id for step in way.steps]) == []


@FEW
@given(safe_machines_of_many_ways(), st.data())
def test_the_plug_lead_comes_off_before_anything_else(assembly, data):
    target = data.draw(st.sampled_from(sorted(reachable(assembly) - {"lead-off"})))
    way = way_in(assembly, (target,))
    assert way.steps[0].operation.id == "lead-off"
    assert plan_problems(assembly, [(step.operation.id, step.method) for step in way.steps]) == []


@FEW
@given(safe_machines_of_many_ways(), st.data())
def test_what_came_off_goes_back_in_the_reverse_order_whatever_way_it_came_off(assembly, data):
    target = data.draw(st.sampled_from(sorted(reachable(assembly) - {"lead-off"})))
    way = way_in(assembly, (target,))
    off = [(step.operation.id, step.method) for step in way.steps]
    assert back_problems(assembly, off, [name for name, _ in reversed(off)]) == []


def test_a_tank_is_swung_aside_when_that_is_quicker_than_taking_it_off():
    assembly = machine(
        operation("tank-off", minutes=2.0),
        operation("tank-aside", minutes=0.5),
        operation("shroud-off", [("tank-off", "tank-aside")]),
    )
    assert [step.operation.id for step in way_in(assembly, ("shroud-off",)).steps] == ["tank-aside", "shroud-off"]
    both = way_in(assembly, ("shroud-off", "tank-off"))
    assert [step.operation.id for step in both.steps] == ["tank-off", "shroud-off"]


def test_a_second_member_of_a_group_is_done_when_it_saves_turning_the_machine_twice():
    assembly = machine(
        operation("drain", tool="hand", orientations=("on its side",), minutes=1.0),
        operation("seal", tool="hand", orientations=("upright",), minutes=0.2),
        operation("cover", [("drain", "seal")], orientations=("upright",)),
        operation("sump", ["drain", "cover"], orientations=("on its side",)),
    )
    way = way_in(assembly, ("sump",))
    assert [step.operation.id for step in way.steps] == ["seal", "cover", "drain", "sump"]
    assert [step.operation.id for step in way.steps if step.turn_first] == ["drain"]


def test_screws_of_one_tool_are_taken_together():
    assembly = machine(
        operation("a", tool=TOOLS[1]),
        operation("b", tool=TOOLS[2]),
        operation("c", tool=TOOLS[1]),
        operation("cover", ["a", "b", "c"]),
    )
    way = way_in(assembly, ("cover",))
    assert way.tools == (TOOLS[1], TOOLS[2])
    assert way.changeover_minutes == pytest.approx(2 * Changeover().tool_minutes)


def test_nothing_is_left_to_do_when_the_part_is_free_already():
    assembly = machine(operation("cover"))
    way = way_in(assembly, ("cover",), already_done=frozenset({"cover"}), lies="on its side")
    assert (way.steps, way.minutes, way.ends_lying, way.proven) == ((), 0.0, "on its side", True)


def test_refuses_a_part_that_is_not_on_this_machine():
    with pytest.raises(NotFound, match=r"no way in to “gearbox” on this machine\. It must be one of cover"):
        way_in(machine(operation("cover")), ("gearbox",))


def test_refuses_a_step_done_that_is_not_on_this_machine():
    with pytest.raises(NotFound, match="no step “gearbox-off”"):
        way_in(machine(operation("cover")), ("cover",), already_done=frozenset({"gearbox-off"}))


def test_refuses_a_model_in_which_two_parts_hold_each_other():
    with pytest.raises(KnowledgeFault, match="no legal way in"):
        way_in(machine(operation("a", ["b"]), operation("b", ["a"])), ("a",))


def test_refuses_a_model_that_needs_a_step_it_does_not_have():
    with pytest.raises(KnowledgeFault, match="needs “b”, which is no step"):
        way_in(machine(operation("a", ["b"])), ("a",))


def test_a_wall_of_choices_that_come_to_the_same_is_proven_without_trying_them_all():
    choices = [operation(f"{side}{number}", minutes=1.0 + 0.01 * number) for number in range(14) for side in "ab"]
    locks = [operation(f"lock{number}", [(f"a{number}", f"b{number}")], tool=f"key {number}") for number in range(14)]
    assembly = machine(*choices, *locks, operation("safe", [one.id for one in locks]))
    way = way_in(assembly, ("safe",))
    assert plan_problems(assembly, [step.operation.id for step in way.steps]) == []
    assert way.minutes == pytest.approx(14 * 1.065 + 14 + 1 + 14 * 0.1)
    assert way.proven
    assert way.looked_at < 2**14


def test_one_who_is_tired_of_waiting_gets_the_best_found_and_how_far_off_it_may_be():
    left, right = (
        [operation(f"{side}{n}", [f"{side}{n - 1}"] if n else [], tool=f"key {n * step % 7}") for n in range(9)]
        for side, step in (("a", 2), ("b", 3))
    )
    assembly = machine(*left, *right, operation("safe", ["a8", "b8"]))
    told = []
    way = way_in(assembly, ("safe",), effort=Effort(go_on=lambda progress: bool(told.append(progress))))
    whole = way_in(assembly, ("safe",))
    assert whole.proven
    assert way.bound <= whole.minutes <= way.minutes
    assert [(one.bound <= whole.minutes, one.minutes >= whole.minutes) for one in told] in ([], [(True, True)])
