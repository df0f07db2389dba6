"""The generic overhead-valve mower of the packs: a sound model whose every way in and out is legal and safe."""

from itertools import combinations

import pytest

from bellcrank.knowledge.pack import read_library
from bellcrank.teardown.legality import assembly_problems, back_problems, plan_problems
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

MOWER = read_library().packs["walk-behind-mower"].assemblies[0]
TARGETS = tuple(MOWER.targets)
FUEL_STOPPED = {"fuel-shut", "line-clamped", "tank-drained"}
CLOSED_FOR_TIPPING = {"cap-sealed", "tank-drained"}


def off_in_order(way):
    return tuple(step.operation.id for step in way.steps)


def test_the_model_is_sound():
    assert assembly_problems(MOWER) == []


def test_it_frees_every_part_others_rely_on():
    promised = "air-filter fuel-tank starter shroud coil flywheel-nut flywheel key carburettor rocker-cover blade plug"
    assert set(promised.split()) <= set(TARGETS)


@pytest.mark.parametrize("target", TARGETS)
def test_every_part_has_a_proven_legal_way_in_and_a_way_back(target):
    way = way_in(MOWER, (target,))
    order = off_in_order(way)
    back = way_out(MOWER, order, lies={step.operation.id: step.orientation for step in way.steps})
    put_back = off_in_order(back)
    assert way.proven
    assert plan_problems(MOWER, order) == []
    assert back_problems(MOWER, order, put_back) == []
    assert (order[0], put_back[-1], back.turn_last) == ("lead-off", "lead-off", False)


@pytest.mark.parametrize("targets", tuple(combinations(TARGETS, 2)), ids=" and ".join)
def test_two_parts_after_one_another_or_together_are_legal_and_together_is_no_slower(targets):
    together = way_in(MOWER, targets)
    first = way_in(MOWER, targets[:1])
    then = way_in(MOWER, targets[1:], already_done=frozenset(off_in_order(first)), lies=first.ends_lying)
    assert together.proven
    assert plan_problems(MOWER, off_in_order(together)) == []
    assert plan_problems(MOWER, off_in_order(then), frozenset(off_in_order(first))) == []
    assert together.minutes <= first.minutes + then.minutes + 1e-9


@pytest.mark.parametrize("others", [(), *((target,) for target in TARGETS if target != "blade")])
def test_it_is_never_tipped_before_the_fuel_is_stopped_and_sealed(others):
    way = way_in(MOWER, ("blade", *others))
    before_tipping = set()
    for step in way.steps:
        if step.orientation == "on its side":
            break
        before_tipping.add(step.operation.id)
    assert before_tipping & FUEL_STOPPED
    assert before_tipping & CLOSED_FOR_TIPPING


def test_no_line_is_pulled_off_while_fuel_can_run():
    for target in ("carburettor", "fuel-tank"):
        order = off_in_order(way_in(MOWER, (target,)))
        line = next(place for place, name in enumerate(order) if name in ("line-off", "tank-line-off"))
        assert set(order[:line]) & FUEL_STOPPED


def test_the_tank_stays_on_its_line_on_the_way_to_the_flywheel():
    order = off_in_order(way_in(MOWER, ("key",)))
    assert "tank-aside" in order
    assert "tank-off" not in order


def test_the_way_back_from_the_key_sets_coil_gap_brake_taper_and_key():
    way = way_in(MOWER, ("key",))
    back = way_out(MOWER, off_in_order(way))
    seen_to = " ".join(check for step in back.steps for check in step.checks)
    for words in ("Air gap 0.25 mm", "Brake pad clears", "clean, dry", "Key flush"):
        assert words in seen_to


def test_the_way_back_from_the_carburettor_proves_choke_and_governor_free():
    way = way_in(MOWER, ("carburettor",))
    seen_to = " ".join(check for step in way_out(MOWER, off_in_order(way)).steps for check in step.checks)
    assert "Choke moves freely" in seen_to
    assert "governor arm move freely" in seen_to


def test_the_puller_is_used_with_the_nut_on_and_nobody_in_line():
    step = next(step for step in way_in(MOWER, ("flywheel",)).steps if step.operation.id == "flywheel-off")
    assert {"leave-nut-on", "puller-stand-clear"} <= set(step.hazards)


def test_no_torque_is_published_for_a_machine_nobody_made():
    fasteners = [one for operation in MOWER.operations for one in operation.fasteners]
    assert all(one.published_torque_nm is None for one in fasteners)
