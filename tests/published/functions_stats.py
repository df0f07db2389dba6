"""How the rows of inference.csv call the weighing of faults."""

import numpy as np

from bellcrank.stats.evidence import Evidence, Sighting, Standing
from bellcrank.stats.fault_network import NetworkCause, NetworkFinding, fault_network
from bellcrank.stats.weighing import weigh

from .printed import Published


def noisy_or(leak, strengths):
    """Probability of a finding with all its causes present, strengths without the leak."""
    return _weigh_or([1.0] * len(strengths), leak, strengths).evidence[0]


def noisy_or_with_the_leak_in(leak, strengths):
    """The same with strengths that hold the leak: they are freed of it first."""
    return noisy_or(leak, [(strength - leak) / (1 - leak) for strength in strengths])


def posterior(priors, leak, strengths, cause):
    return _weigh_or(priors, leak, strengths).now[0, cause]


def posterior_with_the_leak_in(priors, leak, strengths, cause):
    return posterior(priors, leak, [(strength - leak) / (1 - leak) for strength in strengths], cause)


def noisy_max_level(leak, rows, level):
    """Probability of a level with all causes present; everything is given as chances up to each level."""
    names = [f"c{n}" for n in range(len(rows))]
    table = {name: _levels(row) for name, row in zip(names, rows, strict=True)}
    causes = [NetworkCause(name, 1.0) for name in names]
    network = fault_network(causes, [NetworkFinding("f", _levels(leak), table)])
    return weigh(network, Evidence((Sighting("f", level),))).evidence[0]


def car_start(part, gauge=None):
    """Chance that a part is good when the car does not start, and with the fuel gauge read.

    The start table (.99 good, .01 dirty plugs, 0 and 0 without fuel) is a leak of .01, a plug row of .01 / .99 and a
    fuel row of 0; of the gauge only "half" is read, .60 with fuel and .001 without.
    """
    dirty, empty = 0.01 / 0.99, 0.001 / 0.60
    network = fault_network(
        [NetworkCause("fuel", 0.02), NetworkCause("plugs", 0.04)],
        [
            NetworkFinding("start", (0.99, 0.01), {"fuel": (0.0, 1.0), "plugs": (dirty, 1 - dirty)}),
            NetworkFinding("gauge", (0.60, 0.40), {"fuel": (empty, 1 - empty)}),
        ],
    )
    read = () if gauge is None else (Sighting("gauge", ("half",).index(gauge)),)
    return 1 - weigh(network, Evidence((Sighting("start", 1), *read))).now[0, network.position[part]]


def still_there_after_a_failed_repair(prior, other, works, leak=None, strength=None):
    """Chance that a repaired cause is there all the same, before and after a test that comes out positive."""
    findings = [NetworkFinding("fails", (1.0, 0.0), {"a": (0.0, 1.0), "b": (0.0, 1.0)})]
    seen = ()
    if leak is not None:
        findings.append(NetworkFinding("test", (1 - leak, leak), {"a": (1 - strength, strength)}))
        seen = (Sighting("test", 1, after=1),)
    network = fault_network([NetworkCause("a", prior), NetworkCause("b", other)], findings)
    return weigh(network, Evidence(seen, (Standing("fails", 1),), ({"a": works},))).now[0, 0]


def _weigh_or(priors, leak, strengths):
    names = [f"c{n}" for n in range(len(priors))]
    rows = {name: (1 - strength, strength) for name, strength in zip(names, strengths, strict=True)}
    causes = [NetworkCause(name, prior) for name, prior in zip(names, priors, strict=True)]
    network = fault_network(causes, [NetworkFinding("f", (1 - leak, leak), rows)])
    return weigh(network, Evidence((Sighting("f", 1),)))


def _levels(up_to):
    return tuple(np.diff(up_to, prepend=0.0).tolist())


FUNCTIONS = {
    "noisy_or": Published(noisy_or, ("weigh",)),
    "noisy_or_with_the_leak_in": Published(noisy_or_with_the_leak_in, ("weigh",)),
    "posterior": Published(posterior, ("weigh",)),
    "posterior_with_the_leak_in": Published(posterior_with_the_leak_in, ("weigh",)),
    "noisy_max_level": Published(noisy_max_level, ("weigh",)),
    "car_start": Published(car_start, ("weigh",)),
    "still_there_after_a_failed_repair": Published(still_there_after_a_failed_repair, ("weigh",)),
}
