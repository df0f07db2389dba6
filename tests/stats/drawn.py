"""Random small networks and evidence for the tests of weighing."""

from bellcrank.stats.evidence import Evidence, Sighting, Standing
from bellcrank.stats.fault_network import NetworkCause, NetworkFinding, fault_network

COMPLAINTS = ("complaint", "second complaint")


def draw_network(rng, causes, findings, complaints=1, most_touched=None):
    """Draw causes with links, findings with two to four levels, and complaints."""
    names = [f"c{n}" for n in range(causes)]
    made = []
    for number, name in enumerate(names):
        roots = {}
        if number > 1 and rng.random() < 0.5:
            for root in rng.choice(number, size=int(rng.integers(1, 3)), replace=False):
                roots[names[int(root)]] = float(rng.uniform(0.1, 0.7))
        made.append(NetworkCause(name, float(rng.uniform(0.02, 0.3)), roots))
    seen = [_draw_finding(rng, f"f{number}", names, most_touched) for number in range(findings)]
    for complaint in COMPLAINTS[:complaints]:
        strengths = rng.uniform(0, 1, causes) * (rng.random(causes) < 0.8)
        strengths[0] = rng.uniform(0.2, 1)  # with c0 in every repair, any history of a complaint is possible
        rows = {n: (1 - float(v), float(v)) for n, v in zip(names, strengths, strict=True)}
        seen.append(NetworkFinding(complaint, (1.0, 0.0), rows))
    return fault_network(made, seen)


def _draw_finding(rng, name, names, most_touched):
    levels = int(rng.integers(2, 5))
    touched = [n for n in names if rng.random() < 0.5][:most_touched]
    rows = {n: tuple(rng.dirichlet([0.7] * levels)) for n in touched}
    return NetworkFinding(name, tuple(rng.dirichlet([8.0] + [1.0] * (levels - 1))), rows)


def draw_evidence(rng, network, repairs):
    """Draw a finding of each kind before or after repairs; complaints stand, or end with the last repairs."""
    mends = []
    for _ in range(repairs):
        chosen = [n for n in network.names if n == "c0" or rng.random() < 0.5]
        mends.append({n: float(rng.uniform(0.3, 0.99)) for n in chosen})
    sightings = tuple(
        Sighting(name, int(rng.integers(table.levels)), int(rng.integers(repairs + 1)))
        for name, table in network.findings.items()
        if name not in COMPLAINTS
    )
    standings = tuple(_draw_standing(rng, name, repairs) for name in COMPLAINTS if name in network.findings)
    return Evidence(sightings, standings, tuple(mends))


def _draw_standing(rng, complaint, repairs):
    if repairs and rng.random() < 0.5:
        gone = int(rng.integers(1, repairs + 1))
        return Standing(complaint, int(rng.integers(gone)), gone)
    return Standing(complaint, int(rng.integers(repairs + 1)))
