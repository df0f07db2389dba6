"""The page of the shop's own pack: what was added, what it says, and its way into a pack's files."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bellcrank.errors import NotFound
from bellcrank.knowledge.model import Pack
from bellcrank.knowledge.own import Own, OwnCause, OwnCheck
from bellcrank.knowledge.own_tables import own_tables
from bellcrank.knowledge.with_own import with_own
from bellcrank.shop.own_entries import CAUSE, cause_from, check_from, own_from
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.own_entries import KeptEntry, read_own_entries


@dataclass(frozen=True, slots=True)
class OwnLine:
    """An own entry."""

    name: str
    what: str  # cause, check
    kind: str  # of machine
    kind_words: str
    words: str
    says: tuple[str, ...]  # what it weighs and does, in sentences
    job: int  # where it came from
    made_at: str  # ISO 8601, UTC
    made_by: str
    stands: bool
    taken_back_by: str


def own_lines(shop: Shop, kind: str = "") -> tuple[OwnLine, ...]:
    """Give the own entries of a kind of machine, of all when none is named, in the order they were made."""
    if kind and kind not in shop.library.packs:
        known = ", ".join(shop.library.packs)
        raise NotFound(f"There is no kind of machine “{kind}”. It must be one of {known}.", "kind")
    with shop.storage.reading() as connection:
        kept = read_own_entries(connection, kind or None)
    packs = {
        name: with_own(pack, own_from((one for one in kept if one.kind == name), shop.library.hazards))
        for name, pack in shop.library.packs.items()
    }
    return tuple(_line(shop, one, packs[one.kind]) for one in kept if one.kind in packs)


def own_files(shop: Shop, kind: str = "") -> Mapping[str, str]:
    """Give the own entries as tables in the format of packs: texts by kind and file, “walk-behind-mower/causes.csv”."""
    with shop.storage.reading() as connection:
        kept = read_own_entries(connection, kind or None)
    if not any(one.stands for one in kept):
        raise NotFound("This shop added nothing yet, so there is nothing to write.", "kind")
    return {
        f"{name}/{file}": text
        for name, pack in shop.library.packs.items()
        for file, text in own_tables(pack, _own(shop, kept, name)).items()
    }


def _own(shop: Shop, kept: Iterable[KeptEntry], kind: str) -> Own:
    return own_from((one for one in kept if one.kind == kind), shop.library.hazards)


def _line(shop: Shop, kept: KeptEntry, pack: Pack) -> OwnLine:
    if kept.what == CAUSE:
        says = _of_cause(cause_from(kept.name, kept.body), pack)
    else:
        says = _of_check(check_from(kept.name, kept.body, shop.library.hazards), pack)
    return OwnLine(
        name=kept.name,
        what=kept.what,
        kind=kept.kind,
        kind_words=pack.words,
        words=str(kept.body["words"]),
        says=says,
        job=kept.job_number,
        made_at=kept.made_at.isoformat(),
        made_by=kept.made_by,
        stands=kept.stands,
        taken_back_by=kept.taken_back_by,
    )


def _of_cause(one: OwnCause, pack: Pack) -> tuple[str, ...]:
    complaints = {complaint.id: complaint.words for complaint in pack.complaints}
    cause = next((each for each in pack.causes if each.id == one.id), None)
    shares = cause.shares if cause else {}
    of = [f"{100 * share:.1f} in 100 of “{complaints[name]}”" for name, share in shares.items()]
    says = {(check.id, result.id): result.says for check in pack.checks for result in check.results}
    explained = [says[name] for name in one.explains if name in says]
    parts = f", parts from {one.price}" if one.price else ""
    return (
        *([f"Counts as {' and '.join(of)}."] if of else []),
        *([f"Explains: {'; '.join(explained)}."] if explained else []),
        *_opens(one.access, pack),
        f"{one.repair_words}: {one.minutes:g} min{parts}.",
    )


def _of_check(one: OwnCheck, pack: Pack) -> tuple[str, ...]:
    causes = {cause.id: cause.words for cause in pack.causes}
    results = {result.id: result.words for result in one.results}
    shown = [
        f"“{causes[each.cause]}” {each.how_well} as “{results[each.result]}”"
        for each in one.shows
        if each.cause in causes
    ]
    return (
        *([f"Shows {'; '.join(shown)}."] if shown else []),
        f"{one.minutes:g} min{', engine running' if one.runs_engine else ''}; results: {', '.join(results.values())}.",
        *([f"Takes: {', '.join(one.tools)}."] if one.tools else []),
        *_opens(one.access, pack),
    )


def _opens(access: Iterable[str], pack: Pack) -> tuple[str, ...]:
    words = {one.id: one.words for one in pack.accesses}
    named = [words[name] for name in access if name in words]
    return (f"Opens: {', '.join(named)}.",) if named else ()
