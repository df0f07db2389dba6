"""The same answer the long way: every set of causes, every blocker, every survival of every repair."""

from itertools import product

import numpy as np


def brute_force(network, evidence):
    """Weigh by listing every world; gives P(evidence) and per cause: there now, there on arrival, blocking now."""
    total = 0.0
    now, arrived, blocking = np.zeros((3, len(network.names)))
    for present in product((0, 1), repeat=len(network.names)):
        prior = _prior(network, present)
        if not prior:
            continue
        for weight, gone in _goings(network, evidence, present):
            seen = prior * weight * _seen(network, evidence, present, gone)
            chance = seen * _stood(network, evidence, present, gone)
            here = np.array([p and gone[c] == len(evidence.mends) for c, p in enumerate(present)])
            total += chance
            now += chance * here
            arrived += chance * np.array(present)
            for cause in np.flatnonzero(here):
                blocking[cause] += chance - seen * _stood(network, evidence, present, gone, mute=cause)
    return total, now / total, arrived / total, blocking / total


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
        options.append((left, len(evidence.mends)))
        ways.append(options)
    for combination in product(*ways):
        yield float(np.prod([w for w, _ in combination])), [g for _, g in combination]


def _seen(network, evidence, present, gone):
    chance = 1.0
    for sighting in evidence.sightings:
        if sighting.since is not None:
            chance *= _lasted(network.findings[sighting.finding], sighting, present, gone)
            continue
        there = [c for c, p in enumerate(present) if p and gone[c] >= sighting.after]
        table = network.findings[sighting.finding]
        if sighting.weights:
            steps = [_at_most(table, level, there) - _at_most(table, level - 1, there) for level in range(table.levels)]
            chance *= float(np.dot(sighting.weights, steps))
            continue
        chance *= _at_most(table, sighting.level, there) - _at_most(table, sighting.level - 1, there)
    return chance


def _lasted(table, sighting, present, gone):
    """Draw once the level each present cause, and chance, would show alone; it shows the highest of what is there."""
    causes = [c for c, p in enumerate(present) if p and c in table.touched]
    alone = [np.diff(table.leak, prepend=0.0), *(np.diff(table.rows[:, c], prepend=0.0) for c in causes)]
    total = 0.0
    for levels in product(range(table.levels), repeat=len(alone)):
        shown = [
            max(levels[0], *(lv for c, lv in zip(causes, levels[1:], strict=True) if gone[c] >= time), 0)
            for time in range(sighting.since, sighting.after + 1)
        ]
        if shown[0] == shown[-1] == sighting.level:
            total += float(np.prod([row[level] for row, level in zip(alone, levels, strict=True)]))
    return total


def _at_most(table, level, there):
    if level < 0:
        return 0.0
    return float(table.leak[level] * np.prod([table.rows[level][c] for c in there]))


def _stood(network, evidence, present, gone, mute=None):
    """Chance of every complaint's history; with ``mute``: and that this cause blocks none of those that stand now."""
    return float(np.prod([_history(network, one, present, gone, mute) for one in evidence.standings]))


def _history(network, standing, present, gone, mute):
    """Draw who blocks, once for the visit; the leak of a complaint is taken as zero."""
    spare = network.findings[standing.finding].rows[0]
    causes = [c for c, p in enumerate(present) if p and spare[c] < 1]
    total = 0.0
    for blocks in product((0, 1), repeat=len(causes)):
        blockers = [c for c, b in zip(causes, blocks, strict=True) if b]
        if mute in blockers:
            continue
        weight = float(np.prod([(1 - spare[c]) if c in blockers else spare[c] for c in causes]))
        stood = any(gone[c] >= standing.stood_after for c in blockers)
        still = standing.gone_after is not None and any(gone[c] >= standing.gone_after for c in blockers)
        total += weight * (stood and not still)
    return total


def brute_force_joint(network, evidence, here, not_here):
    """P(evidence, and these causes are there now, and those are not), by listing every world."""
    total = 0.0
    for present in product((0, 1), repeat=len(network.names)):
        for weight, gone in _goings(network, evidence, present):
            now = {network.names[c] for c, p in enumerate(present) if p and gone[c] == len(evidence.mends)}
            if here <= now and not (not_here & now):
                seen = _seen(network, evidence, present, gone) * _stood(network, evidence, present, gone)
                total += _prior(network, present) * weight * seen
    return total
