"""Which tools this shop has, and what is said of a step that takes one it has not."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from bellcrank.diagnosis.tools import Lacking
from bellcrank.errors import NotFound
from bellcrank.knowledge.model import Library, Tool
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import settings_from
from bellcrank.shop.storage.things import read_setting_rows, write_setting_rows
from bellcrank.shop.tool_sheet import LackingLine
from bellcrank.shop.words import minutes

SETTING = "tools_lacking"  # words parted by semicolons; a tool nobody said anything of is there
MINUTES_IN_HOUR = 60


@dataclass(frozen=True, slots=True)
class ToolTerms:
    """What a step with a lacking tool is judged by."""

    missing: frozenset[str]
    currency: str
    labour_rate: Decimal  # an hour, before tax


@dataclass(frozen=True, slots=True)
class ToolLine:
    """A tool that not every shop has."""

    id: str
    words: str
    here: bool
    price: str  # to start from, decimal text in the shop's currency
    lend: bool


def tool_terms(shop: Shop) -> ToolTerms:
    """Give what this shop lacks, and what an hour is worth."""
    return shop.answers.answer(("tools", shop.storage.mark()), lambda: _read_terms(shop))


def _read_terms(shop: Shop) -> ToolTerms:
    with shop.storage.reading() as connection:
        rows = read_setting_rows(connection)
    settings = settings_from(rows)
    return ToolTerms(_missing(rows.get(SETTING, "")), settings.currency, settings.labour_rate)


def tool_lines(shop: Shop) -> tuple[ToolLine, ...]:
    """Give the tools that not every shop has, those lacking among them, by their names."""
    missing = tool_terms(shop).missing
    return tuple(
        ToolLine(one.id, one.words, one.id not in missing, one.price, one.lend)
        for one in sorted(shop.library.tools.values(), key=lambda one: one.id)
        if not one.everyday
    )


def say_tool(shop: Shop, name: str, *, here: bool) -> None:
    """Keep whether this shop has a tool; said twice is said once."""
    known = shop.library.tools.get(name.strip())
    if known is None or known.everyday:
        there = ", ".join(sorted(one.id for one in shop.library.tools.values() if not one.everyday))
        why = "every shop has one" if known else "no check or repair takes it"
        raise NotFound(f"“{name}” is no tool to be asked for: {why}. It must be one of {there}.", "tool")
    with shop.storage.writing() as connection:
        missing = _missing(read_setting_rows(connection).get(SETTING, "")) - {known.id}
        kept = missing if here else missing | {known.id}
        write_setting_rows(connection, {SETTING: ";".join(sorted(kept))})


def keep_tools(shop: Shop, here: Iterable[str]) -> None:
    """Keep which of all the tools that not every shop has are here; the others are lacking."""
    asked = {one.id for one in shop.library.tools.values() if not one.everyday}
    with shop.storage.writing() as connection:
        write_setting_rows(connection, {SETTING: ";".join(sorted(asked.difference(here)))})


def lacking_line(lacking: Lacking | None, library: Library, terms: ToolTerms) -> LackingLine | None:
    """Put what a step lacks in words; None when it lacks nothing."""
    if lacking is None:
        return None
    tools = [library.tools[name] for name in lacking.tools]
    price = sum((Decimal(one.price) for one in tools), Decimal(0))
    return LackingLine(
        tools=lacking.tools,
        says=f"Takes {_named(tools)}, not in this shop. {where_to_get(tools, terms)}",
        price=f"{price:.2f}",
        lend=all(one.lend for one in tools),
        saves_minutes=lacking.saves,
        worth=_worth(lacking.saves, price, terms),
        instead_kind=lacking.instead.kind if lacking.instead else "",
        instead=lacking.instead.id if lacking.instead else "",
        instead_words=lacking.instead.words if lacking.instead else "",
    )


def where_to_get(tools: Sequence[Tool], terms: ToolTerms) -> str:
    """Say where tools that are not here come from, and what they cost about."""
    price = sum((Decimal(one.price) for one in tools), Decimal(0))
    get = "Borrow or hire, or buy from" if all(one.lend for one in tools) else "Buy from"
    return f"{get} about {price:.0f} {terms.currency}."


def _named(tools: Iterable[Tool]) -> str:
    *others, last = (one.words for one in tools)
    return f"{', '.join(others)} and {last}" if others else last


def _worth(saves: float, price: Decimal, terms: ToolTerms) -> str:
    """Hold the minutes a tool would save in this job against its price; "" when they are hardly any."""
    if not saves:
        return ""
    money = Decimal(round(saves)) * terms.labour_rate / MINUTES_IN_HOUR
    pays = " It pays for itself with this one." if money >= price else ""
    return f"It would save about {minutes(saves)} on this job, worth {money:.0f} {terms.currency}.{pays}"


def _missing(text: str) -> frozenset[str]:
    return frozenset(filter(None, text.split(";")))
