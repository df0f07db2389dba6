"""What the shop knows of a kind of machine with what its closed jobs taught; only read here, and kept until a job is
closed or opened again, or counts come in. Written by :mod:`bellcrank.shop.learning`.
"""

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from bellcrank.diagnosis.counts import Counts, added, weight_at
from bellcrank.diagnosis.learnt_pack import Learnt, model_shares, with_learnt
from bellcrank.diagnosis.network import CompiledPack, compile_pack
from bellcrank.shop.counts_text import from_plain
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.jobs import CLOSED
from bellcrank.shop.storage.lessons import (
    KeptImport,
    KeptLesson,
    State,
    read_imports,
    read_lessons,
    state_of_learning,
)

DAYS_IN_YEAR = 365.25
GATE = 50  # [-] last jobs that what was learnt must not tell worse than the pack
FEWEST_FOR_GATE = 10  # [-] below it they say nothing, and so few jobs hardly move the pack


@dataclass(frozen=True, slots=True)
class Gate:
    """How the last closed jobs were told, by the pack's own numbers and by what had been learnt before each."""

    jobs: int
    pack: float  # log score of both moments together, mean [nats]
    learnt: float

    @property
    def closed(self) -> bool:
        """Whether what was learnt is not used, because it told the last jobs worse."""
        return self.jobs >= FEWEST_FOR_GATE and self.learnt > self.pack


@dataclass(frozen=True, slots=True, eq=False)
class Taught:
    """All that was learnt of a kind of machine, and what is used of it."""

    used: CompiledPack
    learnt: Learnt | None  # None: nothing was
    gate: Gate


def learnt_now(shop: Shop, usual: CompiledPack) -> CompiledPack:
    """Give a pack with what the shop's closed jobs taught, the pack itself when they taught nothing of use."""
    return taught_now(shop, usual).used


def taught_now(shop: Shop, usual: CompiledPack) -> Taught:
    """Give all that was learnt, worked out once for each state of the jobs and each day."""
    kind, today = usual.pack.kind, shop.now().date()
    state = shop.answers.answer(("learning", kind, shop.storage.mark()), lambda: _state(shop, kind))
    if not state.lessons and not state.imports:
        return Taught(usual, None, Gate(0, 0.0, 0.0))
    return shop.answers.answer(("taught", usual, state, today), lambda: _taught(shop, usual, today))


def _state(shop: Shop, kind: str) -> State:
    with shop.storage.reading() as connection:
        return state_of_learning(connection, kind, CLOSED)


def _taught(shop: Shop, usual: CompiledPack, today: date) -> Taught:
    with shop.storage.reading() as connection:
        lessons = read_lessons(connection, usual.pack.kind, CLOSED)
        imports = read_imports(connection, usual.pack.kind)
    counts = counts_at(today, own_counts(lessons), imported_counts(imports))
    learnt = with_learnt(usual.pack, counts, modelled(shop, usual))
    gate = gate_of(lessons)
    return Taught(usual if gate.closed else compile_pack(learnt.pack), learnt, gate)


def modelled(shop: Shop, usual: CompiledPack) -> dict[str, dict[str, float]]:
    """Give what the network makes of the pack's shares, worked out once."""
    return shop.answers.answer(("modelled", usual), lambda: {k: dict(v) for k, v in model_shares(usual).items()})


def gate_of(lessons: Sequence[KeptLesson]) -> Gate:
    """Hold what was learnt against the pack on the last closed jobs; each was told by what earlier ones taught."""
    told = [
        (one.surprise, one.learnt_surprise)
        for one in lessons
        if one.surprise is not None and one.learnt_surprise is not None
    ][-GATE:]
    if not told:
        return Gate(0, 0.0, 0.0)
    return Gate(len(told), sum(one for one, _ in told) / len(told), sum(one for _, one in told) / len(told))


Dated = tuple[date, Counts]


def own_counts(lessons: Iterable[KeptLesson]) -> tuple[Dated, ...]:
    """Give what each closed job taught, with its day."""
    return tuple((one.closed_at.date(), from_plain(json.loads(one.counts), "lesson")) for one in lessons)


def imported_counts(imports: Iterable[KeptImport]) -> tuple[Dated, ...]:
    """Give the counts of other shops that stand, a year's as if of its middle."""
    return tuple(
        (date(int(year), 7, 1), from_plain(plain, year))
        for one in imports
        if one.stands
        for year, plain in json.loads(one.years).items()
    )


def counts_at(today: date, *several: Iterable[Dated]) -> Counts:
    """Add counts as they count on a day: older ones less."""
    return added((counts, weight_at((today - day).days / DAYS_IN_YEAR)) for some in several for day, counts in some)
