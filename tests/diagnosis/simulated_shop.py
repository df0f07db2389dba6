"""A shop whose machines break by the numbers of a pack: closed cases drawn from its network, not by our weighing."""

from dataclasses import replace

import numpy as np

from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.closed_case import ClosedCase
from bellcrank.diagnosis.network import COMPLAINT, NOT_LISTED, compile_pack

IN_VAIN = 0.2  # [-] of jobs in which something else is mended first


def changed(pack, rng, *, shares=0.7, rows=0.5):
    """Give a pack whose shares and rows are off by noise in the log odds; shares of a complaint keep their sum."""

    def off(chances, spread):
        odds = np.array(chances) * np.exp(rng.normal(0, spread, len(chances)))
        return tuple((odds / odds.sum() * sum(chances)).tolist())

    new = {cause.id: dict(cause.shares) for cause in pack.causes}
    for complaint in pack.complaints:
        named = [cause.id for cause in pack.causes if complaint.id in cause.shares]
        moved = off([new[name][complaint.id] for name in named], shares)
        for name, share in zip(named, moved, strict=True):
            new[name][complaint.id] = share
    return replace(
        pack,
        causes=tuple(replace(cause, shares=new[cause.id]) for cause in pack.causes),
        checks=tuple(
            replace(
                check,
                leak=off(check.leak, rows),
                likelihoods=tuple(
                    replace(row, probabilities=off(row.probabilities, rows)) for row in check.likelihoods
                ),
            )
            for check in pack.checks
        ),
    )


def closed_cases(pack, count, rng, *, looks=4, told=0.6):
    """Draw closed cases: faults of which one brings the complaint about, what some checks show, and the repair."""
    compiled = compile_pack(pack)
    drawn = []
    while len(drawn) < count:
        complaint = rng.choice([one.id for one in pack.complaints], p=_weights(pack))
        here = _faults(compiled.network, rng)
        strengths = 1 - compiled.network.findings[COMPLAINT + complaint].rows[0]
        blocks = here & (rng.uniform(size=here.shape) < strengths)
        for place in np.flatnonzero(blocks.sum(axis=1) == 1)[:1]:
            name = compiled.network.names[int(np.flatnonzero(blocks[place])[0])]
            if name != NOT_LISTED and compiled.causes[name].repair:
                drawn.append(_closed(compiled, str(complaint), here[place], name, (looks, told), rng))
    return drawn


def _weights(pack):
    weights = np.array([one.weight for one in pack.complaints])
    return weights / weights.sum()


def _faults(network, rng, machines=400):
    here = rng.uniform(size=(machines, len(network.names))) < network.own
    for _ in range(3):  # chains of causes are short
        for cause, roots in enumerate(network.roots):
            for root, strength in roots:
                here[:, cause] |= here[:, root] & (rng.uniform(size=machines) < strength)
    return here


def _closed(compiled, complaint, here, blocker, habits, rng):
    """Some facts, some checks, now and then a repair in vain, and the one that cures."""
    looks, told = habits
    story = [one for one in compiled.pack.checks if one.story and rng.uniform() < told]
    others = [one for one in compiled.pack.checks if not one.story]
    pointing = [one for one in others if blocker in compiled.looks_at[one.id]]
    picked = {one.id: one for some in (pointing, others) for one in _some(some, looks, rng)}.values()
    found = [_found(compiled, check, here, rng) for check in (*story, *picked)]
    cures = Repaired(compiled.causes[blocker].repair, "cured")
    vain = [one.id for one in compiled.pack.repairs if blocker not in one.fixes]
    before = [Repaired(str(rng.choice(vain)), "not-cured")] if vain and rng.uniform() < IN_VAIN else []
    return ClosedCase(Case((complaint,), (*found, *before, cures)), told=len(story), named=blocker)


def _some(checks, count, rng):
    return [checks[place] for place in rng.permutation(len(checks))[: count // 2]]


def _found(compiled, check, here, rng):
    """Draw a result: the highest of what a sound machine shows and what each cause makes of it."""
    rows = [check.leak]
    rows += [row.probabilities for row in check.likelihoods if here[compiled.network.position[row.cause]]]
    level = max(int(rng.choice(len(row), p=np.array(row) / sum(row))) for row in rows)
    return Found(check.id, check.results[level].id)
