"""Half-finished orders: what they promise is kept, and what parts two turns of a tool is seen."""

import pytest
from hypothesis import assume, given, settings

from bellcrank.teardown.campaigns import first, going_on, ground
from bellcrank.teardown.changeover import Changeover
from bellcrank.teardown.chart import chart_of_ways
from bellcrank.teardown.order import problem_of
from bellcrank.teardown.search import least_order, quick_order

from .small_models import changeovers, least_minutes, machine, machines, operation, reachable

SOCKET, PLIERS = "10 mm socket", "pliers"


def begun(assembly, wanted, changeover=None):
    laid_out = chart_of_ways(assembly)
    problem = problem_of(laid_out, changeover or Changeover(0.1, 0.75), done=0, lies="upright").sequencing
    return problem, first(problem, ground(problem, laid_out.set_of(wanted)))


def half_done(state):
    """The state and all that go on from it, each looked at once."""
    seen, waiting = {}, [state]
    while waiting:
        one = waiting.pop()
        if one.key not in seen or one.changed < seen[one.key].changed - 1e-12:
            seen[one.key] = one
            waiting.extend(going_on(one))
    return list(seen.values())


@settings(max_examples=100, deadline=None)
@given(machines(most=6), changeovers())
def test_no_half_finished_order_promises_more_than_it_takes(assembly, changeover):
    everything = sorted(reachable(assembly))
    assume(everything)
    problem, start = begun(assembly, everything, changeover)
    for state in half_done(start):
        finished = [one.least for one in half_done(state) if not one.left]
        assert state.least <= min(finished) + 1e-9
    assert start.least <= least_minutes(assembly, set(everything), changeover) + 1e-9
    assert quick_order(problem, start.ground).least >= start.least - 1e-9


def test_a_tool_is_taken_up_twice_when_another_must_come_between():
    chain = machine(operation("a", tool=SOCKET), operation("b", ["a"], tool=PLIERS), operation("c", ["b"], tool=SOCKET))
    _, start = begun(chain, ["a", "b", "c"])
    assert start.least == pytest.approx(3.0 + 3 * 0.1)


def test_handwork_between_parts_no_turn_of_a_tool():
    chain = machine(operation("a", tool=SOCKET), operation("b", ["a"]), operation("c", ["b"], tool=SOCKET))
    _, start = begun(chain, ["a", "b", "c"])
    assert start.least == pytest.approx(3.0 + 0.1)


def test_turning_back_and_forth_that_is_forced_is_counted_from_the_start():
    ways = ("on its side", "upright", "on its side")
    needs = ([], ["a"], ["b"])
    chain = machine(*(operation(n, p, orientations=(w,)) for n, p, w in zip("abc", needs, ways, strict=True)))
    _, start = begun(chain, ["a", "b", "c"])
    assert start.least == pytest.approx(3.0 + 3 * 0.75)


def test_a_tool_that_can_finish_all_its_own_is_taken_without_looking_at_the_others():
    assembly = machine(operation("a", tool=SOCKET), operation("b", tool=PLIERS), operation("c", ["a", "b"], tool="key"))
    _, start = begun(assembly, ["a", "b", "c"])
    assert len(list(going_on(start))) == 1


def test_the_first_order_is_a_legal_one():
    assembly = machine(
        operation("a", tool=SOCKET), operation("b", ["a"], tool=PLIERS), operation("c", ["a"], tool=SOCKET)
    )
    problem, start = begun(assembly, ["a", "b", "c"])
    found = least_order(problem, iter([]), guess=start.ground.order.chosen)
    assert found is not None
    assert [number for number, _ in found.order()] == [0, 2, 1]
