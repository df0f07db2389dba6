"""The simulated bench: its machines and answers come as often as exact weighing says, whatever the order of asking."""

from collections import Counter

import numpy as np
import pytest
from bench.policies import POLICIES, work
from bench.simulated import Visit, draw_machines

from bellcrank.diagnosis.belief import gather
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.stats.evidence import Evidence, Question, Standing
from bellcrank.stats.weighing import weigh
from tests.diagnosis.small_pack import COMPILED

COMPLAINT, MANY = "wont-start", 4000
MACHINES = draw_machines(COMPILED, COMPLAINT, MANY, (11,))
STOOD = Evidence(standings=(Standing(f"complaint:{COMPLAINT}"),))


def within(count, chance, out_of=MANY):
    """Whether a count is what a chance gives, within four standard deviations of the binomial distribution."""
    return abs(count - out_of * chance) <= 4 * (out_of * chance * (1 - chance)) ** 0.5 + 1


def test_causes_are_in_the_machines_as_often_as_the_weighing_says():
    # Oracle: stats.weighing, itself checked against brute force.
    weighing = weigh(COMPILED.network, STOOD)
    there = Counter(cause for machine in MACHINES for cause in machine.present)
    blocking = Counter(cause for machine in MACHINES for cause in machine.blockers)
    for cause in range(len(COMPILED.network.names)):
        assert within(there[cause], weighing.now[0, cause]), COMPILED.network.names[cause]
        assert within(blocking[cause], weighing.blocking[0, cause]), COMPILED.network.names[cause]


@pytest.mark.parametrize("check", [one.id for one in COMPILED.pack.checks])
def test_checks_answer_as_often_as_the_weighing_says(check):
    results = [one.id for one in COMPILED.checks[check].results]
    questions = (Question(), *(Question(at_most=(check, level)) for level in range(len(results))))
    told = weigh(COMPILED.network, STOOD, questions).evidence
    chances = np.diff(told[1:] / told[0], prepend=0.0)
    seen = Counter(Visit(COMPILED, COMPILED, machine).answer(check) for machine in MACHINES)
    for result, chance in zip(results, chances, strict=True):
        assert within(seen[result], chance), result


@pytest.mark.parametrize("check", ["plug-look", "smell", "run-up"])
def test_after_a_repair_that_did_not_help_checks_answer_as_often_as_the_weighing_says(check):
    # What survived the repair and that it still fails go together: no factor a cause can say that.
    repaired = [visit for visit in (Visit(COMPILED, COMPILED, machine) for machine in MACHINES) if fails(visit)]
    case = Case((COMPLAINT,), (Repaired("mend-stale", "not-cured"),))
    questions = (Question(), Question(at_most=(check, 0)))
    told = weigh(COMPILED.network, gather(COMPILED, case)[1], questions).evidence
    sound = sum(visit.answer(check) == "r0" for visit in repaired)
    assert within(sound, told[1] / told[0], len(repaired))


def fails(visit):
    visit.repair("mend-stale")
    return not visit.cured


def test_machines_with_different_complaints_are_different_machines():
    other = draw_machines(COMPILED, "no-power", 50, (11, 1))
    assert {one.seed for one in other}.isdisjoint(one.seed for one in MACHINES)
    assert draw_machines(COMPILED, "no-power", 50, (11, 1)) == other


def test_a_machine_answers_alike_whatever_was_asked_before():
    checks = [one.id for one in COMPILED.pack.checks if not one.story]
    for machine in MACHINES[:50]:
        first, second = Visit(COMPILED, COMPILED, machine), Visit(COMPILED, COMPILED, machine)
        for name in checks:
            first.check(name)
        for name in reversed(checks):
            second.check(name)
        assert set(first.events) == set(second.events)


def test_a_repair_works_as_often_as_the_pack_says():
    repair = COMPILED.pack.repairs[0]
    cause, chance = next(iter(repair.fixes.items()))
    place = COMPILED.network.position[cause]
    having = [machine for machine in MACHINES if place in machine.present]
    visits = [Visit(COMPILED, COMPILED, machine) for machine in having]
    for visit in visits:
        visit.repair(repair.id)
    assert within(sum(place not in visit.here for visit in visits), chance, len(having))


def test_a_repair_that_did_not_take_does_not_take_a_second_time():
    again = 0
    for machine in MACHINES:
        visit = Visit(COMPILED, COMPILED, machine)
        visit.repair("mend-jet")
        after = set(visit.here)
        if not visit.cured:
            visit.repair("mend-jet")
            again += COMPILED.network.position["jet"] in after
            assert visit.here == after
    assert again > 50


def test_a_cover_is_paid_for_once_while_it_stays_open():
    check = next(one for one in COMPILED.pack.checks if one.access and not one.runs_engine)
    visit = Visit(COMPILED, COMPILED, MACHINES[0])
    visit.check(check.id)
    once = visit.minutes
    visit.check(check.id)
    assert visit.minutes - once == pytest.approx(check.minutes)
    assert once > check.minutes


@pytest.mark.parametrize("policy", POLICIES.values(), ids=POLICIES)
def test_every_policy_comes_to_an_end_and_nothing_is_started_that_must_not_be(policy):
    for machine in MACHINES[:15]:
        visit = Visit(COMPILED, COMPILED, machine)
        work(policy, visit, np.random.default_rng(machine.seed))
        assert visit.cured
        assert all(isinstance(event, (Found, Repaired)) for event in visit.events)
        if not visit.gave_up:
            assert not visit.here & machine.blockers
