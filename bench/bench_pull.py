"""How fast pulls of the cord are computed, against the same equations in scipy's hands, in one run.

Run from the repository: OMP_NUM_THREADS=1 python -m bench.bench_pull [--map]
Target: at least 60 times as many pulls per CPU second as scipy's RK45 with the compiled equations, 150 times as many as
with the plain ones; 400 pulls at one slip under 1 s and the map of 73 slips under 60 s, wall time on two threads.
``--map`` computes the whole map instead of only reckoning it from a few slips.
"""

import json
import math
import os
import subprocess
import sys
import time

import numpy as np
from tests.engine.bare_engine import CARD, CARDS, LIBRARY
from tests.engine.pull_by_scipy import ScipyPull

from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.draw import DrawnPulls, draw_pulls
from bellcrank.engine.pull.many import outcome_of, run_pulls
from bellcrank.engine.pull.setting import Setting, engine_numbers, middle

COMPILED_TARGET, PLAIN_TARGET, SLIP_TARGET, MAP_TARGET = 60, 150, 1.0, 60.0  # [-], [-], [s], [s]
SLIPS = (-90, -60, -20, 0, 30, 90)  # [°] spread over what can happen
MAP = range(-180, 181, 5)  # [°] 73 slips
PULLS, BY_SCIPY, BY_PLAIN, WORKERS, AGAIN = 400, 5, 5, 2, 20
EXACTNESS = 1e-6  # [-] relative, of scipy's steps
PLAIN = "--plain"  # the same script as a child without compilation


def main():
    if PLAIN in sys.argv:
        print(json.dumps(by_scipy(BY_PLAIN)[0]))
        return
    pulls = drawn(PULLS)
    ours_alone(pulls, 1)  # warms up
    by_scipy(1)
    outcomes, (spent, theirs) = ours_alone(drawn(BY_SCIPY), AGAIN)[1], by_scipy(BY_SCIPY)
    same = sum(one is other for one, other in zip(outcomes, theirs, strict=True))
    print(f"ours: {1 / ours_alone(pulls, 1)[0]:.0f} pulls a CPU second over {len(SLIPS)} slips of {PULLS} pulls; "
          f"outcome as scipy's in {same} of {len(theirs)}")  # fmt: skip
    told("scipy's RK45, compiled equations", spent, BY_SCIPY, COMPILED_TARGET)
    told("scipy's RK45, plain equations", in_plain_python(), BY_PLAIN, PLAIN_TARGET)
    walls = [wall(slip, pulls) for slip in SLIPS]
    worst = max(walls)
    print(f"  {PULLS} pulls at one slip, {WORKERS} threads: {np.median(walls):.2f} s, worst {worst:.2f} s wall, "
          f"target {SLIP_TARGET:.0f} s: {verdict(worst < SLIP_TARGET)}")  # fmt: skip
    whole = sum(wall(slip, pulls) for slip in MAP) if "--map" in sys.argv else len(MAP) * float(np.mean(walls))
    how = "measured" if "--map" in sys.argv else "reckoned from these"
    print(f"  map of {len(MAP)} slips: {whole:.0f} s wall, {how}, target {MAP_TARGET:.0f} s: "
          f"{verdict(whole < MAP_TARGET)}")  # fmt: skip


def told(name, theirs, count, target):
    """Say how long scipy takes for some pulls, against ours for the very same ones."""
    ratio = theirs / ours_alone(drawn(count), AGAIN)[0]
    print(f"  {name}: {1 / theirs:.1f} pulls a CPU second, {ratio:.0f} times as long as ours for the same "
          f"{count * len(SLIPS)}, target {target}: {verdict(ratio >= target)}")  # fmt: skip


def verdict(met):
    return "met" if met else "MISSED"


def engine_at(slip):
    return engine_numbers(middle(CARDS[CARD]), Setting(math.radians(slip)))


def drawn(count):
    return draw_pulls(LIBRARY.operators["usual"], count, np.random.default_rng(21))


def ours_alone(pulls, rounds):
    """CPU seconds a pull on one thread, over all slips alike, and what came of them.

    The same pulls stand one after the other as often as there are rounds, as they do when hundreds are run.
    """
    many = DrawnPulls(np.tile(pulls.rows, (rounds, 1)), np.tile(pulls.scatter, (rounds, 1, 1)))
    engines, runs = [engine_at(slip) for slip in SLIPS], []
    begun = time.process_time()
    for engine in engines:
        runs.append(run_pulls(engine, many))
    spent = time.process_time() - begun
    assert max(kept[:, at.RESIDUAL].max() for kept in runs) < 1e-4
    outcomes = [outcome_of(row) for kept in runs for row in kept[: len(pulls.rows)]]
    return spent / (len(SLIPS) * len(many.rows)), outcomes


def wall(slip, pulls):
    begun = time.perf_counter()
    run_pulls(engine_at(slip), pulls, WORKERS)
    return time.perf_counter() - begun


def by_scipy(count):
    """CPU seconds a pull of so many at each slip, and their outcomes."""
    pulls, outcomes, begun = drawn(count), [], time.process_time()
    for slip in SLIPS:
        engine = engine_at(slip)
        for index in range(count):
            outcomes.append(ScipyPull(engine, pulls.pull(index), pulls.scatter[index], EXACTNESS).run())
    return (time.process_time() - begun) / len(outcomes), outcomes


def in_plain_python():
    command = [sys.executable, "-m", "bench.bench_pull", PLAIN]
    answer = subprocess.run(command, env=os.environ | {"NUMBA_DISABLE_JIT": "1"}, check=True, capture_output=True)
    return json.loads(answer.stdout)


if __name__ == "__main__":
    main()
