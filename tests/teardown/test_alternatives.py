"""What else could be done at each either-or of a plan."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bellcrank.errors import NotAllowedNow
from bellcrank.teardown.alternatives import alternatives
from bellcrank.teardown.ruled_out import RuledOut
from bellcrank.teardown.way_in import way_in

from .small_models import changeovers, least_minutes, machine, machines_of_many_ways, method, operation, reachable

BLADE = machine(
    operation("lead-off", part="plug-lead"),
    operation("tank-drained", ["lead-off"], tool="pump", minutes=4.0),
    operation("cap-sealed", ["lead-off"], minutes=0.5),
    operation("block-in", ["lead-off", ("cap-sealed", "tank-drained")], minutes=0.4),
    operation(
        "blade-off",
        ["block-in"],
        tool="wrench",
        minutes=2.0,
        do="Take the blade off",
        methods=(
            method(
                "impact",
                ["lead-off", ("cap-sealed", "tank-drained")],
                do="Drive the bolt out",
                tool="impact driver",
                minutes=0.5,
                not_when=("corroded",),
            ),
        ),
    ),
)


def asked(ruled_out=None):
    out = ruled_out or RuledOut()
    return alternatives(BLADE, way_in(BLADE, ("blade-off",), ruled_out=out), ruled_out=out)


def test_every_other_choice_is_planned_whole_and_the_quickest_comes_first():
    held, drained = asked()
    assert (held.used.method, held.instead.method, held.instead.words) == ("impact", "", "Take the blade off")
    assert held.more == pytest.approx(0.4 + 2.0 - 0.5)
    assert (held.tools, held.spared) == (("wrench",), ("impact driver",))
    assert (drained.used.step, drained.instead.step) == ("cap-sealed", "tank-drained")
    assert drained.more == pytest.approx(4.0 - 0.5 + 0.1)
    assert drained.tools == ("pump",)


def test_what_was_found_forbids_is_told_with_the_reason():
    found = asked(RuledOut(conditions={"blade-off": frozenset({"corroded"})}))
    impact = next(one for one in found if one.instead.method == "impact")
    assert (impact.minutes, impact.more, impact.why_not) == (None, None, "Not while it is corroded.")
    assert found[-1] is impact


def test_a_plan_without_either_ors_has_no_alternatives():
    assembly = machine(operation("a"), operation("b", ["a"]))
    assert alternatives(assembly, way_in(assembly, ("b",))) == ()


def test_a_step_that_must_be_done_anyway_is_no_choice():
    assembly = machine(
        operation("a"), operation("b", minutes=3.0), operation("c", [("a", "b")]), operation("d", ["a", "c"])
    )
    assert alternatives(assembly, way_in(assembly, ("d",))) == ()


@settings(max_examples=100, deadline=None)
@given(machines_of_many_ways(most=5), changeovers(), st.data())
def test_no_alternative_beats_the_plan_and_each_is_the_least_with_its_choice(assembly, changeover, data):
    target = data.draw(st.sampled_from(sorted(reachable(assembly)) or [""]))
    assume(target)
    try:
        way = way_in(assembly, (target,), changeover=changeover)
    except NotAllowedNow:
        return
    for one in alternatives(assembly, way, changeover=changeover):
        assert one.minutes is not None
        assert one.minutes >= way.minutes - 1e-9
        if one.used.step == one.instead.step:
            only = least_minutes(
                assembly,
                {target},
                changeover,
                ruled_out=lambda step, name, _tool, _when, one=one: (
                    step == one.instead.step and name != one.instead.method
                ),
            )
            assert one.minutes == pytest.approx(only)
