"""Counts as text and back: the open format of docs/counts-format.md, one part of it a year's counts."""

import math
import re
from collections import defaultdict
from collections.abc import Callable, Mapping
from typing import Any

from bellcrank.diagnosis.counts import Counts
from bellcrank.errors import NotUnderstood
from bellcrank.stats.updating import LogSums

DIGITS = 4  # a ten-thousandth of a job, or of a logarithm
NAME = re.compile(r"[a-z0-9][a-z0-9-]{0,59}|-")
MOST_JOBS = 1e6
ROUNDING = 1e-2  # [-] jobs that sums may miss each other by
PARTS = ("jobs", "causes", "results", "minutes")
Plain = Mapping[str, Any]


def as_plain(counts: Counts) -> dict[str, Any]:
    """Give counts as JSON knows them, in the order of their names."""
    causes: defaultdict[str, dict[str, float]] = defaultdict(dict)
    results: defaultdict[str, defaultdict[str, dict[str, float]]] = defaultdict(lambda: defaultdict(dict))
    for (complaint, cause), number in sorted(counts.causes.items()):
        causes[complaint][cause] = round(number, DIGITS)
    for (check, cause, result), number in sorted(counts.results.items()):
        results[check][cause][result] = round(number, DIGITS)
    return {
        "jobs": {name: round(number, DIGITS) for name, number in sorted(counts.jobs.items())},
        "causes": dict(causes),
        "results": {check: dict(rows) for check, rows in results.items()},
        "minutes": {
            repair: {name: round(getattr(one, name), DIGITS) for name in ("count", "logs", "squares")}
            for repair, one in sorted(counts.minutes.items())
        },
    }


def from_plain(plain: Any, where: str) -> Counts:
    """Read counts, or refuse with the place and what must stand there."""
    parts = _named(plain, where, lambda value, _: value)
    unknown = sorted(set(parts) - set(PARTS))
    if unknown:
        raise _refusal(f"{where}, {unknown[0]}", "nothing this form knows", f"one of {', '.join(PARTS)}")
    jobs = _named(parts.get("jobs", {}), f"{where}, jobs", _number)
    causes = _named(parts.get("causes", {}), f"{where}, causes", lambda value, at: _named(value, at, _number))
    results = _named(
        parts.get("results", {}),
        f"{where}, results",
        lambda rows, at: _named(rows, at, lambda row, inside: _named(row, inside, _number)),
    )
    for complaint, told in causes.items():
        if sum(told.values()) > jobs.get(complaint, 0.0) + ROUNDING:
            raise _refusal(
                f"{where}, causes, {complaint}",
                f"{sum(told.values()):g} jobs in all",
                f"no more than the {jobs.get(complaint, 0.0):g} jobs of that complaint",
            )
    return Counts(
        jobs=jobs,
        causes={(complaint, cause): number for complaint, told in causes.items() for cause, number in told.items()},
        results={
            (check, cause, result): number
            for check, rows in results.items()
            for cause, row in rows.items()
            for result, number in row.items()
        },
        minutes=_named(parts.get("minutes", {}), f"{where}, minutes", _log_sums),
    )


def _named(value: Any, where: str, read: Callable[[Any, str], Any]) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise _refusal(where, _short(value), "a group in braces, a name and a value each")
    for name in value:
        if not NAME.fullmatch(name):
            raise _refusal(where, f"the name {_short(name)}", "a name of small letters, figures and hyphens")
    return {name: read(one, f"{where}, {name}") for name, one in value.items()}


def _number(value: Any, where: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value <= MOST_JOBS:
        raise _refusal(where, _short(value), f"a count from 0 to {MOST_JOBS:,.0f}")
    return float(value)


def _log_sums(value: Any, where: str) -> LogSums:
    told = _named(value, where, lambda one, _: one)
    if set(told) != {"count", "logs", "squares"}:
        raise _refusal(where, _short(value), "count, logs and squares")
    count = _number(told["count"], f"{where}, count")
    sums = []
    for name in ("logs", "squares"):
        one = told[name]
        if isinstance(one, bool) or not isinstance(one, int | float) or not abs(one) <= 100 * MOST_JOBS:
            raise _refusal(f"{where}, {name}", _short(one), "a sum of logarithms")
        sums.append(float(one))
    logs, squares = sums
    if (
        not count
        or squares * count < logs * logs * (1 - ROUNDING) - ROUNDING
        or abs(logs / count) > math.log(MOST_JOBS)
    ):
        raise _refusal(where, _short(value), "sums that can come of so many times")
    return LogSums(count, logs, squares)


def _refusal(where: str, got: str, must: str) -> NotUnderstood:
    return NotUnderstood(
        f"The counts cannot be read: at “{where}” stands {got}; it must be {must}. Nothing was taken in; ask for the "
        "file again.",
        "file",
    )


def _short(value: Any) -> str:
    words = str(value)
    return f"“{words[:40]}…”" if len(words) > 40 else f"“{words}”"
