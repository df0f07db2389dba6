"""How long the planner takes: on a large machine of our own, on the packs' longest ways, on published instances.

Beside it two general solvers on the same models in the same run, when they are installed, each with a time limit.
Run with a number of seconds for that limit, 0 to leave them out: ``./bellcrank bench teardown 20``.
"""

import sys
from importlib.util import find_spec
from time import perf_counter, process_time

from bench.general_solvers import SPARE_CAMPAIGNS, Answer, by_constraints, by_dynamic_programming, question
from bench.models import TARGETS, large_mower
from bench.sop import INSTANCES, read_matrix, sequencing_of

from bellcrank.knowledge.assembly import Assembly
from bellcrank.knowledge.pack import read_library
from bellcrank.teardown.alternatives import alternatives
from bellcrank.teardown.search import least_order
from bellcrank.teardown.steps import WayIn
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

LONGEST = 3  # ways in of each pack that are shown
PUBLISHED = {"ESC07": 2125, "ESC11": 2075, "br17.10": 55}


def bench(limit: float) -> None:
    print(
        f"{'way in to':<42}{'steps':>6}{'minutes':>9}{'proven':>8}{'gap':>7}{'looked at':>11}{'seconds':>9}{'back':>8}"
    )
    large = large_mower()
    for target in TARGETS:
        tell(large, (target,))
    for pack in read_library().packs.values():
        for assembly in pack.assemblies:
            every = sorted(assembly.targets, key=lambda target: -len(way_in(assembly, (target,)).steps))
            for target in every[:LONGEST]:
                tell(assembly, (target,))
            tell(assembly, tuple(every))
    print()
    print(f"{'sequential ordering, published optimum':<42}{'nodes':>6}{'found':>9}{'proven':>8}{'':>18}{'seconds':>9}")
    for name, optimum in PUBLISHED.items():
        tell_instance(name, optimum)
    print()
    side_by_side(large, limit)


def tell(assembly: Assembly, targets: tuple[str, ...]) -> None:
    start = process_time()
    way = way_in(assembly, targets)
    middle = process_time()
    order = tuple(step.operation.id for step in way.steps)
    way_out(assembly, order, lies={step.operation.id: step.orientation for step in way.steps})
    end = process_time()
    name = f"{assembly.id}: {targets[0] if len(targets) == 1 else f'all {len(targets)}'}"
    gap = (way.minutes - way.bound) / way.minutes
    print(
        f"{name:<42}{len(way.steps):>6}{way.minutes:>9.2f}{way.proven!s:>8}{gap:>7.2%}{way.looked_at:>11}"
        f"{middle - start:>9.3f}{end - middle:>8.3f}"
    )


def tell_instance(name: str, optimum: int) -> None:
    matrix = read_matrix(INSTANCES / f"{name}.sop")
    start = process_time()
    found = least_order(sequencing_of(matrix), iter([(0.0, (1 << len(matrix)) - 1)]))
    assert found is not None
    seconds = process_time() - start
    title = f"{name}, {optimum}"
    print(f"{title:<42}{len(matrix):>6}{found.minutes:>9.0f}{found.proven!s:>8}{'':>18}{seconds:>9.3f}")


def side_by_side(assembly: Assembly, limit: float) -> None:
    """The same questions to general solvers; seconds on the clock, for they use several threads."""
    missing = [name for name in ("ortools", "didppy") if find_spec(name) is None]
    if not limit or missing:
        why = f"{', '.join(missing)} not installed" if missing else "no time limit given"
        print(f"no general solvers beside it: {why}")
        return
    print(f"side by side, {limit:g} s each: minutes (bound) seconds, proven with *; and our alternatives")
    print(f"{'way in to':<20}{'steps':>6}{'ours':>26}{'CP-SAT, campaigns':>30}{'didppy, CABS':>30}{'alternatives':>18}")
    for target in TARGETS:
        start = perf_counter()
        way = way_in(assembly, (target,))
        ours = Answer(way.minutes, way.bound, way.proven, perf_counter() - start)
        asked = question(assembly, target)
        constraints = by_constraints(asked, campaigns_of(way) + SPARE_CAMPAIGNS, limit)
        programming = by_dynamic_programming(asked, limit)
        start = perf_counter()
        others = alternatives(assembly, way)
        told = f"{len(others)} in {perf_counter() - start:.2f} s"
        print(
            f"{target:<20}{len(way.steps):>6}{words(ours):>26}{words(constraints):>30}{words(programming):>30}{told:>18}"
        )


def words(answer: Answer) -> str:
    found = "none" if answer.minutes is None else f"{answer.minutes:.2f}"
    return f"{found}{'*' if answer.proven else ''} ({answer.bound:.2f}) {answer.seconds:.2f} s"


def campaigns_of(way: WayIn) -> int:
    count, held = 1, ""
    for step in way.steps:
        if step.turn_first or step.tool not in ("hand", held):
            count += 1
        held = held if step.tool == "hand" else step.tool
    return count


if __name__ == "__main__":
    bench(float(sys.argv[1]) if len(sys.argv) > 1 else 10.0)
