"""The same answer the long way: every set of causes, every blocker, every survival of every repair."""

from itertools import product

import numpy as np


def brute_force(network, evidence):
    """Weigh by listing every world; gives the probability of the evidence and of each cause now."""
    names = network.names
    total, now = 0.0, np.zeros(len(names))
    for present in product((0, 1), repeat=len(names)):
        prior = _prior(network, present)
        if prior:
            for weight, gone in _goings(network, evidence, present):
                chance = prior * weight * _seen(network, evidence, present, gone)
                total += chance
                now += chance * np.array([p and gone[c] == len(evidence.mends) for c, p in enumerate(present)])
    return total, now / total


def _prior(network, present):
    chance = 1.0
    for cause, own in enumerate(network.own):
        absent = 1 - own
        for root, strength in network.roots[cause]:
            absent *= 1 - strength * present[root]
        chance *= 1 - absent if present[cause] else absent
    return chance


def _goings(network, evidence, present):
    """Every way the present causes may have been removed."""
    repairs = len(evidence.mends)
    ways = []
    for cause, name in enumerate(network.names):
        if not present[cause]:
            ways.append([(1.0, -1)])
            continue
        options, left = [], 1.0
        for number, mend in enumerate(evidence.mends):
            q = mend.get(name, 0.0)
            if q:
                options.append((left * q, number))
                left *= 1 - q
        options.append((left, repairs))
        ways.append(options)
    for combination in product(*ways):
        weight = float(np.prod([w for w, _ in combination]))
        yield weight, [g for _, g in combination]


def _seen(network, evidence, present, gone):
    chance = 1.0
    for sighting in evidence.sightings:
        there = [c for c, p in enumerate(present) if p and gone[c] >= sighting.after]
        table = network.findings[sighting.finding]
        chance *= _at_most(table, sighting.level, there) - _at_most(table, sighting.level - 1, there)
    for standing in evidence.standings:
        chance *= _standing(network, standing, present, gone)
    return chance


def _at_most(table, level, there):
    if level < 0:
        return 0.0
    return float(table.leak[level] * np.prod([table.rows[level][c] for c in there]))


def _standing(network, standing, present, gone):
    """Draw who blocks, once for the visit; the leak of a complaint is taken as zero."""
    spare = network.findings[standing.finding].rows[0]
    causes = [c for c, p in enumerate(present) if p]
    total = 0.0
    for blocks in product((0, 1), repeat=len(causes)):
        weight = float(np.prod([(1 - spare[c]) if b else spare[c] for c, b in zip(causes, blocks, strict=True)]))
        stood = any(b and gone[c] >= standing.stood_after for c, b in zip(causes, blocks, strict=True))
        still = standing.gone_after is not None and any(
            b and gone[c] >= standing.gone_after for c, b in zip(causes, blocks, strict=True)
        )
        total += weight * (stood and not still)
    return total
