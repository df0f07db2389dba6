"""Steps that take a tool the shop does not have; the small pack is invented."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found
from bellcrank.diagnosis.network import compile_pack
from bellcrank.diagnosis.next_step import rank
from bellcrank.diagnosis.tools import alike, tools_of, with_tools

from .small_pack import PACK, check, pack_of, repair

CASE = Case(("wont-start",))


def equipped(tools, pack=PACK):
    """Give the pack in which some checks and repairs take tools."""
    return compile_pack(
        replace(
            pack,
            checks=tuple(replace(one, tools=tools.get(one.id, ())) for one in pack.checks),
            repairs=tuple(replace(one, tools=tools.get(one.id, ())) for one in pack.repairs),
        )
    )


def tooled(tools, missing, case=CASE, pack=PACK):
    compiled = equipped(tools, pack)
    belief = believe(compiled, case)
    steps = rank(compiled, belief)
    return steps, with_tools(compiled, belief, steps, frozenset(missing))


def test_nothing_lacking_changes_nothing():
    steps, told = tooled({"spark": ("tester",)}, {"puller"})
    assert told.steps == steps
    assert not told.lacking


def test_a_step_says_which_of_its_tools_are_lacking():
    _, told = tooled({"spark": ("tester", "lamp"), "mend-key": ("puller",)}, {"tester", "puller"})
    assert told.lacking["check", "spark"].tools == ("tester",)
    assert told.lacking["repair", "mend-key"].tools == ("puller",)
    assert set(told.lacking) == {("check", "spark"), ("repair", "mend-key")}


def test_a_step_with_a_lacking_tool_does_not_stand_first():
    plain, _ = tooled({}, ())
    first = plain[0]
    steps, told = tooled({first.id: ("gadget",)}, {"gadget"})
    assert steps[0].id == first.id
    assert told.steps[0] == steps[1]
    assert sorted(told.steps, key=lambda one: one.id) == sorted(steps, key=lambda one: one.id)


def test_it_stands_first_when_everything_else_looks_longer_than_stopping():
    every = {one.id: ("gadget",) for one in (*PACK.checks, *PACK.repairs)}
    steps, told = tooled(every, {"gadget"})
    assert told.steps == steps
    assert told.steps[0].kind != "stop"


def test_what_makes_it_safe_stays_first_whatever_it_takes():
    bent = Case(("no-power",), (Found("blade-look", "r1"),))
    steps, told = tooled({"mend-blade": ("torque wrench",)}, {"torque wrench"}, bent)
    assert steps[0].id == "mend-blade"
    assert told.steps[0].id == "mend-blade"
    assert told.lacking["repair", "mend-blade"].tools == ("torque wrench",)


def test_what_a_tool_saves_is_the_step_against_the_best_without_it():
    plain, _ = tooled({}, ())
    quickest = min(plain, key=lambda one: one.expected_minutes)
    second = min((one for one in plain if one is not quickest), key=lambda one: one.expected_minutes)
    _, told = tooled({quickest.id: ("gadget",)}, {"gadget"})
    gain = second.expected_minutes - quickest.expected_minutes
    assert told.lacking[quickest.kind, quickest.id].saves == pytest.approx(gain if gain >= 1 else 0.0)
    slowest = max((one for one in plain if one.kind != "stop"), key=lambda one: one.expected_minutes)
    _, told = tooled({slowest.id: ("gadget",)}, {"gadget"})
    assert told.lacking[slowest.kind, slowest.id].saves == 0


def test_the_check_that_tells_the_same_apart_stands_in():
    _, told = tooled({"key-look": ("holder",)}, {"holder"})
    assert told.lacking["check", "key-look"].instead.id == "timing"  # both look at the key alone


def test_of_those_that_tell_enough_of_the_same_the_best_ranked_stands_in():
    dear = check("look-again", ("straight", "off"), (0.98, 0.02), {"key": (0.03, 0.97)}, minutes=60.0)
    cheap = check("glance", ("straight", "off"), (0.98, 0.02), {"key": (0.3, 0.7)}, minutes=0.5)
    pack = replace(PACK, checks=(*PACK.checks, dear, cheap))
    steps, told = tooled({"key-look": ("holder",)}, {"holder"}, pack=pack)
    order = [one.id for one in steps]
    assert order.index("glance") < order.index("look-again")
    assert told.lacking["check", "key-look"].instead.id == "glance"


def test_nothing_stands_in_for_what_no_other_check_tells():
    _, told = tooled({"smell": ("nose",), "plug-look": ("socket",)}, {"nose", "socket"})
    assert told.lacking["check", "smell"].instead is None


def test_a_check_that_lacks_a_tool_too_stands_in_for_nothing():
    _, told = tooled({"key-look": ("holder",), "timing": ("lamp",)}, {"holder", "lamp"})
    assert told.lacking["check", "key-look"].instead is None


def test_a_repair_that_cures_the_same_stands_in():
    whole = repair("new-carburettor", {"jet": 0.95}, 20.0)
    pack = replace(PACK, repairs=(*PACK.repairs, whole))
    _, told = tooled({"mend-jet": ("wires",)}, {"wires"}, pack=pack)
    assert told.lacking["repair", "mend-jet"].instead.id == "new-carburettor"
    _, told = tooled({"mend-coil": ("card",)}, {"card"}, pack=pack)
    assert told.lacking["repair", "mend-coil"].instead is None


def test_stopping_takes_no_tool():
    steps, _ = tooled({}, ())
    stop = next(one for one in steps if one.kind == "stop")
    assert tools_of(equipped({}), stop) == ()


def results_alone(one, cause):
    """Chances of a check's results under one cause alone, the noise included: the higher of the two levels stands."""
    row = next((each.probabilities for each in one.likelihoods if each.cause == cause), None)
    row = row or (1.0, *(0.0 for _ in one.results[1:]))
    spread = np.zeros(len(one.results))
    for a, noise in enumerate(one.leak):
        for b, chance in enumerate(row):
            spread[max(a, b)] += noise * chance
    return spread


@pytest.mark.parametrize(("first", "second"), tuple(combinations(("spark", "plug-look", "timing", "smell"), 2)))
def test_how_alike_two_checks_are_agrees_with_counting_every_pair(first, second):
    """Second route: pairs one by one, from the pack's own rows by brute force."""
    compiled = compile_pack(PACK)
    names = compiled.network.names
    blame = np.linspace(1, 2, len(names))
    blame /= blame.sum()
    checks = {one.id: one for one in PACK.checks}
    both = whole = 0.0
    for (i, one), (j, other) in combinations(enumerate(names), 2):
        distance = [
            np.abs(results_alone(checks[c], one) - results_alone(checks[c], other)).sum() / 2 for c in (first, second)
        ]
        both += blame[i] * blame[j] * min(distance)
        whole += blame[i] * blame[j] * distance[0]
    assert alike(compiled, blame, first, second) == pytest.approx(both / whole, rel=1e-12)


def test_a_check_is_all_like_itself_and_like_nothing_when_it_tells_nothing():
    compiled = compile_pack(pack_of(causes=PACK.causes, checks=(check("dumb", ("a", "b"), (0.5, 0.5), {}),)))
    blame = np.full(len(compiled.network.names), 1 / len(compiled.network.names))
    assert alike(compiled, blame, "dumb", "dumb") == 0
    whole = compile_pack(PACK)
    blame = np.full(len(whole.network.names), 1 / len(whole.network.names))
    assert alike(whole, blame, "spark", "spark") == pytest.approx(1)
