"""The generic snow thrower: two halves, two belts, a friction drive reached from below, and its engine."""

import pytest

from bellcrank.knowledge.pack import read_library
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

THROWER = read_library().packs["snow-thrower"].assemblies[0]
STEPS = {one.id: one for one in THROWER.operations}
ENGINE = {"plug", "coil", "starter", "shroud", "flywheel", "key", "carburettor", "heater-box"}
FUEL_STOPPED = {"fuel-shut", "line-clamped", "tank-drained"}
CLOSED_FOR_TIPPING = {"cap-sealed", "tank-drained"}
STAND_CLEAR = {"auger-stores-energy", "belt-draws-in", "halves-fold", "drive-spring", "prop-machine"}


def order_to(*targets):
    return [step.operation.id for step in way_in(THROWER, targets).steps]


def back_from(*targets):
    way = way_in(THROWER, targets)
    lies = {step.operation.id: step.orientation for step in way.steps}
    return [step.operation.id for step in way_out(THROWER, tuple(order_to(*targets)), lies=lies).steps]


def test_it_frees_engine_and_drive():
    drive = "shear-pins auger-belt drive-belt auger-housing auger-gearcase impeller bottom-cover friction-wheel"
    more = "drive-plate skid-shoes scraper-bar start-motor engine sump"
    assert ENGINE | set(drive.split()) | set(more.split()) <= set(THROWER.targets)


def test_there_is_a_heater_box_in_place_of_an_air_filter():
    assert "air-filter" not in THROWER.targets
    assert "filter-base-off" in order_to("carburettor")
    assert STEPS["filter-base-off"].part == "heater-box"


@pytest.mark.parametrize("target", THROWER.targets)
def test_it_stands_on_its_nose_only_with_fuel_stopped_tank_closed_and_auger_blocked(target):
    done = set()
    for step in way_in(THROWER, (target,)).steps:
        if step.orientation == "on its nose":
            assert done & FUEL_STOPPED, step.operation.id
            assert done & CLOSED_FOR_TIPPING, step.operation.id
            assert {"dipstick-tight", "auger-blocked"} <= done, step.operation.id
        done.add(step.operation.id)


@pytest.mark.parametrize("part", ["auger-belt", "drive-belt"])
def test_a_belt_comes_off_after_its_spring_and_with_both_cautions(part):
    order = order_to(part)
    spring = "auger-spring-off" if part == "auger-belt" else "drive-spring-off"
    assert order.index("belt-cover-off") < order.index(spring) < order.index(f"{part}-off")
    assert "drive-spring" in STEPS[spring].hazards
    assert "belt-draws-in" in STEPS[f"{part}-off"].hazards


def test_whatever_is_done_to_the_auger_or_its_belts_warns_first():
    near = [one for one in THROWER.operations if one.part.startswith(("auger", "impeller", "shear"))]
    silent = [
        one.id for one in near if "tool" in one.touches and one.orientations and not set(one.hazards) & STAND_CLEAR
    ]
    assert silent == []


@pytest.mark.parametrize("target", ["auger-belt", "auger-housing", "auger-gearcase", "impeller"])
def test_both_halves_are_propped_before_their_bolts_are_out_and_until_they_are_in_again(target):
    order, back = order_to(target), back_from(target)
    assert order.index("halves-propped") < order.index("housing-bolts-out")
    assert back.index("housing-bolts-out") < back.index("halves-propped")


def test_the_halves_only_tip_apart_for_a_belt():
    assert "housing-tilted" in order_to("auger-belt")
    assert "housing-off" not in order_to("auger-belt")


def test_shear_pins_are_renewed_and_never_a_plain_bolt():
    step = STEPS["shear-pins-out"]
    assert step.fasteners[0].single_use
    assert step.renew
    assert "never a plain bolt" in step.undo


def test_the_start_motor_comes_off_with_the_mains_cord_out():
    order = order_to("start-motor")
    assert order.index("mains-out") < order.index("start-motor-off")
    assert "mains-start" in STEPS["start-motor-off"].hazards
