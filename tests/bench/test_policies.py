"""Ways of working on simulated machines: nobody beats the one who knows, and everybody keeps the same rules."""

from dataclasses import replace

import numpy as np
import pytest
from bench.policies import POLICIES, all_knowing, at_random, by_cost, checklist, planner, work, written_list
from bench.simulated import Visit, draw_machines

from bellcrank.diagnosis.allowed import forbidding
from bellcrank.diagnosis.case import Case, Repaired
from tests.diagnosis.small_pack import COMPILED

COMPLAINT = "wont-start"
MACHINES = draw_machines(COMPILED, COMPLAINT, 300, (5,))
ALMOST = 1e-6  # [-] nothing is impossible


def minutes(policy, machines=MACHINES, known=COMPILED):
    visits = [Visit(COMPILED, known, machine) for machine in machines]
    for visit in visits:
        work(policy, visit, np.random.default_rng(visit.machine.seed))
    return np.array([visit.minutes for visit in visits])


def told_the_truth(machine):
    """The pack of somebody who was told what is in the machine."""
    own = np.full(len(COMPILED.network.names), ALMOST)
    own[list(machine.present)] = 1 - ALMOST
    return replace(COMPILED, network=replace(COMPILED.network, own=own))


@pytest.mark.parametrize(("quicker", "slower"), [(all_knowing, planner), (planner, at_random), (by_cost, at_random)])
def test_knowing_beats_weighing_and_weighing_beats_guessing(quicker, slower):
    # Margin: three standard errors of the paired differences.
    apart = minutes(slower) - minutes(quicker)
    assert apart.mean() > 3 * apart.std(ddof=1) / len(apart) ** 0.5


def test_a_planner_that_is_told_the_truth_takes_no_longer_than_the_one_who_knows():
    alone = [one for one in MACHINES if len(one.present) == 1 and not COMPILED.network.followers[min(one.present)]]
    known = [(one, minutes(all_knowing, [one])) for one in alone if mended_at_once(one)]
    assert len(known) > 30
    for machine, best in known[:40]:
        assert minutes(planner, [machine], told_the_truth(machine)) == pytest.approx(best)


def mended_at_once(machine):
    """Whether the one who knows is done with one repair, or gives up before any."""
    visit = Visit(COMPILED, COMPILED, machine)
    work(all_knowing, visit, np.random.default_rng(1))
    return len(visit.done) == (0 if visit.gave_up else 1)


def test_every_policy_meets_the_same_machine_on_its_way():
    for machine in MACHINES[:20]:
        seen = {}
        for policy in POLICIES.values():
            visit = Visit(COMPILED, COMPILED, machine)
            work(policy, visit, np.random.default_rng(1))
            first = next((n for n, one in enumerate(visit.events) if isinstance(one, Repaired)), len(visit.events))
            for found in visit.events[:first]:
                assert seen.setdefault(found.check, found.result) == found.result


def test_no_policy_starts_what_must_not_be_started():
    vibrating = draw_machines(COMPILED, "vibrates", 20, (6,))
    for policy in POLICIES.values():
        for machine in vibrating:
            visit = Visit(COMPILED, COMPILED, machine)
            work(policy, visit, np.random.default_rng(1))
            for place, event in enumerate(visit.events):
                if isinstance(event, Repaired) and event.outcome != "not-tried":
                    before = Case((machine.complaint,), (*visit.events[:place], Repaired(event.repair, "not-tried")))
                    assert not forbidding(COMPILED, before)


def test_the_checklist_asks_before_it_measures_and_leaves_out_what_cannot_matter():
    names = [one.id for one in written_list(COMPILED, COMPLAINT)]
    assert "colour" not in names  # tells of nothing
    assert "blade-look" not in names  # a bent blade keeps nothing from starting
    assert names.index("spark") < names.index("key-look")  # behind the flywheel


def test_the_checklist_makes_no_check_twice():
    for machine in MACHINES[:20]:
        visit = Visit(COMPILED, COMPILED, machine)
        told = {event.check for event in visit.events}
        work(checklist, visit, np.random.default_rng(1))
        made = [event.check for event in visit.events if not isinstance(event, Repaired)]
        assert len(made) == len(set(made))
        assert told <= set(made)
