"""Counts for other shops and from them: a file that says how often, and of nobody whose (docs/counts-format.md)."""

import hashlib
import json
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bellcrank.diagnosis.counts import Counts, added
from bellcrank.diagnosis.network import NOT_LISTED
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood
from bellcrank.knowledge.model import Pack
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.shop.counts_text import as_plain, from_plain
from bellcrank.shop.learning import learn
from bellcrank.shop.learnt import own_counts
from bellcrank.shop.packs import usual_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.jobs import CLOSED
from bellcrank.shop.storage.lessons import (
    KeptImport,
    add_import,
    mark_import_taken_back,
    read_imports,
    read_lessons,
)
from bellcrank.shop.texts import clean_line
from bellcrank.shop.words import counted

FORMAT, VERSION = "bellcrank-counts", 1
LARGEST = 1_000_000  # [bytes] a dozen years of a busy shop
FIRST_YEAR, LAST_YEAR = 2000, 2199


@dataclass(frozen=True, slots=True)
class Brought:
    """What a file of counts would bring, or brought."""

    kind: str
    years: tuple[int, ...]
    jobs: float
    causes: int
    minutes: float  # times of repairs
    unknown: tuple[str, ...]  # names this shop does not know; what is counted of them is left out
    doubt: str  # why it may count the same jobs twice, "" when nothing says so
    words: str


@dataclass(frozen=True, slots=True)
class ReadCounts:
    """A file of counts that was read and understood."""

    kind: str
    years: Mapping[int, Counts]
    sha256: str


def export_counts(shop: Shop, kind: str) -> str:
    """Write what this shop's own closed jobs count, year by year; what came from others is not passed on."""
    learn(shop, kind)
    with shop.storage.reading() as connection:
        lessons = read_lessons(connection, kind, CLOSED)
    years: defaultdict[int, list[tuple[Counts, float]]] = defaultdict(list)
    for day, counts in own_counts(lessons):
        years[day.year].append((counts, 1.0))
    return json.dumps(_file(kind, {year: added(some) for year, some in sorted(years.items())}), indent=1) + "\n"


def _file(kind: str, years: Mapping[int, Counts]) -> dict[str, Any]:
    told = {str(year): as_plain(counts) for year, counts in years.items() if not counts.empty}
    return {"format": FORMAT, "version": VERSION, "kind": kind, "years": told}


def read_counts(shop: Shop, data: bytes) -> ReadCounts:
    """Read a file of counts, or refuse with what is wrong with it."""
    if len(data) > LARGEST:
        raise _not_counts(f"it has {len(data) / 1e6:.1f} MB, and counts of any shop fit into 1 MB")
    try:
        plain = json.loads(data.decode("utf-8-sig"), parse_constant=_no_number)
    except (UnicodeDecodeError, ValueError, RecursionError):
        raise _not_counts("it is not written as JSON") from None
    if not isinstance(plain, dict) or plain.get("format") != FORMAT:
        raise _not_counts(f"it does not say that it is one (“format”: “{FORMAT}”)")
    if plain.get("version") != VERSION:
        raise _not_counts(
            f"its version is {str(plain.get('version'))[:20]}, and this Bellcrank reads version {VERSION}. "
            "Install the Bellcrank that wrote it"
        )
    kind = plain.get("kind")
    if not isinstance(kind, str) or kind not in shop.library.packs:
        known = ", ".join(shop.library.packs)
        raise NotUnderstood(
            f"These are counts of “{str(kind)[:60]}”, a kind of machine this shop has no pack for. It has {known}. "
            "Nothing was taken in.",
            "file",
        )
    years = plain.get("years")
    if not isinstance(years, dict) or not years:
        raise _not_counts("there is no year in it")
    read = {_year(year): from_plain(counts, year) for year, counts in years.items()}
    text = json.dumps(_file(kind, dict(sorted(read.items()))), sort_keys=True)
    return ReadCounts(kind, read, hashlib.sha256(text.encode()).hexdigest())


def _no_number(name: str) -> float:
    raise ValueError(name)


def _year(text: str) -> int:
    if not (text.isascii() and text.isdigit() and FIRST_YEAR <= int(text[:5]) <= LAST_YEAR):
        raise _not_counts(f"“{text[:20]}” stands in it for a year")
    return int(text)


def _not_counts(why: str) -> NotUnderstood:
    return NotUnderstood(
        f"This file is no file of counts: {why}. Nothing was taken in; choose the file another shop gave you.", "file"
    )


def look_at(shop: Shop, read: ReadCounts) -> Brought:
    """Say what a file would bring."""
    total = added((counts, 1.0) for counts in read.years.values())
    pack = usual_now(shop, read.kind).pack
    return Brought(
        kind=read.kind,
        years=tuple(sorted(read.years)),
        jobs=sum(total.jobs.values()),
        causes=len({cause for _, cause in total.causes}),
        minutes=sum(one.count for one in total.minutes.values()),
        unknown=unknown_names(pack, total),
        doubt=_doubt(shop, read),
        words=in_words(read.years),
    )


def in_words(years: Mapping[int, Counts]) -> str:
    """Say how much some years of counts are."""
    total, named = added((counts, 1.0) for counts in years.values()), sorted(years)
    span = str(named[0]) if len(named) == 1 else f"{named[0]} to {named[-1]}"
    causes = len({cause for _, cause in total.causes})
    checks = len({check for check, _, _ in total.results})
    took = sum(one.count for one in total.minutes.values())
    return (
        f"{counted(round(sum(total.jobs.values())), 'job', 'jobs')} with a known cure, "
        f"{counted(causes, 'cause', 'causes')}, results of {counted(checks, 'check', 'checks')} and "
        f"{counted(round(took), 'time', 'times')} of repairs, from {span}"
    )


def years_of(kept: KeptImport) -> Mapping[int, Counts]:
    """Give the counts another shop gave, by year."""
    return {int(year): from_plain(plain, year) for year, plain in json.loads(kept.years).items()}


def unknown_names(pack: Pack, counts: Counts) -> tuple[str, ...]:
    """Name what the other shop counted that this one does not know, its own causes and checks."""
    causes = {one.id for one in pack.causes} | {LEAK_ROW, NOT_LISTED}
    checks = {one.id: {result.id for result in one.results} for one in pack.checks}
    told = {f"complaint {name}" for name in counts.jobs if name not in {one.id for one in pack.complaints}}
    told |= {f"cause {cause}" for _, cause in counts.causes if cause not in causes}
    for check, cause, result in counts.results:
        if check not in checks:
            told.add(f"check {check}")
        elif result not in checks[check]:
            told.add(f"result {result} of {check}")
        elif cause not in causes:
            told.add(f"cause {cause}")
    told |= {f"repair {name}" for name in counts.minutes if name not in {one.id for one in pack.repairs}}
    return tuple(sorted(told))


def _doubt(shop: Shop, read: ReadCounts) -> str:
    """Say so when one file holds all that another holds: then both come from one shop, and its jobs count twice."""
    with shop.storage.reading() as connection:
        kept = [one for one in read_imports(connection, read.kind) if one.stands and one.sha256 != read.sha256]
        own = own_counts(read_lessons(connection, read.kind, CLOSED))
    for one in kept:
        earlier = years_of(one)
        if _holds(read.years, earlier) or _holds(earlier, read.years):
            return (
                f"All that one of both files holds stands in the other, “{one.file_name}”: they seem to be of one "
                "shop. Take that one back, or its jobs count twice."
            )
    mine: defaultdict[int, list[tuple[Counts, float]]] = defaultdict(list)
    for day, counts in own:
        mine[day.year].append((counts, 1.0))
    if mine and _holds({year: added(some) for year, some in mine.items()}, read.years):
        return "All that this file holds stands in your own jobs: it seems to be your own file."
    return ""


def _holds(larger: Mapping[int, Counts], smaller: Mapping[int, Counts]) -> bool:
    """Whether each cause and result of some counts is counted as often, or more, in others."""
    return all(
        year in larger
        and all(larger[year].causes.get(name, 0.0) >= number - 1e-3 for name, number in counts.causes.items())
        and all(larger[year].results.get(name, 0.0) >= number - 1e-3 for name, number in counts.results.items())
        for year, counts in smaller.items()
    )


def import_counts(shop: Shop, data: bytes, file_name: str = "", by: str = "") -> tuple[int, Brought]:
    """Take counts of another shop in and give their number and what they bring; the same once more counts once."""
    read = read_counts(shop, data)
    brought = look_at(shop, read)
    now, name = shop.now(), clean_line(file_name, "The name of the file", field="file")
    with shop.storage.writing() as connection:
        standing = [one for one in read_imports(connection, read.kind) if one.stands]
        again = next((one for one in standing if one.sha256 == read.sha256), None)
        if again is not None:
            return again.id, brought
        years = json.dumps(_file(read.kind, read.years)["years"])
        kept = KeptImport(0, read.kind, read.sha256, name, years, now, by, None)
        number = add_import(connection, kept)
    learn(shop, read.kind)
    return number, brought


def take_back_counts(shop: Shop, kind: str, number: int | None = None, by: str = "") -> str:
    """Take counts of another shop back, the last ones when none are named; give the name of their file."""
    now = shop.now()
    with shop.storage.writing() as connection:
        standing = [one for one in read_imports(connection, kind) if one.stands]
        if not standing:
            raise NotAllowedNow("No counts of another shop stand here, so there is nothing to take back.")
        chosen = next((one for one in reversed(standing) if number in (None, one.id)), None)
        if chosen is None:
            known = ", ".join(str(one.id) for one in standing)
            raise NotFound(f"There are no counts with the number {number} here. There are {known}.", "number")
        mark_import_taken_back(connection, chosen.id, by=by, now=now)
    learn(shop, kind)
    return chosen.file_name or f"the file of {_day(chosen.imported_at)}"


def _day(moment: datetime) -> str:
    return moment.date().isoformat()
