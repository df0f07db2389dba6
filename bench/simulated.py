"""A simulated bench: machines drawn from a compiled pack, and a visit that answers checks and repairs.

Every chance is drawn once for each machine and thing (check and cause, repair and cause), never by the order of asking:
whatever a policy does, it meets the same machine, and policies are compared in pairs. A repair that did not take does
not take a second time. Causes present draw once whether each keeps the complaint standing; a complaint stands while one
that does is there.
"""

from dataclasses import dataclass, field

import numpy as np

from bellcrank.diagnosis.allowed import forbidding, open_after_check, outcomes_open
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.network import COMPLAINT, CompiledPack

BATCH = 20_000  # machines drawn at a time until enough have the complaint
TOLD = 0.6  # chance that a fact of the story that is true is told at the door
TELLING, ANSWERING, MENDING = range(3)  # parts of the streams of random numbers


@dataclass(frozen=True)
class Machine:
    """A machine that came in: what is in it, what of that keeps the complaint standing, and its own luck."""

    complaint: str
    present: frozenset[int]
    blockers: frozenset[int]
    seed: tuple[int, ...]


def draw_machines(compiled, complaint, count, seed):
    """Draw machines of which this complaint stands, by drawing machines until enough of them have it."""
    rng = np.random.default_rng(seed)
    network = compiled.network
    strengths = 1 - network.findings[COMPLAINT + complaint].rows[0]
    machines = []
    while len(machines) < count:
        present = np.zeros((BATCH, len(network.names)), bool)
        for cause in network.roots_first:
            absent = np.full(BATCH, 1 - network.own[cause])
            for root, strength in network.roots[cause]:
                absent *= 1 - strength * present[:, root]
            present[:, cause] = rng.random(BATCH) >= absent
        blocks = present & (rng.random(present.shape) < strengths)
        for row in np.flatnonzero(blocks.any(axis=1)):
            number = len(machines)
            here, blocking = (frozenset(np.flatnonzero(flags[row]).tolist()) for flags in (present, blocks))
            machines.append(Machine(complaint, here, blocking, (*seed, number)))
    return machines[:count]


def with_parts(pack, repair):
    """Typical minutes of a repair, its parts counted as the minutes they are worth."""
    return repair.minutes[1] + pack.minutes_per_price * sum(float(part.price) for part in repair.parts)


@dataclass
class Visit:
    """One machine on the bench: what was done, what it took; ``world`` is the truth, ``known`` what the tool knows."""

    world: CompiledPack
    known: CompiledPack
    machine: Machine
    events: list = field(default_factory=list)
    minutes: float = 0.0  # with parts counted as minutes, as the planner counts
    hands: float = 0.0  # hands-on and access alone
    steps: int = 0
    gave_up: bool = False
    speechless: bool = False  # the tool could not weigh so many findings

    def __post_init__(self):
        self.here = set(self.machine.present)
        self.opened = np.zeros(len(self.known.access_order), bool)
        self.done = set()
        for check in self.known.pack.checks:
            told = check.story and self._luck(TELLING, check.id)[0] < TOLD
            if told and self.answer(check.id) == check.results[-1].id:
                self.events.append(Found(check.id, check.results[-1].id))

    @property
    def case(self):
        """What the tool is told."""
        return Case((self.machine.complaint,), tuple(self.events))

    @property
    def cured(self):
        """Whether the complaint is gone and that was seen."""
        return self.gave_up or self.case.cured

    def answer(self, check):
        """The result of a check on the machine as it is now."""
        table = self.world.network.findings[check]
        luck = self._luck(ANSWERING, check)
        level = int(np.searchsorted(table.leak, luck[-1], side="right"))
        for cause in table.touched:
            if cause in self.here:
                level = max(level, int(np.searchsorted(table.rows[:, cause], luck[cause], side="right")))
        return self.world.checks[check].results[min(level, table.levels - 1)].id

    def check(self, name):
        """Make a check."""
        check = self.known.checks[name]
        self._spend(self._access(check.access) + check.minutes)
        self.opened = open_after_check(self.known, check, self.opened)
        self.events.append(Found(name, self.answer(name)))
        last = next((one for one in reversed(self.events) if isinstance(one, Repaired)), None)
        if last is not None and last.outcome == "not-tried" and not self.unsafe:
            self._start(last.repair)

    def repair(self, name):
        """Do a repair and try the machine, unless something found forbids a start."""
        known, repair = self.known, self.known.repairs[name]
        access = self._access(repair.access)
        luck = self._luck(MENDING, name)
        self.done.add(name)
        for cause, chance in self.world.mend(name).items():
            place = self.world.network.position[cause]
            if luck[place] < chance:
                self.here.discard(place)
        self.opened |= known.access_set(repair.access)
        self._spend(access + with_parts(known.pack, repair), access + repair.minutes[1])
        if outcomes_open(known, self.case, name) == ("not-tried",):
            self.events.append(Repaired(name, "not-tried"))
            return
        self._start(name)

    def _start(self, name):
        """Try the machine after a repair."""
        self._spend(self.known.pack.start_check_minutes)
        self.opened &= ~self.known.shut_to_run
        still = bool(self.here & self.machine.blockers)
        self.events.append(Repaired(name, "not-cured" if still else "cured"))

    def give_up(self):
        """Stop: quote another machine, or send it out."""
        self._spend(self.known.pack.give_up_minutes)
        self.gave_up = True

    @property
    def unsafe(self):
        """Whether a finding forbids starting it now."""
        return bool(forbidding(self.known, self.case))

    def _access(self, access):
        return float((self.known.access_set(access) & ~self.opened) @ self.known.access_minutes)

    def _spend(self, minutes, hands=None):
        self.minutes += minutes
        self.hands += minutes if hands is None else hands
        self.steps += 1

    def _luck(self, part, name):
        seed = (*self.machine.seed, part, *name.encode())
        return np.random.default_rng(seed).random(len(self.world.network.names) + 1)
