"""Every kind's model of how it comes apart: sound, every part has a legal way in and a way back."""

import pytest

from bellcrank.knowledge.model import Signal
from bellcrank.knowledge.pack import read_library
from bellcrank.teardown.legality import assembly_problems, back_problems, plan_problems
from bellcrank.teardown.torques import torque_for
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

LIBRARY = read_library()
MODELS = {f"{kind}, {assembly.id}": assembly for kind, pack in LIBRARY.packs.items() for assembly in pack.assemblies}
WAYS = [(name, target) for name, assembly in MODELS.items() for target in assembly.targets]


def off_in_order(way):
    return tuple(step.operation.id for step in way.steps)


@pytest.mark.parametrize("name", MODELS)
def test_the_model_is_sound(name):
    assert assembly_problems(MODELS[name]) == []


@pytest.mark.parametrize(("name", "target"), WAYS)
def test_every_part_has_a_legal_way_in_and_back_with_the_plug_lead_off_first_and_on_last(name, target):
    assembly = MODELS[name]
    way = way_in(assembly, (target,))
    order = off_in_order(way)
    back = way_out(
        assembly,
        order,
        lies={step.operation.id: step.orientation for step in way.steps},
        methods={step.operation.id: step.method for step in way.steps},
    )
    put_back = off_in_order(back)
    assert way.proven
    assert plan_problems(assembly, [(step.operation.id, step.method) for step in way.steps]) == []
    assert back_problems(assembly, [(step.operation.id, step.method) for step in way.steps], put_back) == []
    assert (order[0], put_back[-1], back.turn_last) == ("lead-off", "lead-off", False)


@pytest.mark.parametrize("name", MODELS)
def test_numbered_places_lie_on_the_outline_one_for_each_fastener(name):
    views = {view.id: view for view in MODELS[name].views}
    for operation in MODELS[name].operations:
        for fastener in operation.fasteners:
            if fastener.view:
                view = views[fastener.view]
                assert len(fastener.places) == fastener.count, fastener.id
                assert len(set(fastener.places)) == fastener.count, fastener.id
                assert all(0 <= x <= view.width and 0 <= y <= view.height for x, y in fastener.places), fastener.id


@pytest.mark.parametrize("name", MODELS)
def test_outlines_stay_within_their_view(name):
    for view in MODELS[name].views:
        for shape in view.shapes:
            room = shape.radius
            assert all(room <= x <= view.width - room and room <= y <= view.height - room for x, y in shape.points)


@pytest.mark.parametrize("name", MODELS)
def test_every_fastener_has_a_torque_or_is_told_what_to_do_instead(name):
    for operation in MODELS[name].operations:
        for fastener in operation.fasteners:
            told = torque_for(fastener, LIBRARY.materials, LIBRARY.strength_classes)
            assert getattr(told, "words", "") or told.low < told.target < told.high, fastener.id


@pytest.mark.parametrize("name", MODELS)
def test_every_way_of_lying_but_the_usual_says_how_it_is_brought_to_lie_so(name):
    assembly = MODELS[name]
    ways = {way for operation in assembly.operations for way in operation.orientations}
    assert ways <= set(assembly.lying)


@pytest.mark.parametrize("name", MODELS)
def test_every_tool_of_a_step_and_of_its_other_ways_is_listed(name):
    tools = {one.tool for one in MODELS[name].operations}
    tools |= {method.tool for one in MODELS[name].operations for method in one.methods}
    assert tools - {"hand"} <= set(LIBRARY.tools)


@pytest.mark.parametrize("name", MODELS)
def test_hazards_of_other_ways_are_listed(name):
    named = {hazard for one in MODELS[name].operations for method in one.methods for hazard in method.hazards}
    assert named <= set(LIBRARY.hazards)


@pytest.mark.parametrize("name", MODELS)
def test_a_left_hand_thread_is_told_in_the_step_and_on_the_fastener(name):
    for operation in MODELS[name].operations:
        for fastener in operation.fasteners:
            told = [text for text in (fastener.where, fastener.thread_care) if "left-hand" in text.lower()]
            if told:
                assert "left-hand thread" in operation.do.lower(), fastener.id
                assert len(told) == 2, fastener.id


@pytest.mark.parametrize("name", MODELS)
def test_what_is_never_used_again_is_named_in_plain_words(name):
    assert all(part and part[0].islower() for one in MODELS[name].operations for part in one.renew)


@pytest.mark.parametrize("name", MODELS)
def test_gaps_rise_from_low_to_high(name):
    assert all(0 <= gap.low_mm < gap.high_mm for one in MODELS[name].operations for gap in one.gaps)


@pytest.mark.parametrize("name", MODELS)
def test_what_turns_or_cuts_when_it_comes_off_has_its_danger_said_when_it_goes_on(name):
    for operation in MODELS[name].operations:
        dangers = {one for one in operation.hazards if LIBRARY.hazards[one].signal is Signal.DANGER}
        if operation.turns_crank and operation.fasteners and dangers:
            back = {one for one in operation.undo_hazards if LIBRARY.hazards[one].signal is Signal.DANGER}
            assert back, operation.id
