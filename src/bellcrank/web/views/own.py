"""Views of the shop's own pack: the two forms, and the list of what was added."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from bellcrank.knowledge.model import Hazard, Pack
from bellcrank.knowledge.own import HOW_WELL
from bellcrank.shop.own_list import OwnLine
from bellcrank.shop.own_pack import NOT_DONE, OddFinding
from bellcrank.shop.own_typed import CHECK_MINUTES, REPAIR_MINUTES, RESULTS, CauseTyped, CheckTyped, systems_of
from bellcrank.shop.tell import OUTCOME_WORDS
from bellcrank.shop.words import when
from bellcrank.web.views.plain import NO_PROBLEM, Problem

MOST_SHOWN_CAUSES = 4  # rows for causes that a check shows, beyond those it has
MOST_RESULTS_ASKED = 4
Choice = tuple[str, str]


@dataclass(frozen=True, slots=True)
class CauseForm:
    """The form for a cause of one's own."""

    title: str
    lead: str
    action: str
    back: str
    typed: CauseTyped
    usual_minutes: str
    systems: tuple[str, ...]
    accesses: tuple[Choice, ...]
    odd: tuple[OddFinding, ...]
    explains: frozenset[str]
    outcomes: tuple[Choice, ...]  # none when it is changed
    outcome: str
    currency: str
    problem: Problem


@dataclass(frozen=True, slots=True)
class ShownRow:
    """A row of the form: a cause the check shows, how well, and as which result."""

    cause: str
    how_well: str
    result: str


@dataclass(frozen=True, slots=True)
class CheckForm:
    """The form for a check of one's own."""

    title: str
    action: str
    back: str
    typed: CheckTyped
    usual_minutes: str
    results: tuple[str, ...]
    causes: tuple[Choice, ...]
    how_well: tuple[str, ...]
    rows: tuple[ShownRow, ...]
    accesses: tuple[Choice, ...]
    hazards: tuple[Choice, ...]
    problem: Problem


@dataclass(frozen=True, slots=True)
class OwnRow:
    """An own entry on the list."""

    name: str
    what: str
    words: str
    says: tuple[str, ...]
    kind: str
    job: int
    when: str
    by: str
    stands: bool


@dataclass(frozen=True, slots=True)
class OwnPage:
    """The list of what the shop added."""

    title: str
    rows: tuple[OwnRow, ...]
    problem: Problem


def cause_form(  # noqa: PLR0913, what stands on the form
    action: str,
    back: str,
    pack: Pack,
    typed: CauseTyped,
    *,
    odd: tuple[OddFinding, ...] = (),
    explains: Sequence[str] | None = None,
    outcome: str = "",
    currency: str,
    problem: Problem = NO_PROBLEM,
) -> CauseForm:
    """Lay out the form; without an outcome it changes what is there."""
    new = bool(outcome)
    return CauseForm(
        title="It was something else" if new else typed.words,
        lead="What no list knew goes into your own pack: it counts in this job and in the next."
        if new
        else "A change counts at once, in every job that used it too.",
        action=action,
        back=back,
        typed=typed,
        usual_minutes=f"{REPAIR_MINUTES:g}",
        systems=systems_of(pack),
        accesses=_accesses(pack),
        odd=odd,
        explains=frozenset(one.check for one in odd) if explains is None else frozenset(explains),
        outcomes=(*((name, words) for name, words in OUTCOME_WORDS.items()), (NOT_DONE, "not done yet")) if new else (),
        outcome=outcome,
        currency=currency,
        problem=problem,
    )


def check_form(
    action: str,
    back: str,
    pack: Pack,
    hazards: Mapping[str, Hazard],
    typed: CheckTyped,
    problem: Problem = NO_PROBLEM,
) -> CheckForm:
    """Lay out the form; a check that has no words yet is a new one."""
    results = [*typed.results, *([""] * MOST_RESULTS_ASKED)][: max(MOST_RESULTS_ASKED, len(typed.results))]
    rows = [ShownRow(one.cause, one.how_well.replace("-", " "), one.result) for one in typed.shows]
    while len(rows) < MOST_SHOWN_CAUSES:
        rows.append(ShownRow("", "often", ""))
    return CheckForm(
        title="A check of your own",
        action=action,
        back=back,
        typed=typed,
        usual_minutes=f"{CHECK_MINUTES:g}",
        results=tuple(results) if typed.results else (*RESULTS, *results[len(RESULTS) :]),
        causes=tuple(sorted(((one.id, one.words) for one in pack.causes), key=lambda one: one[1].casefold())),
        how_well=tuple(HOW_WELL),
        rows=tuple(rows),
        accesses=_accesses(pack),
        hazards=tuple((one.id, one.control) for one in hazards.values()),
        problem=problem,
    )


def own_page(lines: Sequence[OwnLine], problem: Problem = NO_PROBLEM) -> OwnPage:
    """Lay out the list, what stands first."""
    rows = [
        OwnRow(
            name=one.name,
            what=one.what,
            words=one.words,
            says=one.says,
            kind=one.kind_words,
            job=one.job,
            when=when(one.made_at),
            by=one.made_by,
            stands=one.stands,
        )
        for one in lines
    ]
    return OwnPage("What this shop added", tuple(sorted(rows, key=lambda row: not row.stands)), problem)


def _accesses(pack: Pack) -> tuple[Choice, ...]:
    return tuple((one.id, one.words) for one in pack.accesses)
