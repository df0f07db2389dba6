"""The same network in pyAgrum, a general-purpose library: findings as chains of small maximum tables."""

import warnings

import numpy as np


def pyagrum():
    """Import the library with its own import-time deprecation warnings let through: raised, they crash its C part."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import pyagrum as library  # noqa: PLC0415
    return library


def as_bayes_net(network, findings):
    """Build the causes and the named findings; a finding's last chain node carries its name."""
    gum = pyagrum()
    net = gum.BayesNet()
    for name in network.names:
        net.add(gum.LabelizedVariable(name, name, 2))
    for cause, roots in enumerate(network.roots):
        for root, _ in roots:
            net.addArc(network.names[root], network.names[cause])
    for cause, name in enumerate(network.names):
        _fill(net, name, lambda given, c=cause: _cause_row(network, c, given))
    for finding in findings:
        _add_chain(gum, net, network, finding)
    return net


def posteriors(net, seen, names):
    """Probability that each cause is present, given levels of findings."""
    engine = pyagrum().VariableElimination(net)
    engine.setEvidence(seen)
    return [engine.posterior(name)[1] for name in names]


def _add_chain(gum, net, network, finding):
    """The finding is the highest of its leak and what each cause alone would show, taken in one cause at a time."""
    table = network.findings[finding]
    before = finding if not table.touched else f"{finding}:leak"
    net.add(gum.LabelizedVariable(before, before, table.levels))
    net.cpt(before).fillWith([float(p) for p in np.diff(table.leak, prepend=0.0)])
    for place, cause in enumerate(table.touched):
        last = place == len(table.touched) - 1
        node = finding if last else f"{finding}:{place}"
        net.add(gum.LabelizedVariable(node, node, table.levels))
        net.addArc(before, node)
        net.addArc(network.names[cause], node)
        _fill(net, node, lambda given, b=before, c=cause: _maximum_row(table, c, given[b], given[network.names[c]]))
        before = node


def _maximum_row(table, cause, so_far, present):
    alone = table.rows[:, cause] if present else np.ones(table.levels)
    return list(np.diff(np.where(np.arange(table.levels) >= so_far, alone, 0.0), prepend=0.0))


def _cause_row(network, cause, given):
    absent = 1 - network.own[cause]
    for root, strength in network.roots[cause]:
        absent *= 1 - strength * given[network.names[root]]
    return [absent, 1 - absent]


def _fill(net, name, row):
    table = net.cpt(name)
    parents = [v for v in table.names if v != name]
    for state in np.ndindex(*(net.variable(parent).domainSize() for parent in parents)):
        given = dict(zip(parents, (int(one) for one in state), strict=True))
        if parents:
            table[given] = row(given)
        else:
            table.fillWith(row(given))
