"""Posteriors on public benchmark networks, against pyAgrum, and the values pgmpy and pyAgrum agree on."""

import numpy as np
import pytest

from bellcrank.errors import KnowledgeFault, OutOfRange
from bellcrank.stats.fault_network import NetworkCause, fault_network
from bellcrank.stats.weighing import weigh

from .bif import PublicNetwork, at_least
from .general_library import pyagrum

NO_OUTPUT = {"Problem1": "No_Output"}
NO_ICON = NO_OUTPUT | {"NetPrint": "No__Local_printer_", "PrtIcon": "Normal"}


@pytest.mark.parametrize("name", ["asia", "cancer", "earthquake", "survey", "sachs", "child", "win95pts"])
@pytest.mark.parametrize("seed", range(3))
def test_posteriors_agree_with_a_general_library(name, seed):
    # Oracle: pyAgrum, lazy propagation; up to six variables seen at states drawn from the network itself.
    network = PublicNetwork(name)
    net = network.as_bayes_net()
    seen = _drawn(net, network, np.random.default_rng(seed), 6 if len(network.states) > 8 else 2)
    weighing = weigh(network.as_fault_network(), network.evidence(seen))
    engine = pyagrum().LazyPropagation(net)
    engine.setEvidence(seen)
    assert weighing.evidence[0] == pytest.approx(engine.evidenceProbability(), rel=1e-9)
    expected = [
        sum(engine.posterior(variable)[place] for place in range(level, len(states)))
        for variable, states in network.states.items()
        for level in range(1, len(states))
    ]
    assert weighing.now[0] == pytest.approx(expected, abs=1e-9)


def _drawn(net, network, rng, count):
    """Draw a machine and see some of it: evidence that can be."""
    state = {}
    for place in net.topologicalOrder():
        name = net.variable(place).name()
        parents = network.parents[name]
        chances = network.rows[name][tuple(network.states[one][state[one]] for one in parents)]
        state[name] = int(np.searchsorted(np.cumsum(chances)[:-1], rng.random(), side="right"))
    chosen = rng.permutation(list(network.states))[:count]
    return {str(name): network.states[name][state[name]] for name in chosen}


@pytest.mark.parametrize(
    ("name", "seen", "probability", "expected"),
    [
        # Values on which pyAgrum and pgmpy agreed to eight digits, from the files in the pgmpy 1.1.2 wheel.
        ("asia", {}, None, {"tub": 0.0104, "lung": 0.055, "either": 0.064828, "xray": 0.11029, "dysp": 0.435971}),
        (
            "asia",
            {"asia": "yes", "dysp": "yes"},
            0.00450138,
            {"tub": 0.087751, "lung": 0.099525, "bronc": 0.811402, "xray": 0.219539},
        ),
        (
            "asia",
            {"asia": "yes", "dysp": "yes", "xray": "no"},
            0.00351315,
            {"tub": 0.00224870, "lung": 0.00255042, "bronc": 0.86276078},
        ),
        (
            "win95pts",
            NO_OUTPUT,
            0.4274462,
            {
                "PrtOn": 0.1842085,
                "PTROFFLINE": 0.3386042,
                "PrtDriver": 0.1668200,
                "PrtMem": 0.0839653,
                "DskLocal": 0.0484687,
            },
        ),
        (
            "win95pts",
            NO_ICON,
            0.2870928,
            {"PrtOn": 0.2020335, "PTROFFLINE": 0.2324568, "PrtDriver": 0.1761234, "PrtCbl": 0.0414583},
        ),
    ],
)
def test_posteriors_are_those_two_libraries_agree_on(name, seen, probability, expected):
    network = PublicNetwork(name)
    faults = network.as_fault_network()
    weighing = weigh(faults, network.evidence(seen))
    if probability:
        assert weighing.evidence[0] == pytest.approx(probability, abs=1e-6)
    for variable, chance in expected.items():
        # asia's first state is "yes", the others' second is the fault
        there = weighing.now[0, faults.position[at_least(variable, 1)]]
        assert (1 - there if name == "asia" else there) == pytest.approx(chance, abs=1e-6)


def test_a_network_that_hangs_together_too_tightly_is_refused_not_approximated():
    alarm = PublicNetwork("alarm")
    with pytest.raises(OutOfRange, match="too much to be weighed exactly"):
        weigh(alarm.as_fault_network(), alarm.evidence({}))


def test_a_table_that_says_noisy_or_is_noisy_or():
    roots = [NetworkCause("a", 0.2), NetworkCause("b", 0.3)]
    by_strength = fault_network([*roots, NetworkCause("c", 0.1, {"a": 0.5, "b": 0.4})], [])
    table = (0.1, 1 - 0.9 * 0.6, 1 - 0.9 * 0.5, 1 - 0.9 * 0.5 * 0.6)
    by_table = fault_network([*roots, NetworkCause("c", 0.0, {"a": 0.0, "b": 0.0}, table)], [])
    nothing = PublicNetwork("asia").evidence({})
    assert weigh(by_table, nothing).now[0] == pytest.approx(weigh(by_strength, nothing).now[0], abs=1e-15)


def test_refuses_a_table_that_misses_a_combination():
    with pytest.raises(KnowledgeFault, match="“c” has 1 roots, but 3 chances"):
        fault_network([NetworkCause("a", 0.2), NetworkCause("c", 0.1, {"a": 0.5}, (0.1, 0.2, 0.3))], [])
