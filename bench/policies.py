"""Ways of working through a job; each is given a visit and does one thing at a time until it is cured or given up.

What each knows is what the tool is told (complaint, findings, repairs), but for the all-knowing one. What must not be
started is started by none: what forbids it is put right first.
"""

from functools import lru_cache
from math import prod

import numpy as np
from bench.simulated import with_parts

from bellcrank.diagnosis.allowed import access_minutes, checks_left, forbidding, open_now
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.next_step import rank
from bellcrank.errors import OutOfRange

MOST_STEPS = 60
LONGEST = 3.0  # times the minutes charged for giving up: then every policy gives up
ORDER = ("ask", "look", "feel", "swap", "measure", "run")  # of a fixed checklist: cheap senses first
ON_THE_LIST = 0.02  # share of the complaint from which a cause is worth a line of the checklist
LEAST_TELLING = 0.3  # how much likelier a check must come out odd with the suspected cause to be made before the repair


@lru_cache(maxsize=4096)
def believed(known, case):
    return believe(known, case)


@lru_cache(maxsize=4096)
def ranked(known, case):
    return rank(known, believed(known, case))


def work(policy, visit, rng):
    """Work through a job by a policy."""
    state = {}
    while not visit.cured:
        if visit.steps >= MOST_STEPS or visit.minutes > LONGEST * visit.known.pack.give_up_minutes:
            visit.give_up()
        else:
            _next(policy, visit, state, rng)


def _next(policy, visit, state, rng):
    try:
        if visit.unsafe and policy not in (planner, all_knowing):
            _make_safe(visit)
        else:
            policy(visit, state, rng)
    except OutOfRange:
        visit.speechless = True
        visit.give_up()


def planner(visit, state, rng):
    """The first step of the ranked list."""
    del state, rng
    follow(visit, ranked(visit.known, visit.case)[0])


def follow(visit, step):
    """Do what the list says."""
    if step.kind == "check":
        visit.check(step.id)
    elif step.kind == "repair":
        visit.repair(step.id)
    else:
        visit.give_up()


def _make_safe(visit):
    """What forbids a start comes first: the check that lifts it, else the likeliest repair of it.

    What was done to no avail, or costs more than giving up, ends the job.
    """
    known, found = visit.known, forbidding(visit.known, visit.case)[-1]
    left = checks_left(known, visit.case)
    lifting = next((one for one in left if any(found.check in result.lifts for result in one.results)), None)
    if lifting is not None:
        visit.check(lifting.id)
        return
    check, now = known.checks[found.check], believed(known, visit.case).now
    level = [one.id for one in check.results].index(found.result)
    shows = {row.cause: row.probabilities[level] * now[row.cause] for row in check.likelihoods}
    likeliest = max(shows, key=shows.get, default=None)
    repair = None if likeliest is None else known.causes[likeliest].repair
    if repair is None or repair in visit.done or _minutes(visit, repair) > _giving_up(visit):
        visit.give_up()
    else:
        visit.repair(repair)


def _minutes(visit, repair):
    """What a repair takes now: covers, hands, parts and a start."""
    known = visit.known
    access = access_minutes(known, known.repairs[repair].access, open_now(known, visit.case))
    return access + with_parts(known.pack, known.repairs[repair]) + known.pack.start_check_minutes


def _giving_up(visit):
    return visit.known.pack.give_up_minutes


def checklist(visit, state, rng):
    """Always the same checks for a complaint, senses before tools; what is found odd is put right; then by share."""
    del rng
    suspect = state.pop("suspect", None)
    repaired = state.setdefault("repaired", set())
    if suspect is not None:
        repaired.add(suspect)
        visit.repair(suspect)
        return
    done = {event.check for event in visit.events if hasattr(event, "check")}
    legal = {one.id for one in checks_left(visit.known, visit.case)} - done
    check = next((one for one in written_list(visit.known, visit.machine.complaint) if one.id in legal), None)
    if check is None:
        _next_by_share(visit, repaired)
        return
    visit.check(check.id)
    level = [one.id for one in check.results].index(visit.events[-1].result)
    if level:
        state["suspect"] = _usual_repair(visit, check, level, repaired)


def written_list(known, complaint):
    """The checklist of a complaint: by kind, covers, and the pack's order; only what tells of a cause worth a line."""
    usual = {cause.id for cause in known.pack.causes if cause.shares.get(complaint, 0.0) >= ON_THE_LIST}
    telling = [one for one in known.pack.checks if known.looks_at[one.id] & usual]
    return sorted(telling, key=lambda one: (ORDER.index(one.kind), len(one.access)))


def _usual_repair(visit, check, level, repaired):
    """The repair of the cause that usually looks so: chance of that result times its share of the complaint."""
    weights = {}
    for row in check.likelihoods:
        cause = visit.known.causes[row.cause]
        usual = cause.shares.get(visit.machine.complaint, 0.0)
        if cause.repair and cause.repair not in repaired and _minutes(visit, cause.repair) <= _giving_up(visit):
            weights[cause.repair] = max(weights.get(cause.repair, 0.0), row.probabilities[level] * usual)
    best = max(weights, key=weights.get, default=None)
    return best if best and weights[best] > 0 else None


def _next_by_share(visit, repaired):
    shares = {}
    for cause in visit.known.pack.causes:
        if cause.repair and cause.repair not in repaired and _minutes(visit, cause.repair) <= _giving_up(visit):
            shares[cause.repair] = shares.get(cause.repair, 0.0) + cause.shares.get(visit.machine.complaint, 0.0)
    best = max(shares, key=shares.get, default=None)
    if best is None or shares[best] == 0:
        visit.give_up()
        return
    repaired.add(best)
    visit.repair(best)


def _by_cost(visit):
    """The repair not done yet with the best chance of cure per minute, whether it is worth it, and who is to blame."""
    known, belief = visit.known, believed(visit.known, visit.case)
    blame = belief.without.blocking[0]
    blame = blame / blame.sum() if blame.sum() else blame
    cost = np.array([_minutes(visit, one.id) for one in known.pack.repairs])
    new = np.array([one.id not in visit.done for one in known.pack.repairs])
    ratio = new * (known.repair_cures @ blame) / cost
    best = int(ratio.argmax())
    return (
        known.pack.repairs[best],
        ratio[best] > 1 / _giving_up(visit),
        dict(zip(known.network.names, blame, strict=True)),
    )


def by_cost(visit, state, rng):
    """Repairs without looking, best chance of cure per minute first, weighed anew after each."""
    del state, rng
    repair, worth, _ = _by_cost(visit)
    visit.repair(repair.id) if worth else visit.give_up()


def by_cost_looking(visit, state, rng):
    """The same, but a check that tells the suspected cause is made first when it is cheaper than the repair."""
    del rng
    known = visit.known
    repair, worth, blame = _by_cost(visit)
    if not worth:
        visit.give_up()
        return
    suspect = max(repair.fixes, key=lambda cause: blame.get(cause, 0.0))
    looked = state.setdefault("looked", set())
    opened, most = open_now(known, visit.case), _minutes(visit, repair.id)
    best, gain = None, 0.0
    for check in checks_left(known, visit.case):
        row = next((one for one in check.likelihoods if one.cause == suspect), None)
        minutes = access_minutes(known, check.access, opened) + check.minutes
        if row is None or (check.id, suspect) in looked or minutes >= most:
            continue
        telling = check.leak[0] * (1 - row.probabilities[0])
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
    """Knows what keeps the complaint standing, and mends just that, most cure per minute first: a bound.

    It gives up when that is expected to be shorter than all that is left to mend, and giving up all the same where that
    does not take. Its visit knows the world's own pack.
    """
    del state, rng
    known = visit.known
    wanted = {known.network.names[place] for place in visit.here & visit.machine.blockers}
    ways = [_cheapest(visit, cause) for cause in wanted]
    if not wanted:
        _make_safe(visit)  # cured, but not started yet: something told forbids it
    elif None in ways or sum(way[1] for way in ways) > prod(way[2] for way in ways) * _giving_up(visit):
        visit.give_up()
    else:
        visit.repair(min(ways)[3])


def _cheapest(visit, cause):
    """Of the repairs not done yet the one that cures a cause cheapest: minutes per cure, minutes, chance, repair."""
    left = [one for one in visit.known.pack.repairs if one.fixes.get(cause, 0.0) > 0 and one.id not in visit.done]
    ways = [(_minutes(visit, one.id), one.fixes[cause], one.id) for one in left]
    return min(((minutes / chance, minutes, chance, repair) for minutes, chance, repair in ways), default=None)


POLICIES = {
    "all-knowing": all_knowing,
    "planner": planner,
    "chance over cost, looking first": by_cost_looking,
    "chance over cost, blind": by_cost,
    "fixed checklist": checklist,
    "random repairs": at_random,
}
