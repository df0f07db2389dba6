"""A shop's own entries written in the very format of a pack's tables, so that they can be moved into one."""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence

from bellcrank.knowledge.model import Cause, Check, Likelihood, Pack, Repair
from bellcrank.knowledge.own import Own, names_of
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.knowledge.with_own import OWN, SOURCE, with_own
from bellcrank.sources import Origin, Status

Row = Sequence[str]
ORIGIN = ("basis", "source")
HEADINGS: Mapping[str, Row] = {
    "causes.csv": ("id", "words", "system", "severity", "prevalence", "repair", *ORIGIN),
    "shares.csv": ("complaint", "cause", "percent", *ORIGIN),
    "checks.csv": (
        *("id", "kind", "words", "story_words", "minutes", "tools", "access", "off_first", "hazards", "runs_engine"),
        *(*ORIGIN, "tries_to_start"),
    ),
    "results.csv": ("check", "id", "words", "says", "forbids_running", "lifts"),
    "likelihoods.csv": ("check", "cause", "probabilities", *ORIGIN, "weight"),
    "repairs.csv": (
        *("id", "words", "fixes", "minutes_low", "minutes_typical", "minutes_high", "access", "target", "tools"),
        *("off_first", "hazards", "touches", *ORIGIN),
    ),
    "repair-parts.csv": ("repair", "words", "price"),
    "sources.csv": ("key", "title", "locator", "status"),
}
TITLE = "This shop's own entries, found on its own jobs; the numbers by the rules of docs/knowledge-packs.md"


def own_tables(pack: Pack, own: Own) -> Mapping[str, str]:
    """Give the text of each table that has a line; what was taken back is left out.

    ``shares.csv`` holds every share of the complaints an own cause has one of, the pack's as they are with it: those
    lines take the place of the pack's. All others are added.
    """
    standing = Own(own.causes, own.checks)
    merged = with_own(pack, standing)
    ids = names_of(standing.causes, standing.checks)
    causes = [one for one in merged.causes if one.id in ids]
    checks = [one for one in merged.checks if one.id in ids]
    repairs = [one for one in merged.repairs if one.id in ids]
    touched = {complaint for one in causes for complaint in one.shares}
    rows: Mapping[str, Iterable[Row]] = {
        "causes.csv": map(_cause, causes),
        "shares.csv": [row for one in merged.causes for row in _shares(pack, one, touched)],
        "checks.csv": map(_check, checks),
        "results.csv": [row for one in checks for row in _results(one)],
        "likelihoods.csv": [row for one in merged.checks for row in _likelihoods(one, ids)],
        "repairs.csv": map(_repair, repairs),
        "repair-parts.csv": [(one.id, part.words, part.price) for one in repairs for part in one.parts],
        "sources.csv": [(SOURCE, TITLE, "", Status.COMMON_PRACTICE)] if ids else [],
    }
    texts = {name: _text(HEADINGS[name], list(lines)) for name, lines in rows.items()}
    return {name: text for name, text in texts.items() if text}


def _text(heading: Row, lines: Sequence[Row]) -> str:
    if not lines:
        return ""
    written = io.StringIO()
    csv.writer(written, lineterminator="\n").writerows([heading, *lines])
    return written.getvalue()


def _cause(one: Cause) -> Row:
    return (one.id, one.words, one.system, one.severity, "", one.repair or "", *_origin(one.origin))


def _shares(pack: Pack, one: Cause, touched: set[str]) -> list[Row]:
    origins = {cause.id: cause.origin for cause in pack.causes}
    return [
        (complaint, one.id, repr(100 * share), *_origin(origins.get(one.id, OWN)))
        for complaint, share in one.shares.items()
        if complaint in touched
    ]


def _check(one: Check) -> Row:
    tools, access, off, hazards = (";".join(each) for each in (one.tools, one.access, one.off_first, one.hazards))
    about = (one.id, one.kind, one.words, "", _number(one.minutes), tools, access, off, hazards)
    return (*about, _yes(one.runs_engine), *_origin(one.origin), _yes(one.tries_to_start))


def _results(one: Check) -> list[Row]:
    return [(one.id, each.id, each.words, each.says, _yes(each.forbids_running), "") for each in one.results]


def _likelihoods(one: Check, ids: frozenset[str]) -> list[Row]:
    leak = [Likelihood(one.id, LEAK_ROW, one.leak, one.origin, one.leak_weight)] if one.id in ids else []
    rows = [*leak, *(row for row in one.likelihoods if one.id in ids or row.cause in ids)]
    return [
        (row.check, row.cause, ";".join(map(repr, row.probabilities)), *_origin(row.origin), repr(row.weight))
        for row in rows
    ]


def _repair(one: Repair) -> Row:
    fixes = ";".join(f"{cause}={chance!r}" for cause, chance in one.fixes.items())
    tools, access, off, hazards, touches = (
        ";".join(each) for each in (one.tools, one.access, one.off_first, one.hazards, one.touches)
    )
    minutes = map(_number, one.minutes)
    return (one.id, one.words, fixes, *minutes, access, one.target or "", tools, off, hazards, touches, *_origin(OWN))


def _origin(origin: Origin) -> tuple[str, str]:
    return origin.basis, origin.source


def _number(value: float) -> str:
    return repr(value)


def _yes(flag: bool) -> str:
    return "yes" if flag else "no"
