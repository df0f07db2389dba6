"""Other ways of a step, and what rules them out: held against plain search, refused in shop words."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bellcrank.errors import NotAllowedNow, NotFound
from bellcrank.knowledge.assembly import CONDITIONS
from bellcrank.teardown.legality import plan_problems
from bellcrank.teardown.ruled_out import RuledOut
from bellcrank.teardown.way_in import way_in

from .small_models import (
    TOOLS,
    changeovers,
    least_minutes,
    machine,
    machines_of_many_ways,
    method,
    operation,
    reachable,
)
from .test_way_in import minutes_of

FEW = settings(max_examples=150, deadline=None)
BLADE = machine(
    operation("lead-off", part="plug-lead"),
    operation("block-in", ["lead-off"], minutes=0.4),
    operation(
        "blade-off",
        ["lead-off", "block-in"],
        tool="wrench",
        minutes=2.0,
        do="Take the blade off",
        words="blade held with wood",
        not_when=("seized",),
        methods=(
            method(
                "impact",
                ["lead-off"],
                words="with the impact driver",
                tool="impact driver",
                minutes=0.5,
                not_when=("corroded",),
            ),
        ),
    ),
    operation("adapter-off", ["blade-off"], tool="puller"),
)


@st.composite
def things_ruled_out(draw, assembly, *, lacking=True):
    steps = [one.id for one in assembly.operations]
    ways = [f"{one.id}:{name}" for one in assembly.operations for name in ("", *(m.id for m in one.methods))]
    return RuledOut(
        barred=frozenset(draw(st.lists(st.sampled_from(ways), max_size=2))),
        conditions={step: frozenset({draw(st.sampled_from(CONDITIONS))}) for step in steps if draw(st.booleans())},
        lacking=frozenset(draw(st.lists(st.sampled_from(TOOLS[1:]), max_size=2))) if lacking else frozenset(),
    )


def plainly(out, *, lacking):
    """What the plain search may not do."""

    def ruled_out(step, name, tool, not_when):
        found = out.conditions.get(step, frozenset())
        return f"{step}:{name}" in out.barred or bool(found.intersection(not_when)) or tool in lacking

    return ruled_out


@FEW
@given(machines_of_many_ways(), changeovers(), st.data())
def test_no_plain_search_over_all_ways_of_all_steps_finds_a_shorter_way_in(assembly, changeover, data):
    target = data.draw(st.sampled_from([one.id for one in assembly.operations]))
    already = frozenset(data.draw(st.lists(st.sampled_from([one.id for one in assembly.operations]), max_size=2)))
    out = data.draw(things_ruled_out(assembly, lacking=False))
    least = least_minutes(assembly, {target}, changeover, already, ruled_out=plainly(out, lacking=frozenset()))
    if least is None:
        assume(target in reachable_any_way(assembly, already))
        with pytest.raises(NotAllowedNow, match="There is no way in as things are"):
            way_in(assembly, (target,), already_done=already, changeover=changeover, ruled_out=out)
        return
    way = way_in(assembly, (target,), already_done=already, changeover=changeover, ruled_out=out)
    assert way.proven
    assert way.minutes == pytest.approx(least)
    assert way.minutes == pytest.approx(minutes_of(assembly, way.steps, changeover, "upright"))
    assert plan_problems(assembly, [(step.operation.id, step.method) for step in way.steps], already) == []
    for step in way.steps:
        assert not plainly(out, lacking=frozenset())(step.operation.id, step.method, step.tool, ())


def reachable_any_way(assembly, already):
    done = set(already)
    while more := [
        one.id
        for one in assembly.operations
        if one.id not in done
        and any(
            all(done.intersection(group) for group in needs) for needs in (one.needs, *(m.needs for m in one.methods))
        )
    ]:
        done.update(more)
    return done


@FEW
@given(machines_of_many_ways(), changeovers(), st.data())
def test_lacking_tools_are_used_only_where_nothing_else_does(assembly, changeover, data):
    target = data.draw(st.sampled_from(sorted(reachable(assembly)) or [""]))
    assume(target)
    out = data.draw(things_ruled_out(assembly))
    free = RuledOut(out.barred, out.conditions)
    with_all = least_minutes(assembly, {target}, changeover, ruled_out=plainly(free, lacking=frozenset()))
    assume(with_all is not None)
    without = least_minutes(assembly, {target}, changeover, ruled_out=plainly(out, lacking=out.lacking))
    way = way_in(assembly, (target,), changeover=changeover, ruled_out=out)
    if without is not None:
        assert way.minutes == pytest.approx(without)
        assert way.lacking == ()
        saves = way.quicker_with.saves if way.quicker_with else 0.0
        assert saves == pytest.approx(without - with_all)
    else:
        assert set(way.lacking) == {step.tool for step in way.steps} & out.lacking != set()
        assert way.minutes - (way.quicker_with.saves if way.quicker_with else 0.0) == pytest.approx(with_all)


def test_the_quicker_way_of_a_step_is_taken_with_its_own_words_and_tool():
    step = way_in(BLADE, ("blade-off",)).steps[-1]
    assert (step.method, step.words, step.tool, step.minutes) == ("impact", "Do it by impact", "impact driver", 0.5)


def test_corrosion_forbids_the_impact_driver_and_the_blade_is_held():
    way = way_in(BLADE, ("blade-off",), ruled_out=RuledOut(conditions={"blade-off": frozenset({"corroded"})}))
    assert [(step.operation.id, step.method) for step in way.steps] == [
        ("lead-off", ""),
        ("block-in", ""),
        ("blade-off", ""),
    ]


def test_when_every_way_of_a_step_is_ruled_out_the_refusal_names_it_and_why():
    both = RuledOut(conditions={"blade-off": frozenset({"corroded", "seized"})})
    with pytest.raises(NotAllowedNow) as refused:
        way_in(BLADE, ("adapter-off",), ruled_out=both)
    assert "“Take the blade off” cannot be done" in refused.value.sentence
    assert "blade held with wood: not when seized" in refused.value.sentence
    assert "with the impact driver: not when corroded" in refused.value.sentence


def test_a_barred_step_is_named_as_left_out_on_purpose():
    with pytest.raises(NotAllowedNow, match=r"Take the blade off.*left out on purpose"):
        way_in(BLADE, ("adapter-off",), ruled_out=RuledOut(barred=frozenset({"blade-off"})))


def test_refuses_to_bar_a_way_that_is_not_there():
    with pytest.raises(NotFound, match="no step “blade-off:hammer”"):
        way_in(BLADE, ("blade-off",), ruled_out=RuledOut(barred=frozenset({"blade-off:hammer"})))


def test_a_tool_that_is_lacking_is_named_with_what_it_would_save():
    way = way_in(BLADE, ("blade-off",), ruled_out=RuledOut(lacking=frozenset({"impact driver"})))
    assert (way.steps[-1].method, way.lacking) == ("", ())
    assert way.quicker_with.tools == ("impact driver",)
    assert way.quicker_with.saves == pytest.approx(0.4 + 2.0 - 0.5)


def test_a_tool_nothing_else_can_stand_in_for_is_planned_with_and_named():
    way = way_in(BLADE, ("adapter-off",), ruled_out=RuledOut(lacking=frozenset({"puller", "wrench"})))
    assert (way.lacking, way.quicker_with) == (("puller",), None)


def test_a_torque_wrench_and_a_socket_in_one_hand_are_two_tools_to_have():
    assembly = machine(operation("nut-off", tool="long bar, 24 mm socket"))
    assert way_in(assembly, ("nut-off",), ruled_out=RuledOut(lacking=frozenset({"24 mm socket"}))).lacking == (
        "24 mm socket",
    )


def test_every_step_says_what_it_is_done_for():
    assembly = machine(
        operation("lead-off"),
        operation("tank-aside", ["lead-off"]),
        operation("bolts-out", ["lead-off", "tank-aside"], reasons=("first", "behind")),
        operation("shroud-off", ["bolts-out"], reasons=("held",)),
    )
    why = {
        step.operation.id: [(one.why, one.step) for one in step.why] for step in way_in(assembly, ("shroud-off",)).steps
    }
    assert why == {
        "lead-off": [("first", "tank-aside"), ("first", "bolts-out")],
        "tank-aside": [("behind", "bolts-out")],
        "bolts-out": [("held", "shroud-off")],
        "shroud-off": [("target", "")],
    }
