"""The view of taking a machine in: half a story is enough."""

from dataclasses import dataclass

from bellcrank.knowledge.model import Library, Pack
from bellcrank.web.views.plain import NO_PROBLEM, Problem

UNSAID = "no"  # what nobody taps: an untapped fact


@dataclass(frozen=True, slots=True)
class FactChoice:
    """A fact the customer can tell, as something to tap."""

    id: str
    words: str
    answers: tuple[tuple[str, str], ...]  # id and words of what may be told; of “no” and “yes” only “yes”


@dataclass(frozen=True, slots=True)
class TakeInPage:
    """The form at the door."""

    title: str
    kind: str
    kinds: tuple[tuple[str, str], ...]
    complaints: tuple[tuple[str, str], ...]
    facts: tuple[FactChoice, ...]
    engines: tuple[tuple[str, str], ...]
    currency: str
    problem: Problem
    chosen: frozenset[str]  # complaints and facts tapped before a refusal


def take_in_page(
    library: Library,
    currency: str,
    pack: Pack,
    problem: Problem = NO_PROBLEM,
    chosen: frozenset[str] = frozenset(),
) -> TakeInPage:
    """Lay out the form for a kind of machine: its complaints, its facts, its engines."""
    return TakeInPage(
        title="Take in a machine",
        kind=pack.kind,
        kinds=tuple((one.kind, one.words) for one in library.packs.values()),
        complaints=tuple((one.id, one.words) for one in pack.complaints),
        facts=_facts(pack),
        engines=tuple((card.id, card.words) for card in pack.engine_cards),
        currency=currency,
        problem=problem,
        chosen=chosen,
    )


def _facts(pack: Pack) -> tuple[FactChoice, ...]:
    return tuple(
        FactChoice(
            check.id,
            check.story_words,
            tuple((result.id, result.words) for result in check.results if result.id != UNSAID),
        )
        for check in pack.checks
        if check.story
    )
