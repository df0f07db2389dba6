"""Exact weighing against worked examples, brute force and a general-purpose library."""

import warnings

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.errors import KnowledgeFault, OutOfRange
from bellcrank.stats.evidence import Evidence, Question, Sighting, Standing
from bellcrank.stats.fault_network import NetworkCause, NetworkFinding, fault_network
from bellcrank.stats.weighing import weigh

from .brute_force import brute_force


def random_network(rng, causes, findings, links=True):
    """Draw a small network: causes with links, findings with two or three levels."""
    names = [f"c{n}" for n in range(causes)]
    made = []
    for number, name in enumerate(names):
        roots = {}
        if links and number > 1 and rng.random() < 0.5:
            roots[names[int(rng.integers(number))]] = float(rng.uniform(0.1, 0.7))
        made.append(NetworkCause(name, float(rng.uniform(0.02, 0.3)), roots))
    seen = []
    for number in range(findings):
        levels = int(rng.integers(2, 4))
        rows = {n: tuple(rng.dirichlet(np.ones(levels))) for n in names if rng.random() < 0.5}
        seen.append(NetworkFinding(f"f{number}", tuple(rng.dirichlet([8.0] + [1.0] * (levels - 1))), rows))
    blocks = {n: (1 - float(v), float(v)) for n, v in zip(names, rng.uniform(0, 1, causes), strict=True)}
    seen.append(NetworkFinding("complaint", (1.0, 0.0), blocks))
    return fault_network(made, seen)


def random_evidence(rng, network, repairs):
    """Draw findings before and after repairs, the complaint standing until the end or cured by the last repair."""
    mends = []
    for _ in range(repairs):
        chosen = [n for n in network.names if rng.random() < 0.4] or [network.names[0]]
        mends.append({n: float(rng.uniform(0.5, 0.99)) for n in chosen})
    sightings = tuple(
        Sighting(name, int(rng.integers(table.levels)), int(rng.integers(repairs + 1)))
        for name, table in network.findings.items()
        if name != "complaint"
    )
    cured = repairs > 0 and rng.random() < 0.5
    standing = Standing("complaint", repairs - 1, repairs) if cured else Standing("complaint", repairs)
    return Evidence(sightings, (standing,), tuple(mends))


@pytest.mark.parametrize("seed", range(40))
def test_agrees_with_listing_every_world(seed):
    # Oracle: brute_force.py, a separate listing of sets, blockers and survivals.
    rng = np.random.default_rng(seed)
    network = random_network(rng, causes=5, findings=3)
    evidence = random_evidence(rng, network, repairs=int(rng.integers(3)))
    weighing = weigh(network, evidence)
    probability, now = brute_force(network, evidence)
    assert weighing.evidence[0] == pytest.approx(probability, rel=1e-12)
    assert weighing.now[0] == pytest.approx(now, abs=1e-12)


def test_a_failed_repair_and_a_finding_after_it():
    # Worked by hand from Bayes' rule: A .1, B .05, both block for sure; repair of A works in .8; it still fails.
    # P(A there) = .1*.2*1 + ...: .289855; then a test with leak .1 and net strength .9 for A: .0182 / .0231.
    network = fault_network(
        [NetworkCause("A", 0.1), NetworkCause("B", 0.05)],
        [
            NetworkFinding("complaint", (1.0, 0.0), {"A": (0.0, 1.0), "B": (0.0, 1.0)}),
            NetworkFinding("test", (0.9, 0.1), {"A": (0.1, 0.9)}),
        ],
    )
    failed = Evidence((), (Standing("complaint", 1),), ({"A": 0.8},))
    assert weigh(network, failed).now[0, 0] == pytest.approx(0.289855, abs=1e-6)
    tested = Evidence((Sighting("test", 1, 1),), (Standing("complaint", 1),), ({"A": 0.8},))
    assert weigh(network, tested).now[0, 0] == pytest.approx(0.787879, abs=1e-6)


def test_noisy_max_levels_worked_by_hand():
    # Cumulative rows multiply: .9*.2*.5, .97*.7*.8, 1 -> levels .09, .4532, .4568.
    network = fault_network(
        [NetworkCause("A", 1.0), NetworkCause("B", 1.0)],
        [NetworkFinding("f", (0.90, 0.07, 0.03), {"A": (0.2, 0.5, 0.3), "B": (0.5, 0.3, 0.2)})],
    )
    levels = [weigh(network, Evidence((Sighting("f", level),))).evidence[0] for level in range(3)]
    assert levels == pytest.approx([0.09, 0.4532, 0.4568], abs=1e-12)


def test_car_start_example():
    # F. V. Jensen and T. D. Nielsen, Bayesian Networks and Decision Graphs (2007), chapter 2; parameters from memory.
    # Faults are "no fuel" .02 and "dirty plugs" .04; the meter is a finding with levels full, half, empty. The start
    # table (.99 / .01 / 0 / 0) is a leak of .01, plugs of .99 net strength (to three digits) and fuel of 1.
    network = fault_network(
        [NetworkCause("fuel", 0.02), NetworkCause("plugs", 0.04)],
        [NetworkFinding("no start", (0.99, 0.01), {"fuel": (0.0, 1.0), "plugs": (0.01 / 0.99, 1 - 0.01 / 0.99)})],
    )
    weighing = weigh(network, Evidence((Sighting("no start", 1),)))
    assert 1 - weighing.now[0, 0] == pytest.approx(0.706814, abs=1e-5)
    assert 1 - weighing.now[0, 1] == pytest.approx(0.419374, abs=1e-5)


def _pyagrum():
    """Import the library with its own import-time deprecation warnings let through: raised, they crash its C part."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import pyagrum  # noqa: PLC0415
    return pyagrum


def pyagrum_posteriors(network, sightings):
    """Ask pyAgrum (a general-purpose library) on a network of cause nodes and full finding tables."""
    gum = _pyagrum()
    net = gum.BayesNet()
    for name in network.names:
        net.add(gum.LabelizedVariable(name, name, 2))
    for cause, roots in enumerate(network.roots):
        for root, _ in roots:
            net.addArc(network.names[root], network.names[cause])
    for sighting in sightings:
        table = network.findings[sighting.finding]
        net.add(gum.LabelizedVariable(sighting.finding, sighting.finding, table.levels))
        for cause in table.touched:
            net.addArc(network.names[cause], sighting.finding)
    for cause, name in enumerate(network.names):
        _fill(net, name, lambda given, c=cause: _cause_row(network, c, given))
    for sighting in sightings:
        table = network.findings[sighting.finding]
        _fill(net, sighting.finding, lambda given, t=table: _finding_row(network, t, given))
    engine = gum.VariableElimination(net)
    engine.setEvidence({s.finding: s.level for s in sightings})
    return [engine.posterior(name)[1] for name in network.names]


def _fill(net, name, row):
    table = net.cpt(name)
    parents = [v for v in table.names if v != name]
    for state in np.ndindex(*([2] * len(parents))):
        given = dict(zip(parents, state, strict=True))
        table[given] = row(given) if parents else row({})


def _cause_row(network, cause, given):
    absent = 1 - network.own[cause]
    for root, strength in network.roots[cause]:
        absent *= 1 - strength * given[network.names[root]]
    return [absent, 1 - absent]


def _finding_row(network, table, given):
    there = [c for c in table.touched if given[network.names[c]]]
    cumulative = [float(table.leak[lv] * np.prod([table.rows[lv][c] for c in there])) for lv in range(table.levels)]
    return list(np.diff([0.0, *cumulative]))


@pytest.mark.parametrize("seed", range(12))
def test_agrees_with_a_general_purpose_library(seed):
    # Oracle: pyAgrum, variable elimination on full tables.
    rng = np.random.default_rng(100 + seed)
    network = random_network(rng, causes=14, findings=6)
    evidence = Evidence(
        (
            *(Sighting(n, int(rng.integers(t.levels))) for n, t in network.findings.items() if n != "complaint"),
            Sighting("complaint", 1),
        )
    )
    weighing = weigh(network, evidence)
    assert weighing.now[0] == pytest.approx(pyagrum_posteriors(network, evidence.sightings), abs=1e-9)


def test_a_question_is_the_same_as_asking_alone():
    rng = np.random.default_rng(7)
    network = random_network(rng, causes=7, findings=5)
    base = random_evidence(rng, network, repairs=1)
    together = weigh(network, base, (Question(), Question(without=frozenset({1})), Question(at_most=("f0", 0))))
    without = Evidence(base.sightings[:1] + base.sightings[2:], base.standings, base.mends)
    asked = Evidence((*base.sightings, Sighting("f0", 0, 1)), base.standings, base.mends)
    for row, evidence in enumerate((base, without, asked)):
        alone = weigh(network, evidence)
        assert together.now[row] == pytest.approx(alone.now[0], abs=1e-12)
        assert together.evidence[row] == pytest.approx(alone.evidence[0], rel=1e-12)


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 10_000))
def test_the_order_of_findings_does_not_matter(seed):
    rng = np.random.default_rng(seed)
    network = random_network(rng, causes=6, findings=4)
    evidence = random_evidence(rng, network, repairs=0)
    shuffled = Evidence(tuple(rng.permutation(np.array(evidence.sightings, dtype=object))), evidence.standings)
    first, second = weigh(network, evidence), weigh(network, shuffled)
    assert first.now == pytest.approx(second.now, abs=1e-12)
    assert ((first.now >= 0) & (first.now <= 1 + 1e-12)).all()


def test_refuses_more_findings_than_can_be_weighed():
    rng = np.random.default_rng(3)
    network = random_network(rng, causes=4, findings=16)
    evidence = Evidence(tuple(Sighting(n, 1) for n in network.findings))
    with pytest.raises(OutOfRange, match="Take back those you trust least"):
        weigh(network, evidence)


def test_refuses_causes_that_bring_each_other_about():
    with pytest.raises(KnowledgeFault, match="in a circle"):
        fault_network([NetworkCause("a", 0.1, {"b": 0.5}), NetworkCause("b", 0.1, {"a": 0.5})], [])
