"""What to do next: every check, repair and the stopping point, by the minutes they save.

The value of a step is the expected time to a cured machine when it is done next and the work then goes on by plain
repairs, best chance per minute first, with opened covers counted once (a rollout of that base policy). Checks that pay
stand first, by minutes saved per minute spent, unless the best repair already beats the best of them.

References
----------
D. Heckerman, J. Breese, K. Rommelse, Decision-theoretic troubleshooting, CACM 38(3), 1995.
F. V. Jensen et al., The SACSO methodology for troubleshooting complex systems, AI EDAM 15, 2001.
"""

from dataclasses import dataclass

import numpy as np

from bellcrank.diagnosis.because import cause_words
from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.case import NOT_SURE, Case, Found, Repaired
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.knowledge.model import Check
from bellcrank.stats.evidence import Question
from bellcrank.stats.fault_network import FloatArray
from bellcrank.stats.weighing import weigh

Flags = np.ndarray
NEGLIGIBLE = 0.005  # [-] what is left to cure when a plan counts as done
MOST_REPAIRS = 40  # [-] repairs one after the other before a plan gives up
LEAST_SAVING = 0.3  # [min] below it a check is not worth the walk


@dataclass(frozen=True, slots=True)
class NextStep:
    """Something to do next; times in minutes."""

    kind: str  # check, repair, stop
    id: str
    words: str
    why: str
    minutes: float  # hands-on
    access_minutes: float  # to open and close what is not open yet
    open_first: tuple[str, ...]  # ids of accesses
    expected_minutes: float  # to a cured machine when this is done next
    saves_per_minute: float  # minutes saved per minute spent on a check [-]
    outcomes: tuple[tuple[str, float], ...]  # results with their probability
    chance_of_cure: float  # of a repair [-]


@dataclass(frozen=True, slots=True, eq=False)
class _Bench:
    """The state all candidates start from."""

    compiled: CompiledPack
    belief: Belief
    blocking: FloatArray
    culprits: FloatArray  # shape (causes,), sums to 1
    open_now: Flags
    value: float  # expected minutes of the base policy from here


def rank(compiled: CompiledPack, belief: Belief) -> tuple[NextStep, ...]:
    """Rank every legal check, every repair and stopping, best first."""
    if not belief.case.complaints or belief.case.cured:
        return ()
    blocking = compiled.blocking(belief.case.complaints)
    now = np.array([belief.now[name] for name in compiled.network.names])
    open_now = _open_now(compiled, belief.case)
    culprits = _normalised(now * blocking)
    value = float(_base_value(compiled, culprits[None], open_now[None])[0])
    bench = _Bench(compiled, belief, blocking, culprits, open_now, value)
    checks = _checks(bench, tuple(check for check in compiled.pack.checks if _is_legal(compiled, belief.case, check)))
    repairs = sorted(_repairs(bench), key=lambda step: step.expected_minutes)
    return _in_order(checks, repairs, _stop(bench))


def _in_order(checks: list[NextStep], repairs: list[NextStep], stop: NextStep) -> tuple[NextStep, ...]:
    paying = sorted(
        (step for step in checks if step.saves_per_minute > 1),
        key=lambda step: (-round(step.saves_per_minute, 1), bool(step.open_first), step.minutes),
    )
    idle = [step for step in checks if step.saves_per_minute <= 1]
    rest = sorted([*idle, *repairs, stop], key=lambda step: (step.expected_minutes, step.minutes))
    best_check = min((step.expected_minutes for step in paying), default=np.inf)
    if repairs and repairs[0].expected_minutes < best_check:
        return (repairs[0], *paying, *(step for step in rest if step is not repairs[0]))
    return (*paying, *rest)


def _checks(bench: _Bench, checks: tuple[Check, ...]) -> list[NextStep]:
    """Value every check from one pass over all its results."""
    questions = tuple(
        Question(at_most=(check.id, level)) for check in checks for level in range(len(check.results) - 1)
    )
    if not questions:
        return []
    compiled = bench.compiled
    weighing = weigh(compiled.network, bench.belief.evidence, questions)
    base = bench.belief.without.evidence[0]
    whole = bench.belief.without.now[0] * base
    chances: list[FloatArray] = []
    culprits: list[FloatArray] = []
    opened: list[Flags] = []
    row = 0
    for check in checks:
        levels = len(check.results) - 1
        at_most = np.vstack([weighing.now[row : row + levels] * weighing.evidence[row : row + levels, None], whole])
        totals = np.append(weighing.evidence[row : row + levels], base)
        joint = np.clip(np.diff(at_most, axis=0, prepend=0.0), 0.0, None)
        chances.append(np.clip(np.diff(totals, prepend=0.0), 0.0, None) / base)
        culprits.append(_normalised(joint * bench.blocking))
        opened.append(np.tile(bench.open_now | compiled.access_set(check.access), (levels + 1, 1)))
        row += levels
    values = _base_value(compiled, np.vstack(culprits), np.vstack(opened))
    split = np.split(values, np.cumsum([len(one) for one in chances])[:-1])
    return [
        _check_step(bench, check, chance, culprit, value)
        for check, chance, culprit, value in zip(checks, chances, culprits, split, strict=True)
    ]


def _check_step(bench: _Bench, check: Check, chances: FloatArray, culprits: FloatArray, values: FloatArray) -> NextStep:
    access = _access_minutes(bench, check.access)
    cost = access + check.minutes
    after = float(chances @ values)
    saved = bench.value - after
    return NextStep(
        kind="check",
        id=check.id,
        words=check.words,
        why=_why(bench, cost, saved, chances, culprits),
        minutes=check.minutes,
        access_minutes=access,
        open_first=_to_open(bench, check.access),
        expected_minutes=cost + after,
        saves_per_minute=saved / cost if saved > LEAST_SAVING else 0.0,
        outcomes=tuple((result.id, float(p)) for result, p in zip(check.results, chances, strict=True)),
        chance_of_cure=0.0,
    )


def _repairs(bench: _Bench) -> list[NextStep]:
    compiled = bench.compiled
    cures = compiled.repair_cures @ bench.culprits
    left = bench.culprits[None] * (1 - compiled.repair_cures)
    opened = (bench.open_now[None] | compiled.repair_needs) & ~compiled.shut_to_run[None]
    after = _base_value(compiled, _normalised(left), opened)
    steps = []
    for row, repair in enumerate(compiled.pack.repairs):
        if cures[row] < NEGLIGIBLE:
            continue
        access = _access_minutes(bench, repair.access)
        cost = access + repair.minutes[1] + compiled.pack.start_check_minutes
        likely = max(repair.fixes, key=lambda name: bench.culprits[compiled.network.position[name]])
        steps.append(
            NextStep(
                kind="repair",
                id=repair.id,
                words=repair.words,
                why=f"Cures it with {cures[row]:.0%}: mostly “{cause_words(compiled, likely)}”.",
                minutes=repair.minutes[1],
                access_minutes=access,
                open_first=_to_open(bench, repair.access),
                expected_minutes=float(cost + (1 - cures[row]) * after[row]),
                saves_per_minute=0.0,
                outcomes=(),
                chance_of_cure=float(cures[row]),
            )
        )
    return steps


def _stop(bench: _Bench) -> NextStep:
    give_up = bench.compiled.pack.give_up_minutes
    return NextStep(
        kind="stop",
        id="stop",
        words="Stop here: quote another machine, or send it out",
        why=f"Worth it when the rest looks longer than {give_up:.0f} min; now it looks like {bench.value:.0f} min.",
        minutes=0.0,
        access_minutes=0.0,
        open_first=(),
        expected_minutes=give_up,
        saves_per_minute=0.0,
        outcomes=(),
        chance_of_cure=0.0,
    )


def _base_value(compiled: CompiledPack, culprits: FloatArray, opened: Flags) -> FloatArray:
    """Expected minutes of repairs, best chance per minute first, for many beliefs at once; shape (beliefs,)."""
    give_up = compiled.pack.give_up_minutes
    culprits, opened = culprits.copy(), opened.copy()
    left, spent = culprits.sum(axis=1), np.zeros(len(culprits))
    chances = culprits @ compiled.repair_cures.T
    need_minutes = compiled.repair_needs * compiled.access_minutes
    active = np.flatnonzero(left > NEGLIGIBLE)
    for _ in range(MOST_REPAIRS):
        cost = (~opened[active]) @ need_minutes.T + compiled.repair_minutes + compiled.pack.start_check_minutes
        ratio = chances[active] / cost
        best = ratio.argmax(axis=1)
        rows = np.arange(len(active))
        go_on = (ratio[rows, best] > left[active] / give_up) & (left[active] > NEGLIGIBLE)
        active, best, cost = active[go_on], best[go_on], cost[go_on, best[go_on]]
        if not len(active):
            break
        spent[active] += left[active] * cost
        removed = culprits[active] * compiled.repair_cures[best]
        culprits[active] -= removed
        chances[active] -= removed @ compiled.repair_cures.T
        chances[active, best] = 0.0
        left[active] -= removed.sum(axis=1)
        opened[active] = (opened[active] | compiled.repair_needs[best]) & ~compiled.shut_to_run
    value: FloatArray = spent + left * give_up
    return value


def _why(bench: _Bench, cost: float, saved: float, chances: FloatArray, culprits: FloatArray) -> str:
    """Name the two causes a check moves apart most, and what it buys."""
    moves = chances @ np.abs(culprits - bench.culprits)
    first, second = (int(place) for place in np.argsort(-moves)[:2])
    names = [cause_words(bench.compiled, bench.compiled.network.names[place]) for place in (first, second)]
    told = f"Tells “{names[0]}” from “{names[1]}”"
    if saved <= LEAST_SAVING:
        return f"{told}, but saves hardly a minute now."
    return f"{told}: {max(1, round(cost))} min of it saves about {max(1, round(saved))}."


def _normalised(weights: FloatArray) -> FloatArray:
    total = weights.sum(axis=-1, keepdims=True)
    shares: FloatArray = np.divide(weights, total, out=np.zeros_like(weights), where=total > 0)
    return shares


def _access_minutes(bench: _Bench, access: tuple[str, ...]) -> float:
    return float((bench.compiled.access_set(access) & ~bench.open_now) @ bench.compiled.access_minutes)


def _to_open(bench: _Bench, access: tuple[str, ...]) -> tuple[str, ...]:
    flags = bench.compiled.access_set(access) & ~bench.open_now
    return tuple(name for name, flag in zip(bench.compiled.access_order, flags, strict=True) if flag)


def _open_now(compiled: CompiledPack, case: Case) -> Flags:
    """What is open by what was done: a check leaves it open, a start after a repair has closed it."""
    flags = np.zeros(len(compiled.access_order), bool)
    for event in case.events:
        if isinstance(event, Repaired):
            flags |= compiled.access_set(compiled.repairs[event.repair].access)
            if event.outcome != "not-tried":
                flags &= ~compiled.shut_to_run
        elif event.result != NOT_SURE:
            flags |= compiled.access_set(compiled.checks[event.check].access)
            if compiled.checks[event.check].runs_engine:
                flags &= ~compiled.shut_to_run
    return flags


def _is_legal(compiled: CompiledPack, case: Case, check: Check) -> bool:
    if any(isinstance(e, Found) and e.check == check.id and not _undone(compiled, case, e) for e in case.events):
        return False
    return not check.runs_engine or may_run(compiled, case)


def may_run(compiled: CompiledPack, case: Case) -> bool:
    """Whether a check may ask for the engine to run: not when it cannot, nor after a finding that forbids it."""
    runs = {complaint.id: complaint.engine_runs for complaint in compiled.pack.complaints}
    if not all(runs[complaint] for complaint in case.complaints):
        return False
    return not any(
        isinstance(event, Found) and _forbids_running(compiled, event) and not _undone(compiled, case, event)
        for event in case.events
    )


def _forbids_running(compiled: CompiledPack, found: Found) -> bool:
    return any(one.forbids_running for one in compiled.checks[found.check].results if one.id == found.result)


def _undone(compiled: CompiledPack, case: Case, found: Found) -> bool:
    """Whether a later repair touched something the check looks at."""
    looks_at = {row.cause for row in compiled.checks[found.check].likelihoods}
    later = case.events[case.events.index(found) + 1 :]
    return any(isinstance(e, Repaired) and looks_at & compiled.repairs[e.repair].fixes.keys() for e in later)
