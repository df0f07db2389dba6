"""Own causes and checks as typed, read into records; what is left empty is filled in by a plain rule."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from bellcrank.errors import NotFound, NotUnderstood, OutOfRange
from bellcrank.knowledge.model import Hazard, Pack
from bellcrank.knowledge.own import HOW_WELL, OTHER_SYSTEM, OwnCause, OwnCheck, OwnResult, Shows, short_name
from bellcrank.shop.texts import amount, clean_line

REPAIR_MINUTES, CHECK_MINUTES = 15.0, 3.0  # [min] where nothing is typed; guess
MOST_MINUTES = 600  # [min] a day's work
MOST_WORDS = 120  # [letters] a few words, not a story
RESULTS = ("no", "yes")
FEWEST_RESULTS, MOST_RESULTS = 2, 6
EVENT_SYSTEM = "event"


@dataclass(frozen=True, slots=True)
class CauseTyped:
    """What was typed of an own cause."""

    words: str
    system: str = ""
    minutes: str = ""
    access: Sequence[str] = ()
    repair_words: str = ""
    price: str = ""


@dataclass(frozen=True, slots=True)
class ShowsTyped:
    """What was typed of a cause that an own check shows."""

    cause: str
    how_well: str = ""  # often, where nothing is said
    result: str = ""  # its words or its place, 1 for the first; the last, where nothing is said


@dataclass(frozen=True, slots=True)
class CheckTyped:
    """What was typed of an own check."""

    words: str
    minutes: str = ""
    results: Sequence[str] = ()
    tools: str = ""  # parted by commas
    access: Sequence[str] = ()
    shows: Sequence[ShowsTyped] = ()
    runs_engine: bool = False
    hazards: Sequence[str] = ()


def cause_as_typed(body: Mapping[str, Any]) -> CauseTyped:
    """Give what would have to be typed for a cause as it is kept."""
    plain = {name: body[name] for name in ("words", "system", "repair_words", "price")}
    return CauseTyped(**plain, minutes=f"{body['minutes']:g}", access=tuple(body["access"]))


def check_as_typed(body: Mapping[str, Any]) -> CheckTyped:
    """Give what would have to be typed for a check as it is kept."""
    return CheckTyped(
        words=body["words"],
        minutes=f"{body['minutes']:g}",
        results=tuple(one["words"] for one in body["results"]),
        tools=", ".join(body["tools"]),
        access=tuple(body["access"]),
        shows=tuple(ShowsTyped(one["cause"], one["how_well"], one["result"]) for one in body["shows"]),
        runs_engine=body["runs_engine"],
        hazards=tuple(body["hazards"]),
    )


def read_cause(
    typed: CauseTyped, pack: Pack, name: str, complaints: tuple[str, ...], explains: tuple[tuple[str, str], ...]
) -> OwnCause:
    """Read an own cause."""
    words = _words(typed.words, "What it was", "words")
    price = amount(typed.price, "What it costs", field="price") if typed.price.strip() else 0
    mend = clean_line(typed.repair_words, "What is done about it", longest=MOST_WORDS, field="repair_words")
    return OwnCause(
        id=name,
        words=words,
        system=_system(typed.system, pack),
        complaints=complaints,
        explains=explains,
        access=_access(typed.access, pack),
        repair_words=mend or f"Put right: {words}",
        minutes=_minutes(typed.minutes, "The repair", REPAIR_MINUTES),
        price=f"{price:.2f}" if price else "",
    )


def read_check(
    typed: CheckTyped, pack: Pack, hazards: Mapping[str, Hazard], name: str, before: OwnCheck | None = None
) -> OwnCheck:
    """Read an own check; one that is changed keeps the names of its results, for jobs have recorded them."""
    results = _results(typed.results, before)
    return OwnCheck(
        id=name,
        words=_words(typed.words, "What is looked at", "words"),
        minutes=_minutes(typed.minutes, "The check", CHECK_MINUTES),
        results=results,
        tools=_tools(typed.tools),
        access=_access(typed.access, pack),
        shows=_shows(typed.shows, pack, results),
        runs_engine=typed.runs_engine,
        hazards=_known(typed.hazards, hazards, "caution", "hazards"),
    )


def systems_of(pack: Pack) -> tuple[str, ...]:
    """Give the systems a cause can belong to."""
    there = dict.fromkeys(cause.system for cause in pack.causes if cause.system not in (EVENT_SYSTEM, OTHER_SYSTEM))
    return (*there, OTHER_SYSTEM)


def _system(typed: str, pack: Pack) -> str:
    system = typed.strip() or OTHER_SYSTEM
    return _known((system,), systems_of(pack), "system", "system")[0]


def _access(typed: Iterable[str], pack: Pack) -> tuple[str, ...]:
    return _known(typed, {one.id for one in pack.accesses}, "thing to open", "access")


def _known(typed: Iterable[str], known: Iterable[str], what: str, field: str) -> tuple[str, ...]:
    there = tuple(known)
    for one in typed:
        if one not in there:
            raise NotFound(f"There is no {what} “{one}”. It must be one of {', '.join(sorted(there))}.", field)
    return tuple(dict.fromkeys(typed))


def _words(typed: str, what: str, field: str) -> str:
    words = clean_line(typed, what, longest=MOST_WORDS, field=field)
    if not any(letter.isalnum() for letter in words):
        raise NotUnderstood(f"{what} is empty. Type it in a few words, like “mouse nest under the shroud”.", field)
    return words


def _minutes(typed: str, what: str, usual: float) -> float:
    if not typed.strip():
        return usual
    minutes = amount(re.sub(r"\s*min(utes)?\.?$", "", typed.strip()), f"{what}, minutes", field="minutes")
    if not 0 < minutes <= MOST_MINUTES:
        raise OutOfRange(
            f"{what} takes {typed.strip()} min; it must be above 0, at most {MOST_MINUTES}. Type the minutes of work.",
            "minutes",
        )
    return float(minutes)


def _tools(typed: str) -> tuple[str, ...]:
    named = clean_line(typed, "What is fetched", field="tools")
    return tuple(dict.fromkeys(filter(None, (one.strip() for one in re.split(r"[,;]", named)))))


def _results(typed: Sequence[str], before: OwnCheck | None) -> tuple[OwnResult, ...]:
    words = [clean_line(one, "A result", longest=MOST_WORDS, field="results") for one in typed]
    words = [one for one in words if one] or list(RESULTS)
    if not FEWEST_RESULTS <= len(words) <= MOST_RESULTS:
        raise OutOfRange(
            f"The check has {len(words)} results; it must have {FEWEST_RESULTS} to {MOST_RESULTS}. Name first what a "
            "sound machine shows.",
            "results",
        )
    kept = before.results if before else ()
    if len(words) < len(kept):
        raise OutOfRange(
            f"The check has {len(kept)} results, jobs may have recorded any; {len(words)} are too few. Change the "
            "words, or take the check back and make another.",
            "results",
        )
    names = [one.id for one in kept]
    for one in words[len(kept) :]:
        names.append(_free(short_name(one) or "result", names))
    if len({one.casefold() for one in words}) != len(words):
        raise NotUnderstood("Two results are called the same. Give each its own words.", "results")
    return tuple(OwnResult(name, one) for name, one in zip(names, words, strict=True))


def _free(name: str, taken: Sequence[str]) -> str:
    free = "not-sure-either" if name == "not-sure" else name
    return next(one for one in (free, *(f"{free}-{n}" for n in range(2, 2 + MOST_RESULTS))) if one not in taken)


def _shows(typed: Iterable[ShowsTyped], pack: Pack, results: tuple[OwnResult, ...]) -> tuple[Shows, ...]:
    made: dict[str, Shows] = {}
    for one in typed:
        _known((one.cause,), {cause.id for cause in pack.causes}, "cause", "shows")
        how_well = one.how_well.replace("-", " ").strip() or "often"
        _known((how_well,), HOW_WELL, "word for how well it shows", "shows")
        made[one.cause] = Shows(one.cause, how_well, _shown_as(one.result.strip(), results))
    if not made:
        raise NotUnderstood(
            "The check shows no cause, so it could never come up. Name at least one cause it shows, and how well.",
            "shows",
        )
    return tuple(made.values())


def _shown_as(typed: str, results: tuple[OwnResult, ...]) -> str:
    if not typed:
        return results[-1].id
    if typed.isdecimal() and 1 < int(typed) <= len(results):
        return results[int(typed) - 1].id
    found = next((one.id for one in results[1:] if typed.casefold() in (one.id, one.words.casefold())), None)
    if found is None:
        there = ", ".join(one.words for one in results[1:])
        raise NotFound(f"A cause cannot show as “{typed}”. It must be one of: {there}.", "shows")
    return found
