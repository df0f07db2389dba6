"""What the planner saves: simulated jobs worked through by it and by other ways, on every kind of machine.

Run from the repository: ./bellcrank bench policies (all), or python -m bench.bench_policies --jobs 40 (quick).
Three worlds: as the packs say; with other numbers than the packs (log-odds moved by 0.7 on causes, 0.5 on rows); and
with causes the packs do not know (every tenth is struck off what the tool knows). What stands behind ± is the standard
error of the mean of the differences against the planner, job by job.
"""

import argparse
import os
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace

import numpy as np
from bench.policies import POLICIES, planner, work
from bench.simulated import Visit, draw_machines

from bellcrank.diagnosis.network import compile_pack, pack_given
from bellcrank.knowledge.pack import read_library

WORLDS = ("as the pack says", "other numbers", "unknown causes")
ON_CAUSES, ON_ROWS = 0.7, 0.5  # standard deviations of the log-odds in the world of other numbers
STRUCK_OFF = 0.1  # of the causes, in the world of unknown causes
CHUNK = 20  # jobs of one changed world


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--jobs", type=int, default=200, help="simulated jobs for each kind and world")
    options.add_argument("--kind", action="append", help="only this kind of machine")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    told = options.parse_args()
    kinds = told.kind or list(read_library().packs)
    chunks = [
        (kind, world, told.seed * 1000 + number)
        for kind in kinds
        for world in WORLDS
        for number in range(max(1, told.jobs // CHUNK))
    ]
    with ProcessPoolExecutor(told.workers) as pool:
        results = list(pool.map(one_chunk, chunks))
    for kind in kinds:
        for world in WORLDS:
            rows = [
                row for chunk, found in zip(chunks, results, strict=True) if chunk[:2] == (kind, world) for row in found
            ]
            show(kind, world, np.array(rows))


def one_chunk(chunk):
    """Work through some jobs in one world by every policy; gives an array (jobs, policies, numbers)."""
    kind, world, seed = chunk
    pack = read_library().packs[kind]
    rng = np.random.default_rng((seed, WORLDS.index(world)))
    weights = np.array([one.weight for one in pack.complaints])
    complaints = rng.choice([one.id for one in pack.complaints], CHUNK, p=weights / weights.sum())
    rows = []
    for complaint in sorted(set(complaints)):
        whole = pack_given(pack, [complaint])
        truth, known = worlds(whole, world, (seed, 7))
        count = int((complaints == complaint).sum())
        machines = draw_machines(truth, complaint, count, (seed, WORLDS.index(world)))
        rows.extend(
            [outcome(policy, Visit(truth, known, machine)) for policy in POLICIES.values()] for machine in machines
        )
    return rows


def outcome(policy, visit):
    work(policy, visit, np.random.default_rng(visit.machine.seed))
    return visit.minutes, visit.hands, visit.steps, float(visit.gave_up)


def worlds(pack, world, seed):
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
        name: table if name.startswith("complaint:") else _moved_table(table, rng)
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


def show(kind, world, rows):
    """Print a table: one line a policy."""
    print(f"\n{kind}, {world}: {len(rows)} jobs; minutes to cure, parts counted as minutes")
    heads = f"{'mean':>7}{'median':>8}{'p90':>7}{'hands-on':>10}{'steps':>7}{'gave up':>9}"
    print(f"  {'':34s}{heads}   more than the planner")
    ours = rows[:, list(POLICIES.values()).index(planner), 0]
    for place, name in enumerate(POLICIES):
        minutes, hands, steps, gave_up = rows[:, place].T
        apart = minutes - ours
        error = apart.std(ddof=1) / len(apart) ** 0.5
        print(
            f"  {name:34s}{minutes.mean():7.1f}{np.median(minutes):8.1f}{np.percentile(minutes, 90):7.0f}"
            f"{hands.mean():10.1f}{steps.mean():7.1f}{100 * gave_up.mean():8.0f} %   {apart.mean():+6.1f} ± {error:.1f}"
        )


if __name__ == "__main__":
    main()
