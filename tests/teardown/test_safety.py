"""Whatever a model says: nothing is turned before the plug lead is off, and the lead goes back last.

Plans are walked by :mod:`bellcrank.teardown.legality`, which shares nothing with the planner.
"""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.errors import KnowledgeFault, NotAllowedNow
from bellcrank.teardown.legality import back_problems, plan_problems
from bellcrank.teardown.safety import made_safe
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

from .small_models import machine, machines, operation

MANY = settings(max_examples=300, deadline=None)


@st.composite
def careless_machines(draw):
    """A random machine whose model may forget the plug lead anywhere, hide it behind something, or not have it."""
    plain = draw(machines())
    turning = tuple(replace(one, turns_crank=draw(st.booleans())) for one in plain.operations)
    if not draw(st.integers(0, 3)):
        return machine(*turning)
    hidden = draw(st.integers(0, 5)) == 0
    lead = operation("lead-off", ["op0"] if hidden else (), part="plug-lead", kind="make-safe")
    place = draw(st.integers(0, len(turning)))
    return machine(*turning[:place], lead, *turning[place:])


@MANY
@given(careless_machines(), st.data())
def test_no_plan_for_any_model_turns_the_engine_before_the_lead_is_off(assembly, data):
    target = data.draw(st.sampled_from(sorted(assembly.targets)))
    try:
        way = way_in(assembly, (target,))
    except KnowledgeFault:
        return  # refused: no plan at all
    order = tuple(step.operation.id for step in way.steps)
    assert plan_problems(assembly, [(step.operation.id, step.method) for step in way.steps]) == []
    if any(one.part == "plug-lead" for one in assembly.operations):
        assert order[0] == "lead-off"
    back = way_out(
        assembly,
        order,
        lies={step.operation.id: step.orientation for step in way.steps},
        methods={step.operation.id: step.method for step in way.steps},
    )
    back_order = [step.operation.id for step in back.steps]
    assert back_problems(assembly, [(step.operation.id, step.method) for step in way.steps], back_order) == []
    assert "lead-off" not in back_order[:-1]


@MANY
@given(careless_machines(), st.data())
def test_the_lead_goes_back_last_however_the_machine_was_taken_apart(assembly, data):
    try:
        made_safe(assembly)
    except KnowledgeFault:
        return
    names = [one.id for one in assembly.operations]
    off = tuple(data.draw(st.lists(st.sampled_from(names), unique=True, min_size=1)))
    turns = any(one.turns_crank for one in assembly.operations if one.id in off)
    if turns and "lead-off" not in off:
        with pytest.raises(NotAllowedNow, match="turns the engine and the plug lead is on"):
            way_out(assembly, off)
        return
    back = [step.operation.id for step in way_out(assembly, off).steps]
    assert sorted(back) == sorted(off)
    assert "lead-off" not in back[:-1]


def test_a_model_that_turns_the_engine_and_knows_no_plug_lead_is_refused():
    with pytest.raises(KnowledgeFault, match="no step takes the plug lead off"):
        way_in(machine(operation("blade-off", turns_crank=True)), ("blade-off",))


def test_a_model_that_hides_the_plug_lead_behind_something_is_refused():
    lead = operation("lead-off", ["cover-off"], part="plug-lead")
    with pytest.raises(KnowledgeFault, match="it must be the first"):
        way_in(machine(operation("cover-off"), lead), ("cover-off",))


def test_a_model_that_keeps_the_rule_is_left_as_it_is():
    lead = operation("lead-off", part="plug-lead")
    told = machine(lead, operation("cover-off", ["lead-off"]))
    assert made_safe(told) == told
