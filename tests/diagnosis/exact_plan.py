"""The best plan there is, on small problems: an oracle for the planner.

One cause is to blame. A state is what was answered, what was repaired and what is open; with weights that are left
unnormalised, the expected minutes from a state are the least of giving up, of every repair not done yet and of every
check not answered yet. It is worked out from all states there are and shares no code with the planner; the
value of following any advice comes from the same expansion.
"""

import numpy as np

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.network import compile_pack
from bellcrank.knowledge.model import Access

from .small_pack import cause, check, pack_of, repair

ONE_FAULT = 1e-6  # [-] scale of the faults: two at a time are one in a million machines
GIVE_UP, START = 150.0, 1.0  # [min]
NO_MATTER = 1e-4  # [-] a branch less likely is valued as giving up: seconds, and never in favour of the advice


def random_problem(seed):
    """Draw five causes, five checks and five repairs behind two covers: the scale of the published comparisons."""
    rng = np.random.default_rng(seed)
    names = [f"c{n}" for n in range(5)]
    shares = 0.99 * rng.dirichlet(np.full(5, 1.2))
    inner_needs = ("outer",) if rng.random() < 0.5 else ()
    covers = (
        Access("outer", "outer cover", (), None, float(rng.uniform(3, 12)), 0.0, True),
        Access("inner", "inner cover", inner_needs, None, float(rng.uniform(3, 12)), 0.0, True),
    )
    behind = [(), ("outer",), ("inner",)]
    checks = []
    for n in range(5):
        leak = rng.uniform(0.02, 0.15)
        touched = rng.choice(5, size=int(rng.integers(1, 4)), replace=False)
        rows = {
            names[place]: (1 - p, p) for place, p in zip(touched, rng.uniform(0.6, 0.97, len(touched)), strict=True)
        }
        minutes, where = float(rng.uniform(0.5, 6)), behind[int(rng.integers(3))]
        checks.append(
            check(f"t{n}", ("it is fine", "it is odd"), (1 - leak, leak), rows, minutes=minutes, access=where)
        )
    repairs = []
    for n in range(5):
        fixes = {names[n]: float(rng.uniform(0.8, 1.0))}
        if rng.random() < 0.3:
            fixes.setdefault(names[int(rng.integers(5))], float(rng.uniform(0.8, 1.0)))
        repairs.append(repair(f"r{n}", fixes, float(rng.uniform(2, 30)), behind[int(rng.integers(3))]))
    pack = pack_of(
        causes=tuple(cause(name, name, {"wont-start": float(p)}) for name, p in zip(names, shares, strict=True)),
        checks=tuple(checks),
        repairs=tuple(repairs),
        accesses=covers,
        fault_scale=ONE_FAULT,
        give_up_minutes=GIVE_UP,
        start_check_minutes=START,
    )
    return compile_pack(pack)


class Exact:
    """All states of a problem, each valued once; nothing is checked or repaired twice."""

    def __init__(self, compiled):
        pack = compiled.pack
        self.pack = pack
        blocking = believe(compiled, Case(("wont-start",))).blocking
        self.names = list(blocking)
        weights = np.array(list(blocking.values()))
        self.start = weights / weights.sum()
        self.known = {}
        self.shut = frozenset(one.id for one in pack.accesses if one.shut_to_run)
        self.covers = {one.id: one for one in pack.accesses}
        self.levels = {one.id: self._levels(one) for one in pack.checks}
        self.kept = {one.id: np.array([1 - one.fixes.get(name, 0.0) for name in self.names]) for one in pack.repairs}
        self.needed = {one.id: self._needed(one.access) for one in (*pack.checks, *pack.repairs)}
        self.minutes = {one.id: one.minutes for one in pack.checks}
        self.minutes |= {one.id: one.minutes[1] + pack.start_check_minutes for one in pack.repairs}

    def _needed(self, access):
        return frozenset(access).union(*(self._needed(self.covers[name].needs) for name in access))

    def _levels(self, one):
        """Chance of each result from each cause alone and the leak: the higher of the two is seen."""
        rows = {row.cause: row.probabilities for row in one.likelihoods}
        sure = (1.0,) + (0.0,) * (len(one.leak) - 1)
        table = np.zeros((len(one.leak), len(self.names)))
        for place, name in enumerate(self.names):
            for own, chance in enumerate(rows.get(name, sure)):
                for leaked, other in enumerate(one.leak):
                    table[max(own, leaked), place] += chance * other
        return table

    def _cost(self, name, opened):
        covers = [self.covers[one] for one in self.needed[name] - opened]
        return self.minutes[name] + sum(one.open_minutes + one.close_minutes for one in covers)

    def best(self, weights=None, told=frozenset(), opened=frozenset()):
        """Give the least expected minutes, times the chance of being here."""
        weights = self.start if weights is None else weights
        if (told, opened) in self.known:
            return self.known[told, opened]
        here, done = float(weights.sum()), {name for name, _ in told}
        value = here * self.pack.give_up_minutes
        for name in self.kept.keys() - done:
            after, spent = weights * self.kept[name], here * self._cost(name, opened)
            if spent < value and after.sum() < here:
                there = (opened | self.needed[name]) - self.shut
                value = min(value, spent + self.best(after, told | {(name, 0)}, there))
        for name in self.levels.keys() - done:
            spent = here * self._cost(name, opened)
            for level, chances in enumerate(self.levels[name]):
                if spent >= value:
                    break
                spent += self.best(weights * chances, told | {(name, level)}, opened | self.needed[name])
            value = min(value, spent)
        self.known[told, opened] = value
        return value

    def following(self, advice, weights=None, case=None, opened=frozenset()):
        """Give the expected minutes of following advice, times the chance of being here; it is given a case."""
        weights, case = (self.start, Case(("wont-start",))) if weights is None else (weights, case)
        here = float(weights.sum())
        name = advice(case)
        if name == "stop" or here < NO_MATTER:
            return here * self.pack.give_up_minutes
        spent, there = here * self._cost(name, opened), opened | self.needed[name]
        if name in self.kept:
            told = Case(case.complaints, (*case.events, Repaired(name, "not-cured")))
            return spent + self.following(advice, weights * self.kept[name], told, there - self.shut)
        for level, chances in enumerate(self.levels[name]):
            told = Case(case.complaints, (*case.events, Found(name, f"r{level}")))
            spent += self.following(advice, weights * chances, told, there)
        return spent
