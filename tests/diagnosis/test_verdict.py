"""What would change the verdict: every result of every open check, against fresh cases weighed by brute force."""

import pytest

from bellcrank.diagnosis.allowed import checks_left
from bellcrank.diagnosis.belief import believe, gather
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.verdict import leading, verdicts
from tests.stats.brute_force import brute_force

from .small_pack import COMPILED

HIT, FIRES = Found("hit", "r1"), Found("spark", "r0")
CASES = {
    "at the door": Case(("wont-start",)),
    "struck, good spark": Case(("wont-start",), (HIT, FIRES)),
    "after a plug that did not cure it": Case(("wont-start",), (HIT, Repaired("mend-plug", "not-cured"))),
}


def weighed(case):
    """Give the chance of the evidence and what is there now, every world listed."""
    chance, now, _, _ = brute_force(COMPILED.network, gather(COMPILED, case)[1])
    return chance, dict(zip(COMPILED.network.names, now, strict=True))


def results(case):
    """Give every result of every open check that may well come out: check, what it says, chance, belief after it."""
    whole, _ = weighed(case)
    for check in checks_left(COMPILED, case):
        for result in check.results:
            chance, after = weighed(Case(case.complaints, (*case.events, Found(check.id, result.id))))
            if chance / whole >= 0.01:
                yield check, result.says, chance / whole, after


def leader(now):
    return max((one for one in now if one != "strike"), key=lambda one: now[one])


@pytest.fixture(params=CASES, scope="module")
def case(request):
    return CASES[request.param]


@pytest.fixture(scope="module")
def by_hand(case):
    return list(results(case))


def test_every_result_told_leaves_what_a_case_with_it_has(case, by_hand):
    belief = believe(COMPILED, case)
    (verdict,) = verdicts(COMPILED, belief, [leading(COMPILED, belief)])
    known = {(check.id, says): (chance, after[verdict.cause]) for check, says, chance, after in by_hand}
    shown = {(move.check, one.says): (one.chance, one.after) for move in verdict.moves for one in move.results}
    assert shown
    for key, figures in shown.items():
        assert figures == pytest.approx(known[key], abs=1e-9), key


def test_the_check_that_moves_the_cause_most_stands_first(case, by_hand):
    belief = believe(COMPILED, case)
    for verdict in verdicts(COMPILED, belief, ["key", "coil", "plug"]):
        moved = {}
        for check, _, chance, after in by_hand:
            moved[check.id] = moved.get(check.id, 0.0) + chance * abs(after[verdict.cause] - verdict.now)
        best = sorted((one for one in moved.values() if one >= 0.02), reverse=True)[:3]
        assert [moved[one.check] for one in verdict.moves] == pytest.approx(best, abs=0.01)


def test_the_quickest_check_that_could_overturn_the_leader_is_named(case, by_hand):
    belief = believe(COMPILED, case)
    first = leader(belief.now)
    (verdict,) = verdicts(COMPILED, belief, [first])
    could = [check.id for check, _, _, after in by_hand if leader(after) != first]
    assert verdict.leads
    assert verdict.overturn.check in could
    minutes = {one.id: one.minutes + sum(minutes_of(name) for name in one.access) for one, *_ in by_hand}
    assert verdict.overturn.minutes == pytest.approx(min(minutes[one] for one in could))
    assert verdict.overturn.leader != first


def minutes_of(access):
    one = COMPILED.accesses[access]
    return one.open_minutes + one.close_minutes + sum(minutes_of(name) for name in one.needs)


def test_for_another_cause_it_says_what_could_make_it_lead(case, by_hand):
    belief = believe(COMPILED, case)
    for verdict in verdicts(COMPILED, belief, [one for one in ("coil", "crank") if one != leader(belief.now)]):
        could = [says for _, says, _, after in by_hand if leader(after) == verdict.cause]
        assert not verdict.leads
        assert (verdict.overturn is None) == (not could)
        if verdict.overturn:
            assert verdict.overturn.leader == verdict.cause
            assert verdict.overturn.says in could


def test_nothing_overturns_what_every_check_left_agrees_on():
    everything = tuple(Found(name, "r1") for name in ("hit", "timing", "key-look"))
    answered = tuple(Found(name, "r0") for name in ("spark", "smell", "plug-look", "blade-look", "colour"))
    belief = believe(COMPILED, Case(("wont-start",), everything + answered))
    (verdict,) = verdicts(COMPILED, belief, ["key"])
    assert (verdict.moves, verdict.overturn) == ((), None)


def test_a_strike_that_has_passed_never_leads():
    belief = believe(COMPILED, Case(("vibrates",), (HIT,)))
    assert max(belief.now, key=lambda one: belief.now[one]) == "strike"
    assert leading(COMPILED, belief) != "strike"
