"""The way in given to two general solvers, for a bench side by side: a constraint solver and a dynamic programming one.

Both are asked for the same least minutes over the same ways of the same steps. The constraint solver is told how many
campaigns are enough (those of the best known order and a few more); without that its model has no size. Both are
imported only when asked: the bench runs without them.
"""

from dataclasses import dataclass
from itertools import product
from time import perf_counter

from bellcrank.knowledge.assembly import Assembly
from bellcrank.teardown.changeover import HAND, UPRIGHT, changeover_of
from bellcrank.teardown.chart import Chart, chart_of_ways
from bellcrank.teardown.sequencing import bits_of, numbers_in

SCALE = 100  # whole hundredths of a minute
SPARE_CAMPAIGNS = 2


@dataclass(frozen=True, slots=True)
class Answer:
    """What a general solver found in its time."""

    minutes: float | None  # None: no order found
    bound: float
    proven: bool
    seconds: float


@dataclass(frozen=True, slots=True)
class Question:
    """The way in to one step, in whole numbers."""

    chart: Chart
    target: int  # the ways of the target's step
    useful: int  # the ways that can serve it
    tools: tuple[str, ...]
    ways: tuple[str, ...]
    change: int
    turns: dict[tuple[int, int], int]

    def minutes(self, number: int) -> int:
        return round(self.chart.minutes[number] * SCALE)

    def lies_in(self, number: int) -> list[int]:
        return [self.ways.index(one) for one in self.chart.orientations[number]] or list(range(len(self.ways)))


def question(assembly: Assembly, target: str) -> Question:
    chart, changeover = chart_of_ways(assembly), changeover_of(assembly)
    ways = tuple(dict.fromkeys((UPRIGHT, *(way for each in chart.orientations for way in each))))
    turns = changeover.turns_between(ways)
    wanted = chart.set_of([assembly.targets[target]])
    useful = _useful(chart, wanted)
    return Question(
        chart=chart,
        target=wanted,
        useful=useful,
        tools=tuple(dict.fromkeys(chart.tools[n] for n in numbers_in(useful) if chart.tools[n] != HAND)),
        ways=ways,
        change=round(changeover.tool_minutes * SCALE),
        turns={
            (a, b): round(turns[ways[a], ways[b]] * SCALE) for a, b in product(range(len(ways)), repeat=2) if a != b
        },
    )


def _useful(chart: Chart, wanted: int) -> int:
    useful, new = 0, wanted
    while new:
        useful |= new
        grown = 0
        for number in numbers_in(new):
            for group in chart.needs[number]:
                grown |= group
        new = grown & ~useful
    return useful


def by_constraints(asked: Question, campaigns: int, seconds: float) -> Answer:
    """CP-SAT: every way in one of a row of campaigns, each with a tool and a way of lying."""
    from ortools.sat.python import cp_model  # noqa: PLC0415

    model = cp_model.CpModel()
    tool = [[model.new_bool_var("") for _ in asked.tools] for _ in range(campaigns)]
    lying = [[model.new_bool_var("") for _ in asked.ways] for _ in range(campaigns)]
    for row in (*tool, *lying):
        model.add_exactly_one(row)
    chosen = {n: model.new_bool_var("") for n in numbers_in(asked.useful)}
    _serve(model, asked, chosen, _place(model, asked, chosen, tool, lying))
    model.add_bool_or(*(chosen[n] for n in numbers_in(asked.target)))
    work = sum(asked.minutes(n) * one for n, one in chosen.items())
    model.minimize(work + _changing(model, asked, tool, lying))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds, solver.parameters.num_workers = seconds, 2
    start = perf_counter()
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return Answer(
        solver.objective_value / SCALE if found else None,
        solver.best_objective_bound / SCALE,
        status == cp_model.OPTIMAL,
        perf_counter() - start,
    )


def _place(model, asked, chosen, tool, lying):
    """A chosen way stands in one campaign, which has its tool and lies as it wants."""
    slots = {n: model.new_int_var(0, len(tool) - 1, "") for n in chosen}
    for n, one in chosen.items():
        within = [model.new_bool_var("") for _ in tool]
        model.add(sum(within) == one)
        for k, here in enumerate(within):
            model.add(slots[n] == k).only_enforce_if(here)
            if asked.chart.tools[n] != HAND:
                model.add_implication(here, tool[k][asked.tools.index(asked.chart.tools[n])])
            model.add_bool_or(*(lying[k][way] for way in asked.lies_in(n)), here.negated())
    return slots


def _serve(model, asked, chosen, slots):
    """What a chosen way needs is chosen, and done before: in no later campaign, and before it in rank."""
    rank = {n: model.new_int_var(0, len(chosen), "") for n in chosen}
    for n, one in chosen.items():
        model.add_at_most_one([one, *(chosen[m] for m in numbers_in(asked.chart.rivals[n]) if m in chosen)])
        for group in asked.chart.needs[n]:
            serves = {m: model.new_bool_var("") for m in numbers_in(group)}
            model.add_bool_or(*serves.values(), one.negated())
            for m, served in serves.items():
                model.add_implication(served, chosen[m])
                model.add(slots[m] <= slots[n]).only_enforce_if(served)
                model.add(rank[m] < rank[n]).only_enforce_if(served)


def _changing(model, asked, tool, lying):
    cost = asked.change  # the first tool is taken up too
    for k in range(len(tool)):
        if k:
            changed = model.new_bool_var("")
            for now, before in zip(tool[k], tool[k - 1], strict=True):
                model.add(changed >= now - before)
            cost += asked.change * changed
        for (a, b), turn in asked.turns.items():
            turned = model.new_bool_var("")
            model.add(turned >= (lying[k - 1][a] if k else int(a == 0)) + lying[k][b] - 1)
            cost += turn * turned
    return cost


def by_dynamic_programming(asked: Question, seconds: float) -> Answer:
    """didppy: what is done, the tool in the hand and how the machine lies; complete anytime beam search."""
    import didppy as dp  # noqa: PLC0415

    model = dp.Model(maximize=False, float_cost=False)
    size = len(asked.chart.ids)
    ways = model.add_object_type(number=size)
    done = model.add_set_var(object_type=ways, target=[])
    tools = model.add_object_type(number=len(asked.tools) + 1)
    held = model.add_element_var(object_type=tools, target=len(asked.tools))
    places = model.add_object_type(number=len(asked.ways))
    lies = model.add_element_var(object_type=places, target=0)
    turn = model.add_int_table(
        [[asked.turns.get((a, b), 0) for b in range(len(asked.ways))] for a in range(len(asked.ways))]
    )
    for n in numbers_in(asked.useful):
        needs = [_any_done(done, group) for group in asked.chart.needs[n]]
        once = [~done.contains(n), *(~done.contains(m) for m in numbers_in(asked.chart.rivals[n]))]
        for place in asked.lies_in(n):
            cost = asked.minutes(n) + turn[lies, place]
            effects: list[object] = [(done, done.add(n)), (lies, place)]
            if asked.chart.tools[n] != HAND:
                wanted = asked.tools.index(asked.chart.tools[n])
                cost += (held != wanted).if_then_else(asked.change, 0)
                effects.append((held, wanted))
            model.add_transition(
                dp.Transition(
                    name=f"{n} {place}",
                    cost=cost + dp.IntExpr.state_cost(),
                    effects=effects,
                    preconditions=[*once, *needs],
                )
            )
    model.add_base_case([_any_done(done, asked.target)])
    sure = model.add_int_table([asked.minutes(n) if _needed(asked, n) else 0 for n in range(size)])
    every = model.create_set_const(object_type=ways, value=list(range(size)))
    model.add_dual_bound(sure[every - done])
    solver = dp.CABS(model, time_limit=seconds, quiet=True)
    start = perf_counter()
    found = solver.search()
    return Answer(
        None if found.cost is None else found.cost / SCALE,
        (found.best_bound or 0) / SCALE,
        bool(found.is_optimal),
        perf_counter() - start,
    )


def _any_done(done, group):
    first, *others = numbers_in(group)
    condition = done.contains(first)
    for number in others:
        condition |= done.contains(number)
    return condition


def _needed(asked: Question, number: int) -> bool:
    """Whether there is no way in without this way of this step."""
    free = asked.chart.reachable(asked.chart.everything & ~(1 << number), 0)
    return not any(free & bit for bit in bits_of(asked.target))
