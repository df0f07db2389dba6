"""The generic tiller: tines, belts, gear case, and its engine."""

import pytest

from bellcrank.knowledge.pack import read_library
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

TILLER = read_library().packs["tiller"].assemblies[0]
STEPS = {one.id: one for one in TILLER.operations}
NEAR_TINES = ("guard-off", "tine-bolts-out", "tines-off", "tines-blocked")


def order_to(*targets):
    return [step.operation.id for step in way_in(TILLER, targets).steps]


def test_it_frees_engine_and_drive():
    parts = "plug air-filter carburettor flywheel key tines tine-belt idler gearbox gearcase tine-shaft gearbox-seals"
    assert set(f"{parts} tine-guard engine sump".split()) <= set(TILLER.targets)


@pytest.mark.parametrize("target", TILLER.targets)
def test_it_is_leant_back_only_with_fuel_stopped_tank_closed_and_tines_blocked(target):
    done = set()
    for step in way_in(TILLER, (target,)).steps:
        if step.orientation == "leant back":
            assert done & {"fuel-shut", "line-clamped", "tank-drained"}, step.operation.id
            assert done & {"cap-sealed", "tank-drained"}, step.operation.id
            assert {"dipstick-tight", "tool-stopped"} <= done, step.operation.id
        done.add(step.operation.id)


@pytest.mark.parametrize("name", NEAR_TINES)
def test_a_hand_near_the_tines_is_warned_before(name):
    assert "tool-turns" in STEPS[name].hazards


@pytest.mark.parametrize("target", ["tine-belt", "reverse-belt", "gearbox-pulley", "gearbox"])
def test_belts_come_off_with_their_spring_unhooked_first(target):
    order = order_to(target)
    assert order.index("belt-cover-off") < order.index("idler-spring-off") < order.index("reverse-belt-off")
    assert "drive-spring" in STEPS["idler-spring-off"].hazards


def test_seals_are_changed_with_the_gear_case_in_its_place():
    assert "gearbox-out" not in order_to("gearbox-seals")
    assert STEPS["tine-seals-out"].renew


def test_the_way_back_from_the_tines_looks_that_edges_lead_and_the_wood_is_out():
    way = way_in(TILLER, ("tines",))
    lies = {step.operation.id: step.orientation for step in way.steps}
    checks = " ".join(c for step in way_out(TILLER, tuple(order_to("tines")), lies=lies).steps for c in step.checks)
    assert "Edges lead" in checks
    assert "No wood left" in checks
