"""What the checker finds in a model beside its order, each on a small machine that is sound but for one thing."""

from dataclasses import replace

import pytest

from bellcrank.knowledge.assembly import BEHIND, HELD, Gap, Method, Shape, View
from bellcrank.sources import Basis, Origin
from bellcrank.teardown.legality import assembly_problems

from .small_models import fastener, machine, operation

GUESS = Origin(Basis.GUESS, "own-drawing")
LEAD = operation("lead-off", part="plug-lead", kind="make-safe")
TOP = View("top", "from above", 100.0, 60.0, (Shape("deck", ((0, 0), (100, 0), (100, 60))), Shape("", ((50, 30),), 30)))
BOLTS = fastener(view="top", places=((10.0, 10.0), (90.0, 50.0)), stages=(0.5, 1.0))
IMPACT = Method(
    id="impact",
    words="with the impact driver",
    do="Undo it",
    tool="impact driver",
    minutes=0.5,
    needs=(("lead-off",),),
    orientations=("on its side",),
    hazards=("sharp-blade",),
    turns_crank=True,
    not_when=("corroded",),
)
STEP = operation(
    "nut-off",
    [("lead-off",)],
    kind="unfasten",
    words="held with wood",
    orientations=("upright", "on its side"),
    hazards=("sharp-blade",),
    fasteners=(BOLTS,),
    reasons=(HELD,),
    gaps=(Gap("coil", 0.2, 0.3, GUESS),),
    methods=(IMPACT,),
)


def problems_of(step, *more, views=(TOP,)):
    model = machine(LEAD, step, *more)
    return assembly_problems(replace(model, views=views, lying={"on its side": "Turn it on its side."}))


def with_bolts(**changes):
    return replace(STEP, fasteners=(replace(BOLTS, **changes),))


def with_impact(**changes):
    return replace(STEP, methods=(replace(IMPACT, **changes),))


def test_a_step_with_outline_rounds_gap_and_another_way_is_sound():
    assert problems_of(STEP) == []


@pytest.mark.parametrize(
    ("step", "words"),
    [
        (with_bolts(places=((10.0, 10.0),)), "fastener “bolts” counts 2 and has 1 places"),
        (with_bolts(places=((10.0, 10.0), (101.0, 50.0))), "“bolts” sits at 101, 50, outside of the view “top”"),
        (with_bolts(view="below"), "“bolts” sits in the view “below”, which there is not"),
        (with_bolts(view=""), "“bolts” has a view without places or places without a view"),
        (with_bolts(places=()), "“bolts” has a view without places or places without a view"),
        (with_bolts(stages=(1.0, 0.5)), "“bolts” is tightened in rounds of 1, 0.5; they must rise to 1"),
        (with_bolts(stages=(0.5, 0.5, 1.0)), "rounds of 0.5, 0.5, 1; they must rise to 1"),
        (with_bolts(stages=(0.5, 0.8)), "rounds of 0.5, 0.8; they must rise to 1"),
        (with_bolts(stages=(0.0, 1.0)), "rounds of 0, 1; they must rise to 1"),
        (replace(with_bolts(safety_joint=True), hazards=()), "“nut-off” undoes a safety joint without a caution"),
        (replace(STEP, reasons=("habit",)), "“nut-off” gives “habit” as a reason"),
        (replace(STEP, reasons=(HELD, BEHIND)), "“nut-off” has 1 needs and 2 reasons"),
        (replace(STEP, access_minutes=-1.0), "“nut-off” takes less than no time to reach"),
        (replace(STEP, gaps=(Gap("coil", 0.3, 0.2, GUESS),)), "sets “coil” to 0.3 to 0.2 mm; it must be above 0"),
        (replace(STEP, gaps=(Gap("coil", 0.0, 0.2, GUESS),)), "sets “coil” to 0 to 0.2 mm; it must be above 0"),
        (replace(STEP, orientations=("on its head",)), "“nut-off” is done “on its head”, which [lying] has no words"),
        (with_impact(orientations=("on its head",)), "“nut-off” is done “on its head”, which [lying] has no words"),
        (replace(STEP, words=""), "“nut-off” has other ways, but its usual way has no words"),
        (replace(STEP, methods=(IMPACT, IMPACT)), "“nut-off” has the way “impact” twice"),
        (with_impact(do=""), "“nut-off” by “impact” does not say how it is done"),
        (with_impact(words=""), "“nut-off” by “impact” does not say how it is done"),
        (with_impact(minutes=0.0), "“nut-off” by “impact” takes no time"),
        (with_impact(tool=""), "“nut-off” by “impact” names no tool"),
        (with_impact(not_when=("wet",)), "“nut-off” is not done when “wet”; it must be one of corroded, seized"),
        (replace(STEP, not_when=("corroded",)), "“nut-off” cannot be done in any way when corroded"),
        (with_impact(needs=()), "“nut-off” by “impact” can be done with the plug lead on"),
        (with_impact(needs=(("ghost",),)), "“nut-off” needs “ghost”, which is no step"),
        (with_impact(needs=(("nowhere",),)), "“nut-off” by “impact” can never be done"),
        (replace(STEP, needs=((),)), "“nut-off” needs one of none"),
    ],
)
def test_names_what_is_wrong_with_a_step(step, words):
    never = operation("nowhere", ["nowhere"])
    assert any(words in problem for problem in problems_of(step, never))


@pytest.mark.parametrize(
    ("view", "words"),
    [
        (replace(TOP, height=-1.0), "view “top” is 100 by -1 mm"),
        (replace(TOP, shapes=(Shape("deck", ((0, 0), (120, 0), (0, 60))),)), "shape “deck” sticks out at 120, 0"),
        (replace(TOP, shapes=(Shape("hub", ((50, 30),), 31),)), "shape “hub” sticks out at 50, 30"),
        (replace(TOP, shapes=(Shape("hub", ((50, 30), (1, 1)), 1),)), "shape “hub” is a circle and takes one point"),
        (replace(TOP, shapes=(Shape("deck", ((0, 0), (9, 9))),)), "shape “deck” has fewer than 3 corners"),
    ],
)
def test_names_what_is_wrong_with_an_outline(view, words):
    assert any(words in problem for problem in problems_of(STEP, views=(view,)))


def test_steps_that_wait_for_each_other_are_told_as_a_circle():
    ring = (operation("a", ["c"]), operation("b", ["a"]), operation("c", ["b", "lead-off"]))
    told = [problem for problem in problems_of(STEP, *ring) if "in a circle" in problem]
    assert len(told) == 1
    assert all(told[0].count(name) for name in ("a →", "b →", "c →"))


def test_a_step_that_waits_for_itself_is_a_circle():
    assert "steps wait for each other in a circle: a → a" in problems_of(STEP, operation("a", ["a"]))


def test_an_either_or_of_which_one_can_be_done_is_no_circle():
    either = (operation("a", [("b", "lead-off")]), operation("b", ["a"]))
    assert problems_of(STEP, *either) == []


def test_a_target_nobody_can_reach_is_told():
    assert "target “a” can never be reached" in problems_of(STEP, operation("a", ["a"]))
