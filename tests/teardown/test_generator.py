"""The generic generator: nothing in it is touched while it may hold a charge; alternator off the engine's taper."""

import pytest

from bellcrank.knowledge.pack import read_library
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

GENERATOR = read_library().packs["generator"].assemblies[0]
STEPS = {one.id: one for one in GENERATOR.operations}
ELECTRIC = [
    "panel",
    "inverter",
    "end-cover",
    "brushes",
    "regulator",
    "capacitor",
    "rear-bracket",
    "stator",
    "rotor-bolt",
    "rotor",
    "rear-bearing",
]
CHARGED = {"capacitor-off", "brush-leads-off", "regulator-off", "stator-leads-off"}


def order_to(*targets):
    return [step.operation.id for step in way_in(GENERATOR, targets).steps]


def test_it_frees_engine_and_alternator():
    engine = "plug air-filter carburettor fuel-tank flywheel key rocker-cover start-motor sump vibration-mounts"
    assert set(engine.split()) | set(ELECTRIC) <= set(GENERATOR.targets)


@pytest.mark.parametrize("target", ELECTRIC)
def test_lead_off_then_unplugged_then_waited_before_a_cover_is_opened(target):
    order = order_to(target)
    first_cover = min(order.index(name) for name in ("panel-screws-out", "end-cover-off") if name in order)
    assert order[0] == "lead-off"
    assert order.index("unplugged") < order.index("wiring-rested") < first_cover


@pytest.mark.parametrize("target", ELECTRIC)
def test_the_capacitor_is_emptied_before_a_lead_or_winding_is_touched(target):
    order = order_to(target)
    for name in CHARGED & set(order):
        assert order.index("capacitor-emptied") < order.index(name)


def test_every_step_at_the_electric_side_warns_of_what_kills():
    deadly = {"generator-stopped", "capacitor-charged", "inverter-charged"}
    for name in ("panel-screws-out", "panel-aside", "end-cover-off", "capacitor-off", "inverter-out", "stator-off"):
        assert set(STEPS[name].hazards) & deadly, name


def test_brushes_are_out_before_the_bracket_or_the_rotor_moves():
    for target in ("rear-bracket", "rotor", "rotor-bolt"):
        order = order_to(target)
        assert "brushes-off" in order[:-1]


def test_the_rotor_is_drawn_by_slide_hammer_or_by_a_rod_behind_a_bolt():
    step = STEPS["rotor-off"]
    assert (step.tool, [one.tool for one in step.methods]) == ("slide hammer", ["threaded rod"])
    assert "rotor-lets-go" in step.hazards


def test_the_weight_is_held_before_the_feet_are_loose_and_until_they_are_tight():
    for target, bolts in (("rotor", "rear-bracket-bolts-out"), ("vibration-mounts", "mounts-out")):
        way = way_in(GENERATOR, (target,))
        order = order_to(target)
        lies = {step.operation.id: step.orientation for step in way.steps}
        back = [step.operation.id for step in way_out(GENERATOR, tuple(order), lies=lies).steps]
        assert order.index("engine-propped") < order.index(bolts)
        assert back.index(bolts) < back.index("engine-propped")


def test_the_tank_hangs_over_the_rocker_cover_and_has_no_line_long_enough_to_lay_it_aside():
    assert "tank-off" in order_to("rocker-cover")
    assert "tank-aside" not in STEPS


def test_cord_to_a_house_is_warned_of_on_the_way_back():
    assert "back-feed" in STEPS["unplugged"].undo_hazards
