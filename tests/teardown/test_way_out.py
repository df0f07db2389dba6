"""The way out: everything back, the plug lead last, a torque wrench wherever a torque can be told."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bellcrank.teardown.changeover import USUAL
from bellcrank.teardown.legality import back_problems
from bellcrank.teardown.steps import on_the_tray
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import tool_back, way_out

from .small_models import (
    changeovers,
    fastener,
    least_minutes_back,
    machine,
    machines,
    method,
    operation,
    reachable,
    safe_machines,
)

FEW = settings(max_examples=150, deadline=None)


def back_from(assembly, way, changeover=USUAL):
    order = tuple(step.operation.id for step in way.steps)
    lies = {step.operation.id: step.orientation for step in way.steps}
    return order, way_out(assembly, order, lies=lies, changeover=changeover)


@FEW
@given(safe_machines(), st.data())
def test_the_plug_lead_goes_on_last_and_the_tray_is_empty(assembly, data):
    target = data.draw(st.sampled_from(sorted(reachable(assembly) - {"lead-off"})))
    order, back = back_from(assembly, way_in(assembly, (target,)))
    put_back = [step.operation.id for step in back.steps]
    assert put_back[-1] == "lead-off"
    assert back_problems(assembly, order, put_back) == []
    taken_out = sum(one.count for name in order for one in _operation(assembly, name).fasteners)
    assert on_the_tray(assembly, order) == taken_out
    assert sum(one.count for step in back.steps for one in step.fasteners) == taken_out
    assert on_the_tray(assembly, set(order) - set(put_back)) == 0


@FEW
@given(machines(), changeovers(), st.data())
def test_its_bound_is_never_above_what_plain_search_finds(assembly, changeover, data):
    names = sorted(reachable(assembly))
    assume(names)
    way = way_in(assembly, (data.draw(st.sampled_from(names)),), changeover=changeover)
    order, back = back_from(assembly, way, changeover)
    least = least_minutes_back(assembly, order, changeover, way.ends_lying)
    assert back.bound <= least + 1e-9
    assert least <= back.minutes + 1e-9
    assert not back.proven or back.minutes == pytest.approx(least)
    assert back.minutes == pytest.approx(back.work_minutes + back.changeover_minutes)


def test_the_machine_is_stood_up_at_the_end():
    assembly = machine(operation("blade", orientations=("on its side",)))
    _, back = back_from(assembly, way_in(assembly, ("blade",)))
    assert (back.turn_last, back.steps[0].turn_first) == (True, False)
    assert back.changeover_minutes == pytest.approx(USUAL.turn_minutes)


def test_nothing_off_means_nothing_to_put_back():
    back = way_out(machine(operation("cover")), ())
    assert (back.steps, back.minutes, back.turn_last) == ((), 0.0, False)


def test_a_step_back_says_what_to_see_to_and_what_is_dangerous_then():
    coil = operation("coil", undo="Set the gap", undo_checks=("0.25 mm card",), hazards=("in",), undo_hazards=("out",))
    step = back_from(machine(coil), way_in(machine(coil), ("coil",)))[1].steps[0]
    assert (step.words, step.checks, step.hazards) == ("Set the gap", ("0.25 mm card",), ("out",))


@pytest.mark.parametrize(
    ("changes", "tool"),
    [
        ({}, "small torque wrench, 10 mm socket"),
        ({"thread": "1/4-20", "strength": "G5"}, "small torque wrench, 10 mm socket"),
        ({"thread": "5/8-18", "strength": "G2"}, "torque wrench, 10 mm socket"),
        ({"thread": "", "strength": ""}, "10 mm socket"),
        ({"strength": ""}, "10 mm socket"),
        ({"strength": "", "published_torque_nm": 24.0}, "small torque wrench, 10 mm socket"),
    ],
)
def test_a_torque_wrench_that_can_read_it_replaces_the_bare_socket(changes, tool):
    assert tool_back(operation("a", tool="10 mm socket", fasteners=(fastener(**changes),))) == tool


def test_a_torque_somebody_typed_fetches_the_wrench_too():
    bare = operation("a", tool="10 mm socket", fasteners=(fastener(strength="", id="cover-bolts"),))
    assert tool_back(bare, frozenset({"cover-bolts"})) == "small torque wrench, 10 mm socket"


def _operation(assembly, name):
    return next(one for one in assembly.operations if one.id == name)


def test_what_came_off_another_way_goes_back_as_that_way_says():
    impact = method(
        "impact", needs=(), undo="Block the blade, tighten the bolt", undo_minutes=3.0, undo_hazards=("sharp",)
    )
    assembly = machine(operation("blocked"), operation("bolt-out", ["blocked"], methods=(impact,)))
    usual = way_out(assembly, ("blocked", "bolt-out"))
    assert [(step.words, step.minutes) for step in usual.steps] == [
        ("Put bolt-out back", 1.0),
        ("Put blocked back", 1.0),
    ]
    other = way_out(assembly, ("bolt-out",), methods={"bolt-out": "impact"})
    assert [(step.words, step.minutes, step.hazards) for step in other.steps] == [
        ("Block the blade, tighten the bolt", 3.0, ("sharp",))
    ]
