"""The demo shop's past: closed jobs of two seasons, drawn by chance but always the same, so that there is something
to learn from. The town is by the sea: water gets into the fuel, and mowers stand in damp boathouses over winter.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np

from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.network import NOT_LISTED, CompiledPack
from bellcrank.knowledge.model import Check, Pack
from bellcrank.shop.packs import usual_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import GONE, LESSON, READY, state_body
from bellcrank.shop.storage.events import add_event
from bellcrank.shop.storage.jobs import FIRST_NUMBER, KeptMachine, Owner, add_job, write_state

JOBS = 48
SEED = 1871  # of the draw; any other gives another past
DAYS_APART = 14.0  # [days] on average
HERE_MORE_OFTEN: Mapping[str, float] = {"water-in-fuel": 8.0, "stale-fuel": 2.0, "plug-fouled": 2.0}
LOOKS = 3  # [-] checks that tell of the cause, made on a job
SLOWER = 1.25  # [-] this shop's minutes over the pack's, as a rule
MODELS = (
    ("Ternwick", "Kittiwake 46"),
    ("Saltmarsh", "Avocet 53"),
    ("Brackenholm", "Skua 51"),
    ("Ternwick", "Dunlin 41"),
)
PEOPLE = ("B. Reeve", "K. Moor", "the sailing club", "the chandler", "P. Strand", "the lock keeper", "M. Weir")


@dataclass(frozen=True, slots=True)
class _PastJob:
    """A job as it went."""

    case: Case
    told: int
    cause: str
    minutes: int


def add_past(shop: Shop, kind: str, by: str) -> None:
    """Add the closed jobs, numbered up to the one before the first."""
    rng = np.random.default_rng(SEED)
    compiled = usual_now(shop, kind)
    jobs = [_draw(compiled, rng) for _ in range(JOBS)]
    ages = np.sort(rng.uniform(0, JOBS * DAYS_APART, JOBS))[::-1]
    machines = rng.integers(len(MODELS), size=JOBS)
    with shop.storage.writing() as connection:
        for place, past in enumerate(jobs):
            closed = shop.now() - timedelta(days=3 + float(ages[place]))
            maker, model = MODELS[machines[place]]
            machine = KeptMachine(0, kind, maker, model, "", "")
            owner = Owner(PEOPLE[place % len(PEOPLE)], "", "", "")
            number = FIRST_NUMBER - JOBS + place
            came_in = closed - timedelta(days=2)
            job_id = add_job(connection, owner, machine, _words(compiled.pack, past), GONE, came_in, number)[0]
            for minute, (event, body) in enumerate(_events(past)):
                add_event(connection, job_id, event, body, by=by, now=_at(closed, minute))
            write_state(connection, job_id, GONE, closed)


def _at(closed: datetime, minute: int) -> datetime:
    return closed - timedelta(hours=2) + timedelta(minutes=minute)


def _words(pack: Pack, past: _PastJob) -> str:
    words = next(one.words for one in pack.complaints if one.id == past.case.complaints[0])
    return f"{words[:1].upper()}{words[1:]}."


def _events(past: _PastJob) -> Iterator[tuple[str, dict[str, object]]]:
    yield "complaint", {"complaint": past.case.complaints[0]}
    for place, one in enumerate(past.case.events):
        if isinstance(one, Found):
            yield ("told" if place < past.told else "found"), {"check": one.check, "result": one.result}
        else:
            yield "repaired", {"repair": one.repair, "outcome": one.outcome}
    yield LESSON, {"cause": past.cause, "minutes": float(past.minutes)}
    yield "state", state_body(READY)
    yield "state", state_body(GONE)


def _draw(compiled: CompiledPack, rng: np.random.Generator) -> _PastJob:
    """Draw a complaint, its cause, what the checks showed and the repair, one cause a job."""
    pack = compiled.pack
    weights = np.array([one.weight**2 for one in pack.complaints])  # the rare ones go to the next town
    complaint = pack.complaints[rng.choice(len(weights), p=weights / weights.sum())].id
    named = [one for one in pack.causes if one.repair and one.shares.get(complaint)]
    often = np.array([one.shares[complaint] * HERE_MORE_OFTEN.get(one.id, 1.0) for one in named])
    cause = named[rng.choice(len(named), p=often / often.sum())]
    repair = compiled.repairs[str(cause.repair)]
    story = [one for one in pack.checks if one.story and rng.uniform() < 0.5]
    telling = [one for one in pack.checks if not one.story and cause.id in compiled.looks_at[one.id]]
    looked = [telling[place] for place in rng.permutation(len(telling))[: rng.integers(1, LOOKS + 1)]]
    found = [Found(check.id, _result(check, cause.id, rng)) for check in (*story, *looked)]
    minutes = max(1, round(SLOWER * repair.minutes[1] * float(np.exp(rng.normal(0, 0.3)))))
    other = rng.uniform() < 0.04  # something nobody thought of, put right along with it
    case = Case((complaint,), (*found, Repaired(repair.id, "cured")))
    return _PastJob(case, len(story), NOT_LISTED if other else cause.id, minutes)


def _result(check: Check, cause: str, rng: np.random.Generator) -> str:
    """Draw what a check shows: the higher of what a sound machine shows and what the cause makes of it."""
    rows = [check.leak, *(row.probabilities for row in check.likelihoods if row.cause == cause)]
    level = max(int(rng.choice(len(row), p=np.array(row) / sum(row))) for row in rows)
    return check.results[level].id
