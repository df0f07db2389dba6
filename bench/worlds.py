"""What is true of the simulated machines, and what the tool knows of it: the same, or a pack that is wrong."""

from dataclasses import replace

import numpy as np

from bellcrank.diagnosis.network import COMPLAINT, compile_pack

WORLDS = ("as the pack says", "other numbers", "unknown causes")
ON_CAUSES, ON_ROWS = 0.7, 0.5  # standard deviations of the log-odds in the world of other numbers
STRUCK_OFF = 0.1  # of the causes, in the world of unknown causes


def world_and_known(pack, world, seed):
    """Give the compiled pack of the world and the one the tool knows."""
    rng = np.random.default_rng(seed)
    compiled = compile_pack(pack)
    if world == "other numbers":
        return replace(compiled, network=with_other_numbers(compiled.network, rng)), compiled
    if world == "unknown causes":
        likely = [one.id for one in pack.causes if one.shares]
        struck = set(rng.choice(likely, round(STRUCK_OFF * len(likely)), replace=False).tolist())
        return compiled, compile_pack(without_causes(pack, struck))
    return compiled, compiled


def with_other_numbers(network, rng):
    """Move the log-odds of every cause, and of every result of every row, by noise."""
    own = _moved(network.own, rng.normal(0, ON_CAUSES, network.own.shape))
    findings = {
        name: table if name.startswith(COMPLAINT) else _moved_table(table, rng)
        for name, table in network.findings.items()
    }
    return replace(network, own=own, findings=findings)


def _moved(chances, by):
    odds = chances / (1 - chances) * np.exp(by)
    return odds / (1 + odds)


def _moved_table(table, rng):
    steps = np.diff(np.column_stack([table.leak, table.rows]), axis=0, prepend=0.0)
    moved = steps * np.exp(rng.normal(0, ON_ROWS, steps.shape))
    moved = np.cumsum(moved / moved.sum(axis=0), axis=0)
    moved[-1] = 1.0
    rows = table.rows.copy()
    touched = list(table.touched)
    rows[:, touched] = moved[:, 1:][:, touched]
    return replace(table, leak=moved[:, 0], rows=rows)


def without_causes(pack, names):
    """The pack as if nobody had ever written these causes down."""
    repairs = [
        replace(one, fixes={cause: chance for cause, chance in one.fixes.items() if cause not in names})
        for one in pack.repairs
    ]
    return replace(
        pack,
        causes=tuple(one for one in pack.causes if one.id not in names),
        links=tuple(one for one in pack.links if not {one.root, one.consequence} & names),
        checks=tuple(
            replace(one, likelihoods=tuple(row for row in one.likelihoods if row.cause not in names))
            for one in pack.checks
        ),
        repairs=tuple(one for one in repairs if one.fixes),
        given=tuple(one for one in pack.given if one.row.cause not in names),
    )
