"""How long a person waits for the belief and the ranked list, on the mower's own pack, one core.

Run from the repository: OMP_NUM_THREADS=1 python -m bench.bench_diagnosis
Target: belief and ranked list together below 50 ms for 95 of 100 jobs with 3 to 8 findings. The ratio to pyAgrum's
variable elimination on the same posteriors, in the same run, does not depend on the machine.
"""

import time

import numpy as np
from tests.stats.general_library import as_bayes_net, posteriors

from bellcrank.diagnosis.because import reasons_for_all
from bellcrank.diagnosis.belief import believe, gather, level_of
from bellcrank.diagnosis.case import Case, Found
from bellcrank.diagnosis.network import COMPLAINT, compile_pack
from bellcrank.diagnosis.next_step import rank
from bellcrank.knowledge.pack import read_library
from bellcrank.stats.weighing import weigh

TARGET = 50.0  # [ms]
LIBRARY_TARGET = 20  # [-] times as long as our own weighing, the net of the library built beforehand
ODD_SHARE = 0.6  # [-] of findings that are drawn over all results; the others are "nothing wrong"


def main():
    pack = read_library().packs["walk-behind-mower"]
    compiled = compile_pack(pack)
    rng = np.random.default_rng(21)
    cases = [draw_case(rng, pack, int(rng.integers(3, 9))) for _ in range(200)]
    believe(compiled, cases[0])
    spent = np.array([timed(compiled, case) for case in cases])
    print(f"{len(pack.causes)} causes, {len(pack.checks)} checks, {len(pack.repairs)} repairs; ms CPU, median and p95")
    for name, column in zip(("belief", "ranked list", "reasons of 8 causes"), spent.T, strict=True):
        print(f"  {name:20s} {np.median(column):6.1f} {np.percentile(column, 95):6.1f}")
    both = np.percentile(spent[:, :2].sum(axis=1), 95)
    print(f"  belief + ranked list p95 {both:.1f} ms, target {TARGET:.0f} ms: {'met' if both < TARGET else 'MISSED'}")
    for count in (8, 12, 16):
        long = [draw_case(rng, pack, count, odd_share=1.0) for _ in range(10)]
        slow = np.array([timed(compiled, case)[:2].sum() for case in long])
        print(f"  {count} findings, most of them odd: median {np.median(slow):.0f}, worst {slow.max():.0f} ms")
    compare(compiled, [draw_case(rng, pack, int(rng.integers(3, 9))) for _ in range(20)])


def draw_case(rng, pack, count, odd_share=ODD_SHARE):
    complaint = pack.complaints[int(rng.integers(len(pack.complaints)))].id
    events = []
    for place in rng.permutation(len(pack.checks))[:count]:
        check = pack.checks[place]
        level = int(rng.integers(len(check.results))) if rng.random() < odd_share else 0
        events.append(Found(check.id, check.results[level].id))
    return Case((complaint,), tuple(events))


def timed(compiled, case):
    marks = [time.process_time()]
    belief = believe(compiled, case)
    marks.append(time.process_time())
    rank(compiled, belief)
    marks.append(time.process_time())
    reasons_for_all(compiled, belief, compiled.network.names[:8])
    marks.append(time.process_time())
    return np.diff(marks) * 1e3


def compare(compiled, cases):
    own, library, apart = 0.0, 0.0, 0.0
    for case in cases:
        seen = {one.check: level_of(compiled, one) for one in case.events} | {COMPLAINT + case.complaints[0]: 1}
        net = as_bayes_net(compiled.network, seen)
        begun = time.process_time()
        theirs = posteriors(net, seen, compiled.network.names)
        between = time.process_time()
        ours = weigh(compiled.network, gather(compiled, case)[1]).now[0]
        own += time.process_time() - between
        library += between - begun
        apart = max(apart, float(np.abs(ours - theirs).max()))
    ratio = library / own
    print(f"  same posteriors by pyAgrum: {ratio:.0f} times as long, largest difference {apart:.1e}; ", end="")
    print(f"asked {LIBRARY_TARGET}: {'met' if ratio >= LIBRARY_TARGET else 'MISSED'}")


if __name__ == "__main__":
    main()
