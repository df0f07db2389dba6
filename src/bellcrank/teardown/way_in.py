"""The way in: what must come off to free the targets, in the order that takes least time."""

from dataclasses import dataclass, replace

from bellcrank.errors import NotFound
from bellcrank.knowledge.assembly import Assembly
from bellcrank.teardown.changeover import UPRIGHT, Changeover, changeover_of
from bellcrank.teardown.chart import Chart, chart_of_ways
from bellcrank.teardown.order import Problem, least_minutes, problem_of
from bellcrank.teardown.planned import Chosen, steps_in
from bellcrank.teardown.ruled_out import NOTHING, RuledOut, allowed_ways, refusal, tools_needed, tools_of, ways_without
from bellcrank.teardown.safety import made_safe
from bellcrank.teardown.search import HAIR, USUAL, Effort, Found, least_order
from bellcrank.teardown.steps import QuickerWith, WayIn, tools_in_order
from bellcrank.teardown.what_comes_off import closed_sets, one_closed_set


@dataclass(frozen=True, slots=True)
class _Task:
    """A way in that is asked for."""

    assembly: Assembly
    targets: tuple[str, ...]
    already_done: frozenset[str]
    lies: str
    chart: Chart
    problem: Problem
    wanted: tuple[int, ...]  # for each target the ways of the step that frees it


def way_in(
    assembly: Assembly,
    targets: tuple[str, ...],
    *,
    already_done: frozenset[str] = frozenset(),
    lies: str = UPRIGHT,
    changeover: Changeover | None = None,
    ruled_out: RuledOut = NOTHING,
    effort: Effort = USUAL,
) -> WayIn:
    """Plan the least-time legal sequence that frees the targets, going on from what is already done.

    Lacking tools are used only where there is no way without them; ``quicker_with`` tells what they would save. Past
    what ``effort`` allows the answer is the best found: ``proven`` is false and no sequence takes less than ``bound``.

    Raises
    ------
    NotFound
        For a target or a step that is not on this machine.
    NotAllowedNow
        When what was found or barred leaves no way in; it names the step.
    KnowledgeFault
        When the model itself has no way in.
    """
    assembly = made_safe(assembly)
    chart = chart_of_ways(assembly)
    done = chart.set_of(already_done)
    wanted = tuple(chart.set_of([_operation_for(assembly, target)]) for target in targets)
    problem = problem_of(chart, changeover or changeover_of(assembly), done=done, lies=lies)
    task = _Task(assembly, targets, already_done, lies, chart, problem, wanted)
    allowed = allowed_ways(chart, assembly, ruled_out)
    needed = tools_needed(chart, wanted, done, allowed, ruled_out.lacking)
    owned = allowed & ways_without(chart, ruled_out.lacking - needed)
    way = _plan(task, owned, effort, ruled_out)
    if owned == allowed:
        return replace(way, lacking=_lacking(way, needed))
    with_all = _plan(task, allowed, effort, ruled_out)
    saves = way.minutes - with_all.minutes
    quicker = QuickerWith(_lacking(with_all, ruled_out.lacking), saves) if saves > HAIR else None
    return replace(way, lacking=_lacking(way, needed), quicker_with=quicker)


def _operation_for(assembly: Assembly, target: str) -> str:
    if target not in assembly.targets:
        known = ", ".join(assembly.targets)
        raise NotFound(f"There is no way in to “{target}” on this machine. It must be one of {known}.")
    return assembly.targets[target]


def _plan(task: _Task, allowed: int, effort: Effort, ruled_out: RuledOut) -> WayIn:
    chart, sequencing = task.chart, task.problem.sequencing
    free = chart.reachable(allowed, sequencing.done)
    sets = closed_sets(chart, task.wanted, sequencing.done, free, least_minutes(sequencing))
    guess = one_closed_set(chart, task.wanted, sequencing.done, free)
    found = least_order(sequencing, sets, effort, guess) if all(free & group for group in task.wanted) else None
    if found is None:
        raise refusal(task.assembly, chart, task.wanted, sequencing.done, ruled_out)
    return _told(task, found)


def _told(task: _Task, found: Found) -> WayIn:
    chart, ways = task.chart, task.problem.ways
    order = (Chosen(chart.ids[number], chart.methods[number], ways[lying]) for number, (_, lying) in found.order())
    steps = steps_in(task.assembly, order, task.lies, task.already_done)
    work = sum(step.minutes for step in steps)
    return WayIn(
        targets=task.targets,
        already_done=task.already_done,
        steps=steps,
        minutes=found.minutes,
        work_minutes=work,
        changeover_minutes=found.minutes - work,
        tools=tools_in_order(step.tool for step in steps),
        ends_lying=steps[-1].orientation if steps else task.lies,
        proven=found.proven,
        bound=found.bound,
        looked_at=found.looked_at,
    )


def _lacking(way: WayIn, tools: frozenset[str]) -> tuple[str, ...]:
    """Give the lacking tools a plan takes, in order of use."""
    return tuple(dict.fromkeys(one for tool in way.tools for one in tools_of(tool) if one in tools))
