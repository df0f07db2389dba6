"""The generic overhead-valve mower of the packs: a sound model whose every way in and out is legal and safe."""

from functools import cache
from importlib.resources import files
from itertools import combinations
from math import dist

import pytest

from bellcrank.knowledge.pack import read_library
from bellcrank.sources import Basis, Status
from bellcrank.teardown.legality import assembly_problems, back_problems, plan_problems
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

LIBRARY = read_library()
MOWER = LIBRARY.packs["walk-behind-mower"].assemblies[0]
STEPS = {operation.id: operation for operation in MOWER.operations}
TARGETS = tuple(MOWER.targets)
ON_TOP = (
    *("plug", "air-filter", "fuel-tank", "starter", "shroud", "coil", "brake", "flywheel-nut", "flywheel", "key"),
    *("carburettor", "rocker-cover", "blade"),
)
WITHIN = (
    *("bowl", "float", "float-needle", "main-jet", "governor-spring", "governor-arm", "pawls", "recoil-spring", "cord"),
    *("muffler", "rockers", "push-rods", "cylinder-head", "head-gasket", "valves", "valve-springs", "flywheel-seal"),
    *("engine", "deck", "belt-cover", "drive-belt", "drive-cable", "rear-wheels", "wheel-gears", "gearcase"),
)
BEHIND_THE_SUMP = ("sump", "camshaft", "tappets", "piston", "rings", "connecting-rod", "crankshaft")
FUEL_STOPPED = {"fuel-shut", "line-clamped", "tank-drained"}
CLOSED_FOR_TIPPING = {"cap-sealed", "tank-drained"}
OIL_OUT = {"oil-drained", "oil-sucked"}
SAFETY_JOINTS = {"blade-bolt", "flywheel-nut", "rod-bolts", "brake-bolt"}


@cache
def way_to(*targets):
    return way_in(MOWER, targets)


def off_in_order(way):
    return tuple(step.operation.id for step in way.steps)


def ways_in_order(way):
    return [(step.operation.id, step.method) for step in way.steps]


def back_from(way):
    return way_out(
        MOWER,
        off_in_order(way),
        lies={step.operation.id: step.orientation for step in way.steps},
        methods={step.operation.id: step.method for step in way.steps},
    )


def seen_to_from(*targets):
    steps = back_from(way_to(*targets)).steps
    gaps = (f"gap, {gap.where}" for step in steps for gap in step.operation.gaps)
    return " ".join((*(check for step in steps for check in step.checks), *gaps))


def fasteners():
    return [(operation, one) for operation in MOWER.operations for one in operation.fasteners]


def test_the_model_is_sound():
    assert assembly_problems(MOWER) == []


def test_it_frees_every_part_others_rely_on():
    assert set(ON_TOP + WITHIN + BEHIND_THE_SUMP) <= set(TARGETS)


@pytest.mark.parametrize("target", TARGETS)
def test_every_part_has_a_legal_way_in_and_a_way_back(target):
    way = way_to(target)
    order = off_in_order(way)
    back = back_from(way)
    put_back = off_in_order(back)
    assert way.proven
    assert way.bound <= way.minutes
    assert plan_problems(MOWER, ways_in_order(way)) == []
    assert back_problems(MOWER, ways_in_order(way), put_back) == []
    assert (order[0], put_back[-1], back.turn_last) == ("lead-off", "lead-off", False)


@pytest.mark.parametrize("targets", tuple(combinations(ON_TOP, 2)), ids=" and ".join)
def test_two_parts_after_one_another_or_together_are_legal_and_together_is_no_slower(targets):
    together = way_to(*targets)
    first = way_to(*targets[:1])
    then = way_in(MOWER, targets[1:], already_done=frozenset(off_in_order(first)), lies=first.ends_lying)
    assert together.proven
    assert plan_problems(MOWER, ways_in_order(together)) == []
    assert plan_problems(MOWER, ways_in_order(then), frozenset(off_in_order(first))) == []
    assert together.minutes <= first.minutes + then.minutes + 1e-9


@pytest.mark.parametrize("others", [(), *((target,) for target in ON_TOP if target != "blade"), ("engine",)])
def test_it_is_never_tipped_before_the_fuel_is_stopped_and_sealed(others):
    way = way_to("blade", *others)
    before_tipping = set()
    for step in way.steps:
        if step.orientation == "on its side":
            break
        before_tipping.add(step.operation.id)
    assert before_tipping & FUEL_STOPPED
    assert before_tipping & CLOSED_FOR_TIPPING


@pytest.mark.parametrize("target", BEHIND_THE_SUMP)
def test_the_crankcase_is_opened_on_the_bench_with_oil_and_tank_gone(target):
    way = way_to(target)
    order = off_in_order(way)
    before = set(order[: order.index("sump-off")])
    assert before & OIL_OUT
    assert {"engine-off", "tank-off", "carburettor-off", "blade-off", "crank-end-cleaned"} <= before
    lies = next(step.orientation for step in way.steps if step.operation.id == "sump-off")
    assert MOWER.lying[lies] == "Lay the engine on the bench on two wood blocks, crank end up."


def test_no_line_is_pulled_off_while_fuel_can_run():
    for target in ("carburettor", "fuel-tank"):
        order = off_in_order(way_to(target))
        line = next(place for place, name in enumerate(order) if name in ("line-off", "tank-line-off"))
        assert set(order[:line]) & FUEL_STOPPED


def test_the_bowl_comes_off_with_the_carburettor_still_on():
    order = off_in_order(way_to("bowl"))
    assert set(order[: order.index("bowl-nut-out")]) & FUEL_STOPPED
    assert "carburettor-nuts-off" not in order


def test_the_tank_stays_on_its_line_on_the_way_to_the_flywheel():
    order = off_in_order(way_to("key"))
    assert "tank-aside" in order
    assert "tank-off" not in order


def test_the_carburettor_is_laid_aside_on_the_way_to_the_cylinder_head():
    order = off_in_order(way_to("cylinder-head"))
    assert "carburettor-aside" in order
    assert "carburettor-off" not in order


def test_the_starter_spring_is_let_off_before_its_screw_is_turned_and_warned_of():
    way = way_to("recoil-spring")
    order = off_in_order(way)
    assert order.index("starter-spring-relaxed") < order.index("starter-screw-out")
    warned = [step.operation.id for step in way.steps if "recoil-spring" in step.hazards]
    assert {"starter-spring-relaxed", "starter-pulley-out", "recoil-spring-out"} <= set(warned)


@pytest.mark.parametrize(
    ("targets", "words"),
    [
        (("key",), ("gap, coil legs to magnet", "Brake pad clears", "clean, dry", "Key flush")),
        (("carburettor",), ("Choke moves freely", "governor arm move freely", "Spring in the hole of the photo")),
        (("cylinder-head",), ("Threads in the block clean and dry", "Lash the same", "Rods straight")),
        (("crankshaft",), ("Marks of both gears meet", "Torque read on the wrench", "Crank turns freely")),
        (("gearcase",), ("Belt inside all guides", "both sides", "Flap falls shut")),
    ],
)
def test_the_way_back_sees_to_what_was_disturbed(targets, words):
    seen_to = seen_to_from(*targets)
    assert [one for one in words if one not in seen_to] == []


def test_the_puller_is_used_with_the_nut_on_and_nobody_in_line():
    step = next(step for step in way_to("flywheel").steps if step.operation.id == "flywheel-off")
    assert {"leave-nut-on", "puller-stand-clear"} <= set(step.hazards)


def test_no_torque_is_published_for_a_machine_nobody_made():
    assert all(one.published_torque_nm is None for _, one in fasteners())


def test_every_screw_has_its_place_on_an_outline():
    assert [one.id for _, one in fasteners() if one.thread and not one.places] == []


@pytest.mark.parametrize("view", MOWER.views, ids=lambda view: view.id)
def test_the_numbers_on_an_outline_can_be_told_apart(view):
    placed = [(one.id, place) for _, one in fasteners() if one.view == view.id for place in one.places]
    assert placed
    close = [(a, b) for (a, at), (b, there) in combinations(placed, 2) if dist(at, there) < view.width / 50]
    assert close == []


def test_the_joints_that_hold_what_turns_are_marked_and_warned_of():
    marked = {one.id: operation for operation, one in fasteners() if one.safety_joint}
    assert set(marked) == SAFETY_JOINTS
    assert all(operation.hazards and operation.undo_checks for operation in marked.values())


@pytest.mark.parametrize("name", ["head-bolts", "sump-bolts-short", "rod-bolts", "shroud-bolts-long", "muffler-bolts"])
def test_what_must_lie_flat_is_tightened_in_rounds(name):
    bolts = next(one for _, one in fasteners() if one.id == name)
    assert len(bolts.stages) >= 2
    assert bolts.by_hand_first
    assert bolts.pattern


def test_gaps_are_recalled_and_say_so():
    gaps = {gap.where: gap for operation in MOWER.operations for gap in operation.gaps}
    assert {"coil legs to magnet", "intake valve, cold, at rest", "end play of the crank"} <= set(gaps)
    assert all(gap.origin.basis is Basis.GUESS for gap in gaps.values())
    assert all(LIBRARY.sources[gap.origin.source].status is Status.FROM_MEMORY for gap in gaps.values())


@pytest.mark.parametrize(("step", "spared"), [("blade-bolt-out", "blade-blocked"), ("nut-off", "flywheel-held")])
def test_an_impact_wrench_spares_the_holding_but_not_where_it_would_do_harm(step, spared):
    usual, impact = STEPS[step], STEPS[step].methods[0]
    assert impact.tool == "impact wrench"
    assert spared in {name for group in usual.needs for name in group}
    assert spared not in {name for group in impact.needs for name in group}
    assert "corroded" in impact.not_when
    assert "corroded" not in usual.not_when


def test_both_ways_to_the_blade_bolt_tip_and_prop_the_machine_first():
    assert STEPS["blade-bolt-out"].methods[0].needs == (("tipped",),)
    assert ("tipped",) in STEPS["blade-blocked"].needs
    assert {"tip-carb-up", "prop-machine"} <= set(STEPS["tipped"].hazards)


def test_what_rust_holds_has_another_way():
    stuck = [one for one in MOWER.operations if "corroded" in one.not_when]
    assert {one.id for one in stuck} == {"muffler-off", "adapter-off", "drive-pulley-off"}
    assert all("corroded" not in one.methods[0].not_when for one in stuck)


def test_what_systems_share_knows_nothing_of_a_mower():
    systems = files("bellcrank.knowledge") / "packs" / "systems"
    texts = {
        one.name: (one / "assembly.toml").read_text() for one in systems.iterdir() if (one / "assembly.toml").is_file()
    }
    assert len(texts) >= 8
    named = [(name, word) for name, text in texts.items() for word in ("deck", "blade", "adapter") if word in text]
    assert named == []
