"""Exact weighing against brute force, a general-purpose library, and laws; worked examples stand in tests/published."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.stats.evidence import Evidence, Question, Sighting, Standing
from bellcrank.stats.fault_network import NetworkCause, NetworkFinding, fault_network
from bellcrank.stats.weighing import weigh

from .brute_force import brute_force, brute_force_joint
from .drawn import COMPLAINTS, draw_evidence, draw_network
from .general_library import as_bayes_net, posteriors

seeds = st.integers(0, 100_000)


@pytest.mark.parametrize("repairs", [0, 1, 2])
@pytest.mark.parametrize("seed", range(15))
def test_agrees_with_listing_every_world(seed, repairs):
    # Oracle: brute_force.py, a separate listing of sets, blockers and survivals.
    rng = np.random.default_rng(seed)
    network = draw_network(rng, causes=5, findings=3, complaints=1 + seed % 2)
    evidence = draw_evidence(rng, network, repairs)
    probability, now, arrived, blocking = brute_force(network, evidence)
    weighing = weigh(network, evidence)
    assert weighing.evidence[0] == pytest.approx(probability, rel=1e-12)
    assert weighing.now[0] == pytest.approx(now, abs=1e-12)
    assert weighing.arrived[0] == pytest.approx(arrived, abs=1e-12)
    assert weighing.blocking[0] == pytest.approx(blocking, abs=1e-12)


@pytest.mark.parametrize("seed", range(12))
def test_a_finding_that_lasted_is_drawn_once(seed):
    # Oracle: brute_force.py, which draws what each cause makes of the finding once for all its times.
    rng = np.random.default_rng(200 + seed)
    network = draw_network(rng, causes=4, findings=2)
    drawn = draw_evidence(rng, network, repairs=2)
    lasted = tuple(replace(one, after=2, since=int(rng.integers(3))) for one in drawn.sightings)
    evidence = replace(drawn, sightings=lasted)
    probability, now, arrived, _ = brute_force(network, evidence)
    weighing = weigh(network, evidence)
    assert weighing.evidence[0] == pytest.approx(probability, rel=1e-12)
    assert weighing.now[0] == pytest.approx(now, abs=1e-12)
    assert weighing.arrived[0] == pytest.approx(arrived, abs=1e-12)


@pytest.mark.parametrize("seed", range(3))
def test_agrees_with_listing_every_set_of_ten_causes(seed):
    # Oracle: brute_force.py.
    rng = np.random.default_rng(50 + seed)
    network = draw_network(rng, causes=10, findings=6, complaints=0)
    evidence = draw_evidence(rng, network, repairs=0)
    assert weigh(network, evidence).now[0] == pytest.approx(brute_force(network, evidence)[1], abs=1e-12)


@pytest.mark.parametrize("seed", range(6))
def test_agrees_with_a_general_purpose_library(seed):
    # Oracle: pyAgrum, variable elimination; 20 causes with links, up to 25 findings of which half are seen.
    rng = np.random.default_rng(100 + seed)
    network = draw_network(rng, causes=20, findings=25, most_touched=4)
    looked_at = [f"f{n}" for n in rng.permutation(25)[:12]]
    seen = {name: int(rng.integers(network.findings[name].levels)) for name in looked_at} | {"complaint": 1}
    weighing = weigh(network, Evidence(tuple(Sighting(name, level) for name, level in seen.items())))
    expected = posteriors(as_bayes_net(network, seen), seen, network.names)
    assert weighing.now[0] == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("repairs", [0, 1, 2])
@pytest.mark.parametrize("seed", range(10))
def test_findings_not_seen_clearly_are_weighed_by_how_well_each_level_fits(seed, repairs):
    # Oracle: brute_force.py; weights of zero among them, and questions that leave such a finding out.
    rng = np.random.default_rng(500 + seed)
    network = draw_network(rng, causes=5, findings=4, most_touched=4)
    evidence = draw_evidence(rng, network, repairs)
    unclear = tuple(
        replace(one, weights=tuple(_weights(rng, network.findings[one.finding].levels)), since=None)
        if rng.random() < 0.7
        else one
        for one in evidence.sightings
    )
    evidence = replace(evidence, sightings=unclear)
    questions = (Question(), *(Question(without=frozenset({place})) for place in range(len(unclear))))
    weighing = weigh(network, evidence, questions)
    for row, question in enumerate(questions):
        kept = tuple(one for place, one in enumerate(unclear) if place not in question.without)
        probability, now, arrived, blocking = brute_force(network, replace(evidence, sightings=kept))
        assert weighing.evidence[row] == pytest.approx(probability, rel=1e-12)
        assert weighing.now[row] == pytest.approx(now, abs=1e-12)
        assert weighing.arrived[row] == pytest.approx(arrived, abs=1e-12)
        assert weighing.blocking[row] == pytest.approx(blocking, abs=1e-12)


def _weights(rng, levels):
    weights = rng.random(levels) * (rng.random(levels) < 0.7)
    return weights if weights.any() else np.ones(levels)


def test_a_finding_whose_levels_all_fit_alike_says_nothing():
    rng = np.random.default_rng(8)
    network = draw_network(rng, causes=7, findings=5)
    base = draw_evidence(rng, network, repairs=1)
    unclear = replace(
        base, sightings=(*base.sightings, Sighting("f0", 0, 1, weights=(1.0,) * network.findings["f0"].levels))
    )
    assert weigh(network, unclear).now == pytest.approx(weigh(network, base).now, abs=1e-12)


def test_a_finding_that_fits_one_level_only_is_seen_clearly():
    rng = np.random.default_rng(9)
    network = draw_network(rng, causes=7, findings=5)
    for level in range(network.findings["f1"].levels):
        weights = tuple(float(level == other) for other in range(network.findings["f1"].levels))
        clear, unclear = (
            Evidence((Sighting("f1", level), Sighting("f2", 1))),
            Evidence((Sighting("f1", 0, weights=weights), Sighting("f2", 1))),
        )
        assert weigh(network, unclear).now == pytest.approx(weigh(network, clear).now, abs=1e-13)


@pytest.mark.parametrize("repairs", [0, 1, 2])
@pytest.mark.parametrize("seed", range(6))
def test_the_chance_that_some_causes_are_there_together_and_others_not_is_exact(seed, repairs):
    # Oracle: brute_force.py, a separate listing of sets, blockers and survivals.
    rng = np.random.default_rng(400 + seed)
    network = draw_network(rng, causes=5, findings=3)
    evidence = draw_evidence(rng, network, repairs)
    names = list(rng.permutation(network.names))
    sets = [(frozenset(names[:k]), frozenset(names[k : k + m])) for k, m in ((0, 2), (1, 0), (2, 1), (1, 4))]
    weighing = weigh(network, evidence, tuple(Question(here=a, not_here=b) for a, b in sets))
    for row, (here, not_here) in enumerate(sets):
        expected = brute_force_joint(network, evidence, here, not_here)
        assert weighing.evidence[row] == pytest.approx(expected, rel=1e-12, abs=1e-300)


def test_a_question_is_the_same_as_asking_alone():
    rng = np.random.default_rng(7)
    network = draw_network(rng, causes=7, findings=5)
    base = draw_evidence(rng, network, repairs=1)
    together = weigh(network, base, (Question(), Question(without=frozenset({1})), Question(at_most=("f0", 0))))
    without = Evidence(base.sightings[:1] + base.sightings[2:], base.standings, base.mends)
    asked = Evidence((*base.sightings, Sighting("f0", 0, 1)), base.standings, base.mends)
    for row, evidence in enumerate((base, without, asked)):
        alone = weigh(network, evidence)
        assert together.now[row] == pytest.approx(alone.now[0], abs=1e-12)
        assert together.blocking[row] == pytest.approx(alone.blocking[0], abs=1e-12)
        assert together.evidence[row] == pytest.approx(alone.evidence[0], rel=1e-12)


def test_questions_too_many_for_one_go_are_taken_in_portions(monkeypatch):
    rng = np.random.default_rng(9)
    network = draw_network(rng, causes=8, findings=6)
    evidence = draw_evidence(rng, network, repairs=0)
    questions = tuple(Question(at_most=(name, 0)) for name in network.findings if name not in COMPLAINTS)
    at_once = weigh(network, evidence, questions)
    monkeypatch.setattr("bellcrank.stats.weighing.ROOM", 1)
    assert weigh(network, evidence, questions).now == pytest.approx(at_once.now, abs=1e-13)


@settings(max_examples=40, deadline=None)
@given(seeds)
def test_the_order_of_findings_does_not_matter(seed):
    rng = np.random.default_rng(seed)
    network = draw_network(rng, causes=6, findings=4)
    evidence = draw_evidence(rng, network, repairs=0)
    order = rng.permutation(len(evidence.sightings))
    shuffled = Evidence(tuple(evidence.sightings[place] for place in order), evidence.standings)
    assert weigh(network, evidence).now == pytest.approx(weigh(network, shuffled).now, abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(seeds, st.integers(0, 2))
def test_probabilities_lie_in_their_order_between_none_and_sure(seed, repairs):
    rng = np.random.default_rng(seed)
    network = draw_network(rng, causes=6, findings=4, complaints=2)
    weighing = weigh(network, draw_evidence(rng, network, repairs))
    slack = 1e-12
    assert (weighing.blocking >= 0).all()
    assert (weighing.blocking <= weighing.now + slack).all()
    assert (weighing.now <= weighing.arrived + slack).all()
    assert (weighing.arrived <= 1 + slack).all()


@settings(max_examples=30, deadline=None)
@given(seeds)
def test_the_results_of_a_check_share_out_the_whole(seed):
    rng = np.random.default_rng(seed)
    network = draw_network(rng, causes=6, findings=4)
    levels = network.findings["f3"].levels
    evidence = Evidence((Sighting("f0", 1),), (Standing("complaint"),))
    results = [
        weigh(network, Evidence((*evidence.sightings, Sighting("f3", level)), evidence.standings))
        for level in range(levels)
    ]
    whole = weigh(network, evidence)
    assert sum(one.evidence for one in results) == pytest.approx(whole.evidence, rel=1e-12)
    assert sum(one.evidence * one.now[0] for one in results) == pytest.approx(whole.evidence * whole.now[0], rel=1e-10)


def test_weighs_many_odd_findings_as_long_as_they_look_at_few_causes_each():
    rng = np.random.default_rng(4)
    causes = [NetworkCause(f"c{n}", 0.1) for n in range(40)]
    findings = [
        NetworkFinding(f"f{n}", (0.9, 0.1), {f"c{n}": (0.2, 0.8), f"c{n + 1}": (0.5, 0.5)}) for n in rng.permutation(39)
    ]
    network = fault_network(causes, findings)
    seen = {f"f{n}": 1 for n in range(39)}
    weighing = weigh(network, Evidence(tuple(Sighting(name, level) for name, level in seen.items())))
    # Oracle: pyAgrum, on which such a chain is easy too.
    expected = posteriors(as_bayes_net(network, seen), seen, network.names)
    assert weighing.now[0] == pytest.approx(expected, abs=1e-9)


def test_unlikely_evidence_loses_no_digits():
    # An alternating sum cancels here. By hand: 12 findings of leak 1e-6 that one cause each of two explains for sure.
    rows = {"a": (0.0, 1.0), "b": (0.0, 1.0)}
    network = fault_network(
        [NetworkCause("a", 1e-6), NetworkCause("b", 2e-6)],
        [NetworkFinding(f"f{n}", (1 - 1e-6, 1e-6), rows) for n in range(12)],
    )
    weighing = weigh(network, Evidence(tuple(Sighting(f"f{n}", 1) for n in range(12))))
    either = 1e-6 + 2e-6 - 2e-12
    assert weighing.evidence[0] == pytest.approx(either, rel=1e-12)
    assert weighing.now[0] == pytest.approx([1e-6 / either, 2e-6 / either], rel=1e-12)


def test_refuses_findings_that_cannot_be_weighed_together():
    rng = np.random.default_rng(3)
    names = [f"c{n}" for n in range(24)]
    looks_at = [rng.permutation(names)[:12] for _ in names]
    network = fault_network(
        [NetworkCause(name, 0.1) for name in names],
        [NetworkFinding(f"f{n}", (0.9, 0.1), dict.fromkeys(own, (0.5, 0.5))) for n, own in enumerate(looks_at)],
    )
    with pytest.raises(OutOfRange, match=r"24 findings, .*Take back the findings you trust least"):
        weigh(network, Evidence(tuple(Sighting(f"f{n}", 1) for n in range(24))))
