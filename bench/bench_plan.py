"""How far the planner is from the best plan there is, and what a look further takes on the mower's own pack, one core.

Run from the repository: OMP_NUM_THREADS=1 python -m bench.bench_plan
Targets: mean excess over the optimum on 30 small problems at most 3 % by one step and 1 % by two.
"""

import time

import numpy as np
from bench.bench_diagnosis import draw_case
from tests.diagnosis.test_against_the_best_plan import PROBLEMS, by_one_step, by_two_steps, excess, repairs_alone

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.further import look_further
from bellcrank.diagnosis.network import compile_pack
from bellcrank.knowledge.pack import read_library


def main():
    for name, advice in (("one step", by_one_step), ("two steps", by_two_steps)):
        told = 100 * np.array([excess(advice, seed) for seed in PROBLEMS])
        print(f"  {name:14s} mean {told.mean():5.2f} %, worst {told.max():5.1f} % above the best plan")
    told = 100 * np.array([repairs_alone(seed) for seed in PROBLEMS])
    print(f"  {'repairs alone':14s} mean {told.mean():5.2f} %, worst {told.max():5.1f} %")
    pack = read_library().packs["walk-behind-mower"]
    compiled = compile_pack(pack)
    rng = np.random.default_rng(21)
    spent, worth = [], []
    for _ in range(60):
        belief = believe(compiled, draw_case(rng, pack, int(rng.integers(0, 9))))
        begun = time.process_time()
        looked = look_further(compiled, belief, lambda: True)
        spent.append(1e3 * (time.process_time() - begun))
        worth.append(looked.worth_minutes)
    changed = np.count_nonzero(worth)
    print(f"  a look further on the mower: {np.median(spent):.0f} ms CPU, p95 {np.percentile(spent, 95):.0f} ms")
    saved = np.sum(worth) / max(1, changed)
    print(f"  it changes the first step in {changed} of 60 jobs, which then saves {saved:.1f} min")


if __name__ == "__main__":
    main()
