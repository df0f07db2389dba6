"""What to do next: every check, repair and the stopping point, by the minutes they save.

The value of a step is the expected time to a cured machine when it is done next and the work then goes on by plain
repairs (:mod:`bellcrank.diagnosis.by_repairs`), with opened covers counted once: a rollout of that policy. Blame is the
chance that a cause is there and keeps the complaint standing; a cause that is only along for the ride has none. Checks
that pay stand first, by minutes saved per minute spent, unless the best repair, or stopping, beats the best of them.

References
----------
D. Heckerman, J. Breese, K. Rommelse, Decision-theoretic troubleshooting, CACM 38(3), 1995.
F. V. Jensen et al., The SACSO methodology for troubleshooting complex systems, AI EDAM 15, 2001.
"""

from dataclasses import dataclass, replace

import numpy as np

from bellcrank.diagnosis.allowed import (
    Flags,
    access_minutes,
    checks_left,
    forbidding,
    open_after_check,
    open_now,
    to_open,
)
from bellcrank.diagnosis.because import cause_words
from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.by_repairs import minutes_by_repairs
from bellcrank.diagnosis.case import Found
from bellcrank.diagnosis.network import NOT_LISTED, CompiledPack
from bellcrank.knowledge.model import Check, Repair
from bellcrank.stats.evidence import Question
from bellcrank.stats.fault_network import FloatArray
from bellcrank.stats.weighing import weigh

LEAST_CURE = 0.005  # [-] a repair less likely to cure it is not worth a line
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
    expected_minutes: float  # to a cured machine when this is done next, parts counted as minutes
    saves_per_minute: float  # minutes saved per minute spent on a check [-]
    outcomes: tuple[tuple[str, float], ...]  # results with their probability
    chance_of_cure: float  # of a repair [-]


@dataclass(frozen=True, slots=True, eq=False)
class _Bench:
    """The state all candidates start from."""

    compiled: CompiledPack
    belief: Belief
    culprits: FloatArray  # shape (causes,), sums to 1
    open_now: Flags
    value: float  # expected minutes by repairs alone from here


@dataclass(frozen=True, slots=True, eq=False)
class _Branches:
    """What the results of a check would leave: their chances, and who is to blame after each."""

    chances: FloatArray  # shape (results,)
    culprits: FloatArray  # shape (results, causes), rows sum to 1


def rank(compiled: CompiledPack, belief: Belief) -> tuple[NextStep, ...]:
    """Rank every legal check, every repair and stopping, best first."""
    if not belief.case.complaints or belief.cured:
        return ()
    flags = open_now(compiled, belief.case)
    culprits = _normalised(belief.without.blocking[0])
    value = float(minutes_by_repairs(compiled, culprits[None], flags[None])[0])
    bench = _Bench(compiled, belief, culprits, flags, value)
    checks = _checks(bench, checks_left(compiled, belief.case))
    repairs = sorted(_repairs(bench), key=lambda step: step.expected_minutes)
    return _safest_first(bench, _in_order(checks, repairs, _stop(bench)))


def _safest_first(bench: _Bench, steps: tuple[NextStep, ...]) -> tuple[NextStep, ...]:
    """Put what makes the machine safe before everything else while a finding forbids starting it."""
    compiled = bench.compiled
    for found in reversed(forbidding(compiled, bench.belief.case)):
        first = _that_lifts(compiled, found, steps) or _that_mends(bench, found, steps)
        if first is not None:
            says = next(one.says for one in compiled.checks[found.check].results if one.id == found.result)
            told = replace(first, why=f"Nothing is started before this, because {says}.")
            return (told, *(step for step in steps if step.id != first.id))
    return steps


def _that_lifts(compiled: CompiledPack, found: Found, steps: tuple[NextStep, ...]) -> NextStep | None:
    """Give the check whose good result lets the engine be started again."""
    checks = (step for step in steps if step.kind == "check")
    return next((s for s in checks if any(found.check in one.lifts for one in compiled.checks[s.id].results)), None)


def _that_mends(bench: _Bench, found: Found, steps: tuple[NextStep, ...]) -> NextStep | None:
    """Give the repair of what was most likely found."""
    compiled = bench.compiled
    check = compiled.checks[found.check]
    level = [one.id for one in check.results].index(found.result)
    seen = {row.cause: row.probabilities[level] for row in check.likelihoods if row.probabilities[level] > 0}
    name = max(seen, key=lambda cause: bench.belief.now[cause] * seen[cause], default=None)
    if name is None or compiled.causes[name].repair is None:
        return None
    repair = compiled.repairs[compiled.causes[name].repair or ""]
    ranked = next((step for step in steps if step.id == repair.id), None)
    return ranked or _repair_step(bench, repair, 0.0, bench.value)


def _in_order(checks: list[NextStep], repairs: list[NextStep], stop: NextStep) -> tuple[NextStep, ...]:
    paying = sorted(
        (step for step in checks if step.saves_per_minute > 1),
        key=lambda step: (-round(step.saves_per_minute, 1), bool(step.open_first), step.minutes),
    )
    idle = [step for step in checks if step.saves_per_minute <= 1]
    rest = sorted([*idle, *repairs, stop], key=lambda step: (step.expected_minutes, step.minutes))
    best_check = min((step.expected_minutes for step in paying), default=np.inf)
    best_other = min([*repairs, stop], key=lambda step: step.expected_minutes)
    if best_other.expected_minutes < best_check:
        return (best_other, *paying, *(step for step in rest if step is not best_other))
    return (*paying, *rest)


def _checks(bench: _Bench, checks: tuple[Check, ...]) -> list[NextStep]:
    """Value every check from one pass over all its results."""
    if not checks:
        return []
    branches = _branches(bench, checks)
    opened = [
        np.tile(open_after_check(bench.compiled, check, bench.open_now), (len(check.results), 1)) for check in checks
    ]
    values = minutes_by_repairs(bench.compiled, np.vstack([one.culprits for one in branches]), np.vstack(opened))
    split = np.split(values, np.cumsum([len(check.results) for check in checks])[:-1])
    return [_check_step(bench, *one) for one in zip(checks, branches, split, strict=True)]


def _branches(bench: _Bench, checks: tuple[Check, ...]) -> list[_Branches]:
    """Weigh "this result or below" for every check in one go; the results themselves are the differences."""
    compiled = bench.compiled
    questions = tuple(
        Question(at_most=(check.id, level)) for check in checks for level in range(len(check.results) - 1)
    )
    weighing = weigh(compiled.network, bench.belief.evidence, questions)
    sure = bench.belief.without.evidence[0]
    whole = bench.belief.without.blocking[0] * sure
    joint = weighing.blocking * weighing.evidence[:, None]
    branches = []
    row = 0
    for check in checks:
        rows = slice(row, row + len(check.results) - 1)
        blamed = np.diff(np.vstack([joint[rows], whole]), axis=0, prepend=0.0)
        chances = np.diff(np.append(weighing.evidence[rows], sure), prepend=0.0) / sure
        branches.append(_Branches(np.clip(chances, 0.0, None), _normalised(np.clip(blamed, 0.0, None))))
        row = rows.stop
    return branches


def _check_step(bench: _Bench, check: Check, branches: _Branches, values: FloatArray) -> NextStep:
    access = access_minutes(bench.compiled, check.access, bench.open_now)
    cost = access + check.minutes
    after = float(branches.chances @ values)
    saved = bench.value - after
    return NextStep(
        kind="check",
        id=check.id,
        words=check.words,
        why=_why(bench, cost, saved, branches),
        minutes=check.minutes,
        access_minutes=access,
        open_first=to_open(bench.compiled, check.access, bench.open_now),
        expected_minutes=cost + after,
        saves_per_minute=saved / cost if saved > LEAST_SAVING else 0.0,
        outcomes=tuple((result.id, float(p)) for result, p in zip(check.results, branches.chances, strict=True)),
        chance_of_cure=0.0,
    )


def _repairs(bench: _Bench) -> list[NextStep]:
    compiled = bench.compiled
    cures = compiled.repair_cures @ bench.culprits
    left = bench.culprits[None] * (1 - compiled.repair_cures)
    opened = (bench.open_now[None] | compiled.repair_needs) & ~compiled.shut_to_run[None]
    after = minutes_by_repairs(compiled, _normalised(left), opened)
    return [
        _repair_step(bench, repair, float(cures[row]), float(after[row]))
        for row, repair in enumerate(compiled.pack.repairs)
        if cures[row] >= LEAST_CURE
    ]


def _repair_step(bench: _Bench, repair: Repair, cures: float, after: float) -> NextStep:
    compiled = bench.compiled
    access = access_minutes(compiled, repair.access, bench.open_now)
    work = float(compiled.repair_minutes[compiled.pack.repairs.index(repair)])
    cost = access + work + compiled.pack.start_check_minutes
    likely = max(repair.fixes, key=lambda name: bench.culprits[compiled.network.position[name]])
    return NextStep(
        kind="repair",
        id=repair.id,
        words=repair.words,
        why=f"Cures {round(100 * cures)} in 100 such machines, most of them of “{cause_words(compiled, likely)}”.",
        minutes=repair.minutes[1],
        access_minutes=access,
        open_first=to_open(compiled, repair.access, bench.open_now),
        expected_minutes=cost + (1 - cures) * after,
        saves_per_minute=0.0,
        outcomes=(),
        chance_of_cure=cures,
    )


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


def _why(bench: _Bench, cost: float, saved: float, branches: _Branches) -> str:
    """Name the two causes a check moves apart most, and what it buys."""
    moves = branches.culprits - bench.culprits
    moves[:, bench.compiled.network.position[NOT_LISTED]] = 0.0  # "something else" is nothing to look for
    first = int((branches.chances @ np.abs(moves)).argmax())
    together = branches.chances @ (moves * moves[:, [first]])
    second = int(together.argmin())
    names = [cause_words(bench.compiled, bench.compiled.network.names[place]) for place in (first, second)]
    told = f"Tells “{names[0]}” from “{names[1]}”" if together[second] < 0 else f"Shows whether it is “{names[0]}”"
    if saved <= LEAST_SAVING:
        return f"{told}, but saves hardly a minute now."
    return f"{told}; {max(1, round(cost))} min spent on it saves about {max(1, round(saved))} min."


def _normalised(weights: FloatArray) -> FloatArray:
    total = weights.sum(axis=-1, keepdims=True)
    shares: FloatArray = np.divide(weights, total, out=np.zeros_like(weights), where=total > 0)
    return shares
