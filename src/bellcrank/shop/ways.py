"""The way in to parts of a kind of machine, planned without a job: what comes off, in which order, with which tools."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bellcrank.shop.fill_work import fastener_line
from bellcrank.shop.intake import pack_at_the_door
from bellcrank.shop.machine_model import pack_of_kind
from bellcrank.shop.other_ways import lacking_words, other_lines, quicker_words
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import read_settings
from bellcrank.shop.step_lines import fetch_lines, lines_in
from bellcrank.shop.tools import tool_terms
from bellcrank.shop.words import part_words
from bellcrank.shop.work import assembly_with
from bellcrank.shop.work_sheet import FetchLine, OtherWay, StepLine
from bellcrank.teardown.alternatives import alternatives
from bellcrank.teardown.ruled_out import RuledOut
from bellcrank.teardown.search import USUAL, Effort
from bellcrank.teardown.way_in import way_in


@dataclass(frozen=True, slots=True)
class WayInSheet:
    """The least-time way in to some parts of a kind of machine."""

    kind: str
    targets: tuple[str, ...]
    target_words: str
    steps: tuple[StepLine, ...]
    minutes: float  # work and changeovers [min]
    work_minutes: float
    changeover_minutes: float
    proven: bool  # no legal way in takes less
    bound: float  # no legal way in takes less than this [min]
    fetch: tuple[FetchLine, ...]
    lacking: str  # tools not here that it cannot be done without, in words; "" when none
    quicker: str  # what a tool that is not here would save, "" when none would
    others: tuple[OtherWay, ...]  # the other choices, the quickest first
    torque_unit: str


def parts_of(shop: Shop, kind: str) -> tuple[str, ...]:
    """Name the parts a way in can lead to on a kind of machine, as in an index."""
    pack = pack_of_kind(shop, pack_at_the_door(shop, kind).kind)
    return tuple(sorted({part for assembly in pack.assemblies for part in assembly.targets}))


def way_in_to(
    shop: Shop,
    kind: str,
    targets: Iterable[str],
    barred: Iterable[str] = (),
    conditions: Mapping[str, frozenset[str]] | None = None,
    effort: Effort = USUAL,
) -> WayInSheet:
    """Plan the way in to parts of a kind of machine as this shop knows it.

    ``barred`` names steps to do without, or one way of a step (``"blade-bolt-out:impact"``; nothing after the colon is
    the usual way); ``conditions`` what was found at a step, of ``CONDITIONS``; ``effort`` how long to look for a
    shorter way.
    """
    pack, library = pack_at_the_door(shop, kind), shop.library
    assembly, named = assembly_with(pack_of_kind(shop, pack.kind).assemblies, tuple(targets))
    terms = tool_terms(shop)
    out = RuledOut(frozenset(barred), conditions or {}, terms.missing)
    plan = way_in(assembly, named, ruled_out=out, effort=effort)
    unit = read_settings(shop).torque_unit
    fasteners = {one.id: fastener_line(one, library, None, unit) for step in plan.steps for one in step.fasteners}
    return WayInSheet(
        kind=pack.kind,
        targets=named,
        target_words=part_words(named),
        steps=lines_in(assembly, plan.steps, fasteners, library),
        minutes=plan.minutes,
        work_minutes=plan.work_minutes,
        changeover_minutes=plan.changeover_minutes,
        proven=plan.proven,
        bound=plan.bound,
        fetch=fetch_lines(plan.tools, library.tools, terms),
        lacking=lacking_words(plan),
        quicker=quicker_words(plan.quicker_with, shop, terms),
        others=other_lines(assembly, alternatives(assembly, plan, ruled_out=out)),
        torque_unit=unit,
    )
