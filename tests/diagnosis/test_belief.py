import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.diagnosis.belief import believe, gather
from bellcrank.diagnosis.case import NOT_SURE, Case, Found, Repaired
from bellcrank.errors import NotFound
from bellcrank.stats.evidence import Standing
from tests.stats.brute_force import brute_force

from .small_pack import CHECKS, COMPILED, REPAIRS

FAILED = Repaired("mend-plug", "not-cured")
founds = st.sampled_from(CHECKS).flatmap(
    lambda one: st.tuples(st.sampled_from(one.results), st.booleans()).map(
        lambda drawn: Found(one.id, drawn[0].id, drawn[1])
    )
)
repairs = st.builds(
    Repaired, st.sampled_from([one.id for one in REPAIRS]), st.sampled_from(["cured", "not-cured", "not-tried"])
)
complaints = st.sampled_from([("wont-start",), ("no-power",), ("wont-start", "vibrates")])


def same(first, second):
    return first.now == pytest.approx(second.now, abs=1e-12)


def test_a_case_is_weighed_as_if_every_world_were_listed():
    # Oracle: tests/stats/brute_force.py, on findings before and after a failed repair.
    thought = Found("hit", "r1", unsure=True)
    case = Case(("wont-start",), (Found("spark", "r1"), FAILED, Found("plug-look", "r1"), thought))
    belief = believe(COMPILED, case)
    _, now, arrived, blocking = brute_force(COMPILED.network, belief.evidence)
    assert list(belief.now.values()) == pytest.approx(now, abs=1e-12)
    assert list(belief.on_arrival.values()) == pytest.approx(arrived, abs=1e-12)
    assert list(belief.blocking.values()) == pytest.approx(blocking, abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(st.lists(founds, max_size=5, unique_by=lambda one: one.check), st.randoms(use_true_random=False))
def test_the_order_of_findings_does_not_matter_while_nothing_is_repaired(events, random):
    shuffled = random.sample(events, len(events))
    first, second = (believe(COMPILED, Case(("wont-start",), tuple(one))) for one in (events, shuffled))
    assert same(first, second)


@settings(max_examples=60, deadline=None)
@given(complaints, st.lists(founds | repairs, max_size=6))
def test_whatever_was_recorded_there_is_a_belief(complaint, events):
    belief = believe(COMPILED, Case(complaint, tuple(events)))
    assert belief.without.evidence[0] > 0
    for values in (belief.now, belief.on_arrival, belief.blocking):
        assert all(0 <= value <= 1 + 1e-12 for value in values.values())


@settings(max_examples=30, deadline=None)
@given(st.lists(founds | repairs, max_size=4), founds | repairs)
def test_taking_an_event_back_is_as_if_it_never_was(events, last):
    before = believe(COMPILED, Case(("wont-start",), tuple(events)))
    believe(COMPILED, Case(("wont-start",), (*events, last)))
    assert believe(COMPILED, Case(("wont-start",), tuple(events))).now == before.now


def test_not_sure_says_nothing():
    unsure = believe(COMPILED, Case(("wont-start",), (Found("spark", NOT_SURE),)))
    assert same(unsure, believe(COMPILED, Case(("wont-start",))))
    assert unsure.findings == ()


def test_not_sure_takes_an_earlier_answer_back():
    case = Case(("wont-start",), (Found("spark", "r2"), Found("spark", NOT_SURE)))
    assert same(believe(COMPILED, case), believe(COMPILED, Case(("wont-start",))))


def test_a_check_made_again_counts_once():
    once = believe(COMPILED, Case(("wont-start",), (Found("spark", "r2"),)))
    twice = believe(COMPILED, Case(("wont-start",), (Found("spark", "r2"), Found("spark", "r2"))))
    assert same(once, twice)


def test_a_check_made_again_after_a_repair_elsewhere_counts_once():
    elsewhere = Repaired("mend-stale", "not-cured")
    once = Case(("wont-start",), (Found("spark", "r2"), elsewhere))
    twice = Case(("wont-start",), (Found("spark", "r2"), elsewhere, Found("spark", "r2")))
    assert same(believe(COMPILED, once), believe(COMPILED, twice))


def test_the_same_answer_after_a_repair_clears_what_was_repaired_only():
    # The plug was mended and the spark is as weak as before: it was not the plug that made it so.
    once = believe(COMPILED, Case(("wont-start",), (Found("spark", "r1"), FAILED)))
    again = believe(COMPILED, Case(("wont-start",), (Found("spark", "r1"), FAILED, Found("spark", "r1"))))
    assert again.on_arrival["plug"] < once.on_arrival["plug"]
    assert again.now["coil"] > once.now["coil"]
    # Asking in between says no more: chance noise is not drawn anew.
    often = (Found("spark", "r1"), *(FAILED, Found("spark", "r1")) * 3)
    seldom = (Found("spark", "r1"), *(FAILED,) * 3, Found("spark", "r1"))
    assert same(*(believe(COMPILED, Case(("wont-start",), events)) for events in (often, seldom)))


def test_another_answer_after_a_repair_is_a_finding_of_its_own():
    case = Case(("wont-start",), (Found("spark", "r2"), FAILED, Found("spark", "r0")))
    assert [(one.level, one.after) for one in gather(COMPILED, case)[1].sightings] == [(2, 0), (0, 1)]


def test_a_failed_repair_turns_the_blame_elsewhere():
    before = believe(COMPILED, Case(("wont-start",)))
    after = believe(COMPILED, Case(("wont-start",), (FAILED,)))
    assert after.now["plug"] < 0.1 * before.now["plug"]
    assert after.now["coil"] > before.now["coil"]


def test_a_cure_leaves_nothing_that_blocks():
    belief = believe(COMPILED, Case(("wont-start",), (Repaired("mend-plug", "cured"),)))
    assert belief.on_arrival["plug"] > 0.9
    assert max(belief.blocking.values()) == pytest.approx(0.0, abs=1e-12)


def standing(case):
    return [(one.stood_after, one.gone_after) for one in gather(COMPILED, case)[1].standings]


def test_the_first_of_two_cures_counts():
    case = Case(("wont-start",), (Repaired("mend-plug", "cured"), Repaired("mend-coil", "cured")))
    assert standing(case) == [(0, 1)]


def test_a_failed_start_takes_a_cure_back():
    case = Case(("wont-start",), (Repaired("mend-plug", "cured"), Repaired("mend-coil", "not-cured")))
    assert standing(case) == [(2, None)]


def test_a_repair_not_tried_may_be_what_cured_it():
    case = Case(("wont-start",), (Repaired("mend-plug", "not-tried"), Repaired("mend-coil", "cured")))
    assert standing(case) == [(0, 2)]
    belief = believe(COMPILED, case)
    # By hand, one fault blocking: shares .20 mended in .95 for the plug, .15 in .97 for the coil.
    assert belief.on_arrival["plug"] / belief.on_arrival["coil"] == pytest.approx(0.19 / 0.1455, rel=0.02)


@pytest.mark.parametrize("outcome", ["cured", "not-cured"])
def test_a_repair_told_first_untried_and_then_with_its_outcome_was_done_once(outcome):
    tried = Repaired("mend-plug", outcome)
    told_twice = Case(("wont-start",), (Repaired("mend-plug", "not-tried"), tried))
    assert same(believe(COMPILED, told_twice), believe(COMPILED, Case(("wont-start",), (tried,))))


def test_a_cure_speaks_only_of_the_complaints_it_can_cure():
    case = Case(("wont-start", "vibrates"), (Repaired("mend-key", "cured"),))
    names = [one.finding for one in gather(COMPILED, case)[1].standings]
    assert dict(zip(names, standing(case), strict=True)) == {
        "complaint:wont-start": (0, 1),
        "complaint:vibrates": (0, None),
    }


def test_a_complaint_told_twice_counts_once():
    assert gather(COMPILED, Case(("wont-start", "wont-start")))[1].standings == (Standing("complaint:wont-start"),)


def test_says_so_when_a_repair_cured_what_it_cannot_cure():
    belief = believe(COMPILED, Case(("wont-start",), (Repaired("mend-blade", "cured"),)))
    assert belief.disagreement.startswith("“Do mend-blade” cured it, but what it mends was no likely reason.")


def test_forecasts_come_true_as_often_as_they_say():
    # Spiegelhalter's z of the forecasts on machines drawn from the model itself; a smoke alarm at 3 (forecasts of one
    # machine are not independent).
    rng = np.random.default_rng(17)
    network = COMPILED.network
    forecasts, came = [], []
    for _ in range(150):
        present = draw_machine(rng, network)
        picked = [CHECKS[place] for place in rng.permutation(len(CHECKS))[:4]]
        events = tuple(Found(one.id, see(rng, network, present, one)) for one in picked)
        forecasts.extend(believe(COMPILED, Case(("wont-start",), events)).now.values())
        came.extend(present)
    p, y = np.array(forecasts), np.array(came, float)
    z = ((y - p) * (1 - 2 * p)).sum() / np.sqrt(((1 - 2 * p) ** 2 * p * (1 - p)).sum())
    assert abs(z) < 3


def draw_machine(rng, network):
    strengths = 1 - network.findings["complaint:wont-start"].rows[0]
    while True:
        machines = np.zeros((2000, len(network.names)), bool)
        for cause, roots in enumerate(network.roots):  # the pack names roots before what they bring about
            absent = (1 - network.own[cause]) * np.prod([1 - s * machines[:, r] for r, s in roots], axis=0)
            machines[:, cause] = rng.random(2000) > absent
        blocked = (machines & (rng.random(machines.shape) < strengths)).any(axis=1)
        if blocked.any():
            return machines[np.flatnonzero(blocked)[0]]


def see(rng, network, present, one):
    table = network.findings[one.id]
    at_most = table.leak * table.rows[:, present].prod(axis=1)
    return one.results[int((rng.random() > at_most).sum())].id


@pytest.mark.parametrize(
    ("case", "words"),
    [
        (Case(("sings",)), "no complaint “sings”. It must be one of wont-start"),
        (Case(("wont-start",), (Found("taste", "r0"),)), "no check “taste”"),
        (Case(("wont-start",), (Found("spark", "r9"),)), "“r9” is no result of “spark”. It must be one of r0, r1, r2"),
        (Case(("wont-start",), (Repaired("pray", "cured"),)), "no repair “pray”"),
    ],
)
def test_refuses_what_it_does_not_know(case, words):
    with pytest.raises(NotFound, match=words):
        believe(COMPILED, case)


def test_a_repair_told_again_after_a_failed_start_was_done_again():
    tried_between = (
        Repaired("mend-coil", "not-tried"),
        Repaired("mend-key", "not-cured"),
        Repaired("mend-coil", "cured"),
    )
    assert believe(COMPILED, Case(("wont-start",), tried_between)).without.evidence[0] > 0
