"""What the planner saves: simulated jobs worked through by it and by other ways, on every kind of machine.

Run from the repository: ./bellcrank bench policies (all), or ./bellcrank bench policies --jobs 20 --seeds 1 (quick).
Three worlds: as the packs say; with other numbers than the packs (log-odds moved by 0.7 on causes, 0.5 on rows); and
with causes the packs do not know (every tenth is struck off what the tool knows). What stands behind ± is the standard
error of the mean of the differences against the planner, job by job. The same seeds give the same figures anywhere;
--into docs/how-much-it-helps.md writes them into that page.
"""

import argparse
import os
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import numpy as np
from bench.calibration import forecasts, together
from bench.policies import POLICIES, all_knowing, work
from bench.report import pages, written_into
from bench.simulated import Visit, draw_machines
from bench.worlds import WORLDS, world_and_known

from bellcrank.diagnosis.network import pack_given
from bellcrank.knowledge.pack import read_library

CHUNK = 20  # jobs of one changed world


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--jobs", type=int, default=20, help=f"for each kind, world and seed; in steps of {CHUNK}")
    options.add_argument("--seeds", type=int, default=3, help="how many")
    options.add_argument("--kind", action="append", help="only this kind of machine")
    options.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    options.add_argument("--into", type=Path, metavar="PAGE", help="write the figures into this page")
    told = options.parse_args()
    places = [(kind, world) for kind in told.kind or list(read_library().packs) for world in WORLDS]
    numbers = range(max(1, told.jobs // CHUNK))
    seeds = range(1, told.seeds + 1)
    chunks = [(*place, (seed, number)) for place in places for seed in seeds for number in numbers]
    with ProcessPoolExecutor(told.workers) as pool:
        results = dict(zip(chunks, pool.map(one_chunk, chunks), strict=True))
    worked = {
        place: [np.concatenate([results[*place, (seed, number)][0] for number in numbers]) for seed in seeds]
        for place in places
    }
    forecast = {
        place: together([one for seed in seeds for number in numbers for one in results[*place, (seed, number)][1]])
        for place in places
    }
    command = f"./bellcrank bench policies --jobs {told.jobs} --seeds {told.seeds}"
    lines = [f"Written by `{command}`.", "", *pages(worked, forecast, WORLDS)]
    print("\n".join(lines))
    if told.into:
        told.into.write_text(written_into(told.into.read_text(encoding="utf-8"), lines), encoding="utf-8")


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
    return np.array(rows), told


def outcome(policy, truth, known, machine):
    """What one policy took for one machine; who knows everything also knows the causes that were struck off."""
    visit = Visit(truth, truth if policy is all_knowing else known, machine)
    work(policy, visit, np.random.default_rng(machine.seed))
    return visit.minutes, visit.hands, visit.steps, float(visit.gave_up), float(visit.speechless)


if __name__ == "__main__":
    main()
