"""What to do next: every check, every repair, asking the customer and stopping, by the minutes they save.

The value of a step is the expected time to a cured machine when it is done next and the work then goes on by plain
repairs (:mod:`bellcrank.diagnosis.by_repairs`), with opened covers counted once: a rollout of that policy. Checks that
pay stand first, by minutes saved per minute spent, unless the best of the others is as good as the best of them.

References
----------
D. Heckerman, J. Breese, K. Rommelse, Decision-theoretic troubleshooting, CACM 38(3), 1995.
F. V. Jensen et al., The SACSO methodology for troubleshooting complex systems, AI EDAM 15, 2001.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from bellcrank.diagnosis.allowed import checks_left, forbidding, to_open
from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.by_repairs import Expected
from bellcrank.diagnosis.case import Found
from bellcrank.diagnosis.counted import USUAL, Terms, tried, waiting
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.diagnosis.standpoint import Look, Mend, Standpoint, looks, mend_of, mends, standing_at
from bellcrank.diagnosis.step_words import LEAST_SAVING, WHY_AGAIN, why_ask, why_look, why_mend, why_refuse
from bellcrank.diagnosis.stopping import ASKING, asking, refusing

ASK = "quote"
LIKELY = 0.5  # [-] more likely than not


@dataclass(frozen=True, slots=True)
class NextStep:
    """Something to do next; times in minutes."""

    kind: str  # check, repair, stop
    id: str  # of a stop: quote (ask the customer now) or stop (refuse)
    words: str
    why: str
    minutes: float  # hands-on
    access_minutes: float  # to open and close what is not open yet
    open_first: tuple[str, ...]  # ids of accesses
    expected_minutes: float  # to a cured machine when this is done next, parts and giving up counted as minutes
    saves_per_minute: float  # minutes saved per minute spent on a check [-]
    outcomes: tuple[tuple[str, float], ...]  # results with their probability
    chance_of_cure: float  # of a repair [-]
    work_minutes: float = 0.0  # of the expected minutes, those spent at the bench
    parts_money: float = 0.0  # expected for parts, before tax: an expectation, no price
    given_up: float = 0.0  # chance that it ends without a cured machine [-]
    says_no: float = 0.0  # of asking the customer: chance of a no [-]


def rank(compiled: CompiledPack, belief: Belief, terms: Terms = USUAL) -> tuple[NextStep, ...]:
    """Rank every legal check, every repair, asking and stopping, best first."""
    if not belief.case.complaints or belief.cured:
        return ()
    return ranked_from(standing_at(compiled, belief, terms), terms)


def ranked_from(stand: Standpoint, terms: Terms = USUAL) -> tuple[NextStep, ...]:
    """Rank from where a job stands."""
    looked, made = looks(stand, checks_left(stand.compiled, stand.case)), mends(stand)
    checks = [check_step(stand, look) for look in looked]
    done = waiting(stand.compiled, stand.case)
    repairs = [repair_step(stand, mend) for mend in made if not mend.used and mend.repair.id not in done]
    stops = stopping_steps(stand, terms, after_yes([*looked, *made]), [*checks, *repairs])
    return first_things_first(stand, _in_order(checks, [*repairs, *stops]), made)


def _in_order(checks: list[NextStep], others: list[NextStep]) -> tuple[NextStep, ...]:
    paying = sorted(
        (step for step in checks if step.saves_per_minute > 1),
        key=lambda step: (-round(step.saves_per_minute, 1), bool(step.open_first), step.minutes),
    )
    rest = by_minutes([*(step for step in checks if step.saves_per_minute <= 1), *others])
    best_check = min((step.expected_minutes for step in paying), default=np.inf)
    best_other = by_minutes(others)[0]
    as_good = LEAST_SAVING if best_other.kind == "repair" else 0.0  # a repair may end it: it goes before a look as good
    if best_other.expected_minutes < best_check + as_good:
        return (best_other, *paying, *(step for step in rest if step is not best_other))
    return (*paying, *rest)


def by_minutes(steps: Iterable[NextStep]) -> tuple[NextStep, ...]:
    """Put the shortest way to a cured machine first."""
    return tuple(sorted(steps, key=lambda step: (step.expected_minutes, step.minutes)))


def first_things_first(stand: Standpoint, steps: tuple[NextStep, ...], made: list[Mend]) -> tuple[NextStep, ...]:
    """Put before the steps what was not done right, before that what makes the machine safe; a mere repetition last."""
    seen = tried(stand.compiled, stand.case)
    again = sorted((mend for mend in made if mend.used), key=lambda mend: -mend.cures)
    not_right = [mend for mend in again if seen[mend.repair.id] and mend.cures > LIKELY]
    hopeless = [repair_step(stand, mend) for mend in again if mend not in not_right]
    redone = [replace(repair_step(stand, mend), why=WHY_AGAIN) for mend in not_right]
    return _safest_first(stand, (*redone, *steps, *hopeless))


def _safest_first(stand: Standpoint, steps: tuple[NextStep, ...]) -> tuple[NextStep, ...]:
    """Put what makes the machine safe before everything else while a finding forbids starting it."""
    compiled, standing = stand.compiled, forbidding(stand.compiled, stand.case)
    refused = next(step for step in steps if step.id == "stop")
    for found in reversed(standing):
        first = _that_lifts(compiled, found, steps) or _that_mends(stand, found, steps)
        if first is not None:
            says = next(one.says for one in compiled.checks[found.check].results if one.id == found.result)
            told = replace(first, why=f"Nothing is started before this, because {says}.")
            if first.expected_minutes > refused.expected_minutes:
                why = f"Nothing may be started, because {says}; to put that right looks longer than to stop."
                first = told = replace(refused, why=why)
            return (told, *(step for step in steps if step.id != first.id))
    if not standing:
        return steps
    says = next(one.says for one in compiled.checks[standing[-1].check].results if one.id == standing[-1].result)
    told = replace(refused, why=f"Nothing may be started, because {says}, and nothing is left here that puts it right.")
    return (told, *(step for step in steps if step.id != "stop"))


def _that_lifts(compiled: CompiledPack, found: Found, steps: tuple[NextStep, ...]) -> NextStep | None:
    """Give the check whose good result lets the engine be started again."""
    checks = (step for step in steps if step.kind == "check")
    return next((s for s in checks if any(found.check in one.lifts for one in compiled.checks[s.id].results)), None)


def _that_mends(stand: Standpoint, found: Found, steps: tuple[NextStep, ...]) -> NextStep | None:
    """Give the repair of what was most likely found."""
    compiled = stand.compiled
    check = compiled.checks[found.check]
    level = [one.id for one in check.results].index(found.result)
    seen = {row.cause: row.probabilities[level] for row in check.likelihoods if row.probabilities[level] > 0}
    name = max(seen, key=lambda cause: stand.now[compiled.network.position[cause]] * seen[cause], default=None)
    if name is None or compiled.causes[name].repair is None:
        return None
    repair = compiled.repairs[compiled.causes[name].repair or ""]
    if repair.id in waiting(compiled, stand.case):
        return None
    listed = next((step for step in steps if step.id == repair.id), None)
    return listed or repair_step(stand, mend_of(stand, repair))


def check_step(stand: Standpoint, look: Look, expected: Expected | None = None) -> NextStep:
    """Say what a check is and buys; ``expected`` when it was looked at more deeply."""
    check, expected = look.check, expected or look.expected
    saved = stand.ahead.minutes - (expected.minutes - look.cost)
    results = zip(check.results, look.chances, strict=True)
    return NextStep(
        kind="check",
        id=check.id,
        words=check.words,
        why=why_look(stand, look, saved),
        minutes=check.minutes,
        access_minutes=look.access,
        open_first=to_open(stand.compiled, check.access, stand.opened),
        expected_minutes=expected.minutes,
        saves_per_minute=saved / look.cost if saved > LEAST_SAVING else 0.0,
        outcomes=tuple((result.id, float(chance)) for result, chance in results),
        chance_of_cure=0.0,
        work_minutes=expected.work,
        parts_money=expected.parts,
        given_up=expected.given_up,
    )


def repair_step(stand: Standpoint, mend: Mend, expected: Expected | None = None) -> NextStep:
    """Say what a repair is and does."""
    repair, expected = mend.repair, expected or mend.expected
    return NextStep(
        kind="repair",
        id=repair.id,
        words=repair.words,
        why=why_mend(stand, mend),
        minutes=repair.minutes[1],
        access_minutes=mend.access,
        open_first=to_open(stand.compiled, repair.access, stand.opened),
        expected_minutes=expected.minutes,
        saves_per_minute=0.0,
        outcomes=(),
        chance_of_cure=mend.cures,
        work_minutes=expected.work,
        parts_money=expected.parts,
        given_up=expected.given_up,
    )


def after_yes(going_on: Iterable[Look | Mend]) -> Expected | None:
    """Give what is expected of the best way on once the customer has said yes; None when there is none."""
    ways = (one.expected_after_yes for one in going_on if isinstance(one, Look) or not one.used)
    return min(ways, key=lambda way: way.minutes, default=None)


def stopping_steps(
    stand: Standpoint, terms: Terms, going_on: Expected | None, steps: Iterable[NextStep]
) -> list[NextStep]:
    """Say what asking the customer now and refusing are worth beside the other steps."""
    refused = _stop("stop", "Stop here: quote another machine, or send it out", refusing(stand.counted), 0.0)
    refused = replace(refused, why=why_refuse(stand.counted, stand.ahead.minutes, terms.worth_minutes is not None))
    best = min(steps, key=lambda step: step.expected_minutes, default=None)
    if going_on is None or best is None:
        return [refused]
    no = float(stand.culprits @ stand.counted.over)
    asked = asking(no, going_on)
    saved = best.expected_minutes - asked.minutes
    quote = _stop(ASK, "Quote now: ask the customer before going on", asked, ASKING)
    return [replace(quote, says_no=no, why=why_ask(no, bool(terms.over), best.words, saved)), refused]


def _stop(name: str, words: str, expected: Expected, minutes: float) -> NextStep:
    return NextStep(
        kind="stop",
        id=name,
        words=words,
        why="",
        minutes=minutes,
        access_minutes=0.0,
        open_first=(),
        expected_minutes=expected.minutes,
        saves_per_minute=0.0,
        outcomes=(),
        chance_of_cure=0.0,
        work_minutes=expected.work,
        parts_money=expected.parts,
        given_up=expected.given_up,
    )
