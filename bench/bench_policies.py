"""What the planner saves: simulated jobs worked through by it and by other ways, on every kind of machine.

Run from the repository: ./bellcrank bench policies (all), or ./bellcrank bench policies --jobs 20 --seeds 1 (quick).
Three worlds: as the packs say; with other numbers than the packs (log-odds moved by 0.7 on causes, 0.5 on rows); and
with causes the packs do not know (every tenth is struck off what the tool knows). What stands behind ± is the standard
error of the mean of the differences against the planner, job by job. The same seeds give the same figures anywhere.
"""

import argparse
import os
from concurrent.futures import ProcessPoolExecutor

import numpy as np
from bench.calibration import forecasts, show_chances, together
from bench.policies import POLICIES, all_knowing, planner, work
from bench.simulated import Visit, draw_machines
from bench.worlds import WORLDS, world_and_known

from bellcrank.diagnosis.network import pack_given
from bellcrank.knowledge.pack import read_library

CHUNK = 20  # jobs of one changed world


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--jobs", type=int, default=100, help=f"for each kind, world and seed; in steps of {CHUNK}")
    options.add_argument("--seeds", type=int, default=3, help="how many")
    options.add_argument("--kind", action="append", help="only this kind of machine")
    options.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    told = options.parse_args()
    kinds = told.kind or list(read_library().packs)
    numbers = range(max(1, told.jobs // CHUNK))
    seeds = range(1, told.seeds + 1)
    chunks = [
        (kind, world, (seed, number)) for kind in kinds for world in WORLDS for seed in seeds for number in numbers
    ]
    with ProcessPoolExecutor(told.workers) as pool:
        results = dict(zip(chunks, pool.map(one_chunk, chunks), strict=True))
    for kind in kinds:
        for world in WORLDS:
            found = [[results[kind, world, (seed, number)] for number in numbers] for seed in seeds]
            show(kind, world, [np.array([row for rows, _ in chunk for row in rows]) for chunk in found])
            show_chances(together([one for chunk in found for _, many in chunk for one in many]))


def one_chunk(chunk):
    """Work through some jobs in one world by every policy: what each took, and what was forecast."""
    kind, world, seed = chunk
    pack = read_library().packs[kind]
    place = WORLDS.index(world)
    rng = np.random.default_rng((*seed, place))
    weights = np.array([one.weight for one in pack.complaints])
    counts = rng.multinomial(CHUNK, weights / weights.sum())
    rows, told = [], []
    for number, (complaint, count) in enumerate(zip(pack.complaints, counts.tolist(), strict=True)):
        truth, known = world_and_known(pack_given(pack, [complaint.id]), world, (*seed, place, 7))
        for machine in draw_machines(truth, complaint.id, count, (*seed, place, number)):
            rows.append([outcome(policy, truth, known, machine) for policy in POLICIES.values()])
            told.append(forecasts(Visit(truth, known, machine)))
    return rows, told


def outcome(policy, truth, known, machine):
    """What one policy took for one machine; who knows everything also knows the causes that were struck off."""
    visit = Visit(truth, truth if policy is all_knowing else known, machine)
    work(policy, visit, np.random.default_rng(machine.seed))
    return visit.minutes, visit.hands, visit.steps, float(visit.gave_up)


def show(kind, world, by_seed):
    """Print a table: one line a policy."""
    rows = np.concatenate(by_seed)
    print(f"\n{kind}, {world}: {len(rows)} jobs; minutes to cure, parts counted as minutes")
    heads = f"{'mean':>7}{'median':>8}{'p90':>7}{'hands-on':>10}{'steps':>7}{'gave up':>9}"
    print(f"  {'':34s}{heads}   more than the planner (by seed)")
    ours = list(POLICIES.values()).index(planner)
    for place, name in enumerate(POLICIES):
        minutes, hands, steps, gave_up = rows[:, place].T
        apart = minutes - rows[:, ours, 0]
        error = apart.std(ddof=1) / len(apart) ** 0.5
        seeds = ", ".join(f"{(one[:, place, 0] - one[:, ours, 0]).mean():+.0f}" for one in by_seed)
        print(
            f"  {name:34s}{minutes.mean():7.1f}{np.median(minutes):8.1f}{np.percentile(minutes, 90):7.0f}"
            f"{hands.mean():10.1f}{steps.mean():7.1f}{100 * gave_up.mean():8.0f} %"
            f"   {apart.mean():+6.1f} ± {error:.1f} ({seeds})"
        )


if __name__ == "__main__":
    main()
