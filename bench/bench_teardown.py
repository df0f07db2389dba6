"""How long the planner takes on the generic mower, and on the hardest thing asked of it: every part at once."""

from statistics import median
from time import perf_counter

from bellcrank.knowledge.pack import read_library
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

ROUNDS = 9


def bench() -> None:
    mower = read_library().packs["walk-behind-mower"].assemblies[0]
    asked = [*((target,) for target in mower.targets), ("key", "blade"), tuple(mower.targets)]
    print(f"{'targets':<32}{'steps':>6}{'in':>8}{'out':>8}{'proven':>8}{'way in':>10}{'way out':>10}")
    for targets in asked:
        in_seconds, out_seconds = [], []
        for _ in range(ROUNDS):
            start = perf_counter()
            way = way_in(mower, targets)
            middle = perf_counter()
            order = tuple(step.operation.id for step in way.steps)
            back = way_out(mower, order, lies={step.operation.id: step.orientation for step in way.steps})
            in_seconds.append(middle - start)
            out_seconds.append(perf_counter() - middle)
        name = " + ".join(targets) if len(targets) < 3 else f"all {len(targets)}"
        print(
            f"{name:<32}{len(way.steps):>6}{way.minutes:>8.2f}{back.minutes:>8.2f}{way.proven!s:>8}"
            f"{median(in_seconds) * 1e3:>7.1f} ms{median(out_seconds) * 1e3:>7.1f} ms"
        )


if __name__ == "__main__":
    bench()
