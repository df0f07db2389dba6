"""Ways of working through a job; each is given a visit and does one thing at a time until it is cured or given up.

What each knows is what the tool is told (complaint, findings, repairs), but for the all-knowing one.
"""

from functools import lru_cache

import numpy as np

from bellcrank.diagnosis.allowed import checks_left, forbidding, open_now
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.counted import counted
from bellcrank.diagnosis.next_step import rank

MOST_STEPS = 60
LONGEST = 3.0  # times the minutes charged for giving up: then every policy gives up
ORDER = ("ask", "look", "feel", "swap", "measure", "run")  # of a fixed checklist: cheap senses first
LEAST_TELLING = 0.3  # how much likelier a check must come out odd with the suspected cause to be made before the repair


@lru_cache(maxsize=4096)
def _believed(known, case):
    return believe(known, case)


@lru_cache(maxsize=4096)
def _ranked(known, case):
    return rank(known, _believed(known, case))


def work(policy, visit, rng):
    """Work through a job by a policy."""
    state = {}
    while not visit.cured:
        if visit.steps >= MOST_STEPS or visit.minutes > LONGEST * visit.known.pack.give_up_minutes:
            visit.give_up()
        elif visit.unsafe and policy not in (planner, all_knowing):
            _make_safe(visit)
        else:
            policy(visit, state, rng)


def planner(visit, state, rng):
    """The first step of the ranked list."""
    del state, rng
    _do(visit, _ranked(visit.known, visit.case)[0])


def _do(visit, step):
    if step.kind == "check":
        visit.check(step.id)
    elif step.kind == "repair":
        visit.repair(step.id)
    else:
        visit.give_up()


def _make_safe(visit):
    """Every policy puts right first what forbids a start: the planner's own first step, which is that."""
    _do(visit, _ranked(visit.known, visit.case)[0])


def checklist(visit, state, rng):
    """Always the same checks, senses before tools, then whatever was found odd is put right; then repairs by share."""
    del rng
    known = visit.known
    done = {event.check for event in visit.events if hasattr(event, "check")}
    suspect = state.pop("suspect", None)
    if suspect is not None:
        visit.repair(suspect)
        state.setdefault("repaired", set()).add(suspect)
        return
    left = [one for one in checks_left(known, visit.case) if one.id not in done]
    if left:
        check = min(left, key=lambda one: (ORDER.index(one.kind), len(one.access), known.pack.checks.index(one)))
        visit.check(check.id)
        found = visit.events[-1].result
        level = [one.id for one in check.results].index(found)
        if level:
            state["suspect"] = _usual_repair(visit, check, level, state.get("repaired", set()))
        return
    _next_by_share(visit, state)


def _usual_repair(visit, check, level, repaired):
    """The repair of the cause that usually looks so: chance of that result times its share of the complaint."""
    weights = {}
    for row in check.likelihoods:
        cause = visit.known.causes[row.cause]
        usual = cause.shares.get(visit.machine.complaint, cause.prevalence or 0.0)
        if cause.repair and cause.repair not in repaired:
            weights[cause.repair] = max(weights.get(cause.repair, 0.0), row.probabilities[level] * usual)
    best = max(weights, key=weights.get, default=None)
    return best if best and weights[best] > 0 else None


def _next_by_share(visit, state):
    repaired = state.setdefault("repaired", set())
    shares = {}
    for cause in visit.known.pack.causes:
        if cause.repair and cause.repair not in repaired:
            shares[cause.repair] = shares.get(cause.repair, 0.0) + cause.shares.get(visit.machine.complaint, 0.0)
    best = max(shares, key=shares.get, default=None)
    if best is None or shares[best] == 0:
        visit.give_up()
        return
    repaired.add(best)
    visit.repair(best)


def _by_cost(visit):
    """Repairs by chance of cure over cost now, best first, and whether the best is worth it against giving up."""
    known, belief = visit.known, _believed(visit.known, visit.case)
    blame = belief.without.blocking[0]
    blame = blame / blame.sum() if blame.sum() else blame
    cures = known.repair_cures @ blame
    opened = open_now(known, visit.case)
    cost = (known.repair_needs & ~opened) @ known.access_minutes + counted(known).minutes
    order = np.argsort(-cures / cost, kind="stable")
    worth = cures[order[0]] / cost[order[0]] > 1 / known.pack.give_up_minutes
    return [known.pack.repairs[place] for place in order], worth, dict(zip(known.network.names, blame, strict=True))


def by_cost(visit, state, rng):
    """Repairs without looking, best chance of cure per minute first, weighed anew after each."""
    del state, rng
    repairs, worth, _ = _by_cost(visit)
    visit.repair(repairs[0].id) if worth else visit.give_up()


def by_cost_looking(visit, state, rng):
    """The same, but a check that tells the suspected cause is made first when it is cheaper than the repair."""
    del rng
    known = visit.known
    repairs, worth, blame = _by_cost(visit)
    if not worth:
        visit.give_up()
        return
    repair = repairs[0]
    suspect = max(repair.fixes, key=lambda cause: blame.get(cause, 0.0))
    looked = state.setdefault("looked", set())
    opened = open_now(known, visit.case)
    cost = float((known.access_set(repair.access) & ~opened) @ known.access_minutes) + repair.minutes[1]
    best, gain = None, 0.0
    for check in checks_left(known, visit.case):
        row = next((one for one in check.likelihoods if one.cause == suspect), None)
        minutes = float((known.access_set(check.access) & ~opened) @ known.access_minutes) + check.minutes
        if row is None or (check.id, suspect) in looked or minutes >= cost:
            continue
        telling = check.leak[0] - row.probabilities[0] * check.leak[0]
        if telling >= LEAST_TELLING and telling / minutes > gain:
            best, gain = check, telling / minutes
    if best is None:
        visit.repair(repair.id)
        return
    looked.add((best.id, suspect))
    visit.check(best.id)


def at_random(visit, state, rng):
    """Any repair that was not done yet."""
    done = state.setdefault("done", set())
    left = [one.id for one in visit.known.pack.repairs if one.id not in done]
    if not left:
        visit.give_up()
        return
    chosen = left[int(rng.integers(len(left)))]
    done.add(chosen)
    visit.repair(chosen)


def all_knowing(visit, state, rng):
    """Knows what keeps the complaint standing, and mends just that, most cure per minute first: a bound."""
    del state, rng
    known, world = visit.known, visit.world
    wanted = {world.network.names[place] for place in visit.here & visit.machine.blockers}
    opened = open_now(known, visit.case)
    best, ratio = None, 0.0
    for place, repair in enumerate(known.pack.repairs):
        cures = sum(chance for cause, chance in repair.fixes.items() if cause in wanted)
        cost = float((known.repair_needs[place] & ~opened) @ known.access_minutes) + known.repair_work[place]
        if cures / cost > ratio:
            best, ratio = repair, cures / cost
    if not wanted and forbidding(known, visit.case):
        _make_safe(visit)
    elif best is None or ratio < 1 / known.pack.give_up_minutes:
        visit.give_up()
    else:
        visit.repair(best.id)


POLICIES = {
    "all-knowing": all_knowing,
    "planner": planner,
    "chance over cost, looking first": by_cost_looking,
    "chance over cost, blind": by_cost,
    "fixed checklist": checklist,
    "random repairs": at_random,
}
