"""What else could be done at each either-or of a way in, and what it would take."""

from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.knowledge.assembly import Assembly, Operation
from bellcrank.shop.machine_model import assemblies_for, conditions_for
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import read_record
from bellcrank.shop.tools import ToolTerms, tool_terms, where_to_get
from bellcrank.shop.words import minutes, part_words
from bellcrank.shop.work import IN, barred_on, no_way_yet, ruled_out_for, way_of
from bellcrank.shop.work_sheet import OtherWay
from bellcrank.teardown.alternatives import Alternative, Choice, alternatives
from bellcrank.teardown.changeover import UPRIGHT
from bellcrank.teardown.steps import QuickerWith, WayIn
from bellcrank.teardown.way_in import way_in

SAME = 0.05  # [min] closer than this two ways are told as equally long


@dataclass(frozen=True, slots=True)
class OtherWays:
    """The other choices of a job's way in, from where it stands now."""

    number: int
    targets: tuple[str, ...]
    target_words: str
    minutes: float  # that the way in still takes [min]
    left_out: tuple[str, ...]  # steps left out on purpose, in words
    barred: tuple[str, ...]  # their names
    lines: tuple[OtherWay, ...]
    quicker: str  # what a tool that is not here would save, "" when none would


def other_ways(shop: Shop, number: int) -> OtherWays:
    """Plan the rest of a job's way in anew with every other choice."""
    job = read_record(shop, number)
    assemblies = assemblies_for(shop, job)
    way = way_of(job, assemblies)
    if way is None:
        raise no_way_yet(number)
    barred = barred_on(job)
    out = ruled_out_for(shop, way.assembly, barred, conditions_for(shop, job))
    lying = way.lies[way.off[-1]] if way.off else UPRIGHT
    done = frozenset(name for name in way.order if (IN, name) in way.done)
    plan = way_in(way.assembly, way.targets, already_done=done, lies=lying, ruled_out=out)
    others = alternatives(way.assembly, plan, lies=lying, ruled_out=out)
    return OtherWays(
        number=number,
        targets=way.targets,
        target_words=part_words(way.targets),
        minutes=plan.minutes,
        left_out=tuple(_words(way.assembly, Choice(*_named(name), "")) for name in barred),
        barred=barred,
        lines=other_lines(way.assembly, others),
        quicker=quicker_words(plan.quicker_with, shop, tool_terms(shop)),
    )


def other_lines(assembly: Assembly, others: Iterable[Alternative]) -> tuple[OtherWay, ...]:
    """Put the other choices of a plan in words, the quickest first."""
    return tuple(
        OtherWay(
            used=_words(assembly, one.used, beside=one.instead),
            instead=_words(assembly, one.instead, beside=one.used),
            more=one.more,
            says=_says(one),
            barred=tuple(sorted(one.barred)),
        )
        for one in others
    )


def quicker_words(quicker: QuickerWith | None, shop: Shop, terms: ToolTerms) -> str:
    """Say what tools that are not here would save; "" when they would save nothing to speak of."""
    if quicker is None or quicker.saves < SAME:
        return ""
    tools = [shop.library.tools[name] for name in quicker.tools]
    named = " and ".join(one.words for one in tools)
    return f"With {named} it would take {minutes(quicker.saves)} less. {where_to_get(tools, terms)}"


def lacking_words(plan: WayIn) -> str:
    """Say which tools that are not here the way cannot do without; "" when none."""
    return f"It cannot be done without {' and '.join(plan.lacking)}." if plan.lacking else ""


def _says(one: Alternative) -> str:
    if one.more is None:
        return one.why_not
    takes = [f"takes {', '.join(one.tools)}"] if one.tools else []
    spares = [f"spares {', '.join(one.spared)}"] if one.spared else []
    longer = (
        "as long" if abs(one.more) < SAME else f"{minutes(abs(one.more))} {'longer' if one.more > 0 else 'shorter'}"
    )
    return "; ".join((longer, *takes, *spares))


def _named(name: str) -> tuple[str, str]:
    step, _, method = name.partition(":")
    return step, method


def _words(assembly: Assembly, choice: Choice, beside: Choice | None = None) -> str:
    """Name a choice: beside another way of the same step by how it is done, else by what is done."""
    operation = next(one for one in assembly.operations if one.id == choice.step)
    if beside is not None and beside.step != choice.step:
        return choice.words
    return f"{_part(operation)}: {_way(operation, choice.method)}"


def _part(operation: Operation) -> str:
    return operation.part.replace("-", " ")


def _way(operation: Operation, method: str) -> str:
    return next((one.words for one in operation.methods if one.id == method), operation.words or "the usual way")
