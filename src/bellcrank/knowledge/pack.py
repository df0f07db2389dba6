"""The only reader of pack files: CSV and TOML into the frozen records of :mod:`bellcrank.knowledge.model`.

A new kind of machine is a folder below ``packs``; no code knows its name. What a file gets wrong is refused with file
and line; what files say of each other is looked at by :mod:`bellcrank.knowledge.checks`.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from bellcrank.engine.card import OPERATOR_QUANTITIES, QUANTITIES, EngineCard, OperatorCard, Ranged
from bellcrank.errors import KnowledgeFault
from bellcrank.fastening.screw_tables import ScrewTables
from bellcrank.fastening.strength import gather_classes
from bellcrank.knowledge import records, screw_records
from bellcrank.knowledge.assembly import Assembly
from bellcrank.knowledge.assembly_text import assembly
from bellcrank.knowledge.gauge_table import gauge_table
from bellcrank.knowledge.joined_assembly import joined
from bellcrank.knowledge.kind_tables import KindTables, Systems, kind_tables, read_systems
from bellcrank.knowledge.model import Cause, Check, Library, Likelihood, Pack, Repair
from bellcrank.knowledge.slip_tables import SlipTables
from bellcrank.knowledge.tables import folders_in, read_lines, read_named, read_toml
from bellcrank.knowledge.tools import tool

COMMON = "common"
ABOUT = "pack.toml"
CARDS = "engine-cards.csv"
ALL_CARDS = "-"  # a line of engine-cards.csv that holds for every card


def read_library(root: Traversable | None = None) -> Library:
    """Read every pack below ``root``, the program's own packs when none is given."""
    root = root or files("bellcrank.knowledge") / "packs"
    common = root / COMMON
    kinds = [(one, read_toml(one, ABOUT)) for one in folders_in(root) if (one / ABOUT).is_file()]
    systems = read_systems(root, [folder for folder, _ in kinds])
    kinds.sort(key=lambda kind: kind[1].get("stands_first") is not True)
    packs = [_pack(folder, about, systems) for folder, about in kinds]
    return Library(
        packs={pack.kind: pack for pack in packs},
        hazards={one.id: one for one in map(records.hazard, read_named(common, "hazards.csv"))},
        release_items=tuple(map(records.release_item, read_named(common, "release.csv"))),
        materials={one.key: one for one in map(records.material, read_named(common, "materials.csv", "key"))},
        screw_tables=_screw_tables(common),
        strength_classes=gather_classes(map(records.strength_range, read_lines(common, "strength-classes.csv"))),
        drive_materials={
            one.key: one for one in map(records.drive_material, read_named(common, "drive-materials.csv", "key"))
        },
        woodruff_keys=tuple(map(records.woodruff_key, read_named(common, "woodruff-keys.csv", "key"))),
        parallel_keys=tuple(map(records.parallel_key, read_lines(common, "parallel-keys.csv"))),
        operators=_operators(common),
        slip_tables=SlipTables(
            {card.id: folder for (folder, _), pack in zip(kinds, packs, strict=True) for card in pack.engine_cards}
        ),
        tools={one.id: one for one in map(tool, read_named(common, "tools.csv"))},
        sources={one.key: one for one in map(records.source, read_named(common, "sources.csv", "key"))},
    )


def _operators(common: Traversable) -> Mapping[str, OperatorCard]:
    """Make the cards of those who pull; what a card does not say holds for all of them, card “-”."""
    values = _ranged_values(common, "operators.csv", "operator", OPERATOR_QUANTITIES)
    cards = {}
    for line in read_named(common, "operator-names.csv", "operator"):
        name = line.words("operator")
        known = _complete(values[ALL_CARDS] | values[name], OPERATOR_QUANTITIES, f"operators.csv: “{name}”")
        cards[name] = OperatorCard(name, line.words("words"), **known)
    return cards


def _screw_tables(common: Traversable) -> ScrewTables:
    make = screw_records
    return ScrewTables(
        frictions={one.key: one for one in map(make.spread, read_named(common, "friction.csv", "key"))},
        nut_factors={one.key: one for one in map(make.spread, read_named(common, "nut-factors.csv", "key"))},
        twist_shares={
            one.strength: one for one in map(make.twist_share, read_named(common, "twist-off.csv", "strength"))
        },
        engagement_rules={
            one.key: one for one in map(make.engagement_rule, read_named(common, "engagement.csv", "key"))
        },
        locking_nuts=tuple(map(make.locking_nut, read_named(common, "locking-nuts.csv", "thread"))),
        shoulder_screws=tuple(map(make.shoulder_screw, read_named(common, "shoulder-screws.csv", "shoulder_mm"))),
        forming_screws=tuple(map(make.forming_screw, read_named(common, "forming-screws.csv", "thread"))),
        sheet_screws={one.size: one for one in map(make.sheet_screw, read_named(common, "sheet-screws.csv", "size"))},
        boss_rules={one.key: one for one in map(make.boss_rule, read_named(common, "plastic-bosses.csv", "key"))},
        plastic_screws={
            one.size: one for one in map(make.plastic_screw, read_named(common, "plastic-screws.csv", "size"))
        },
        keyed_inserts=tuple(map(make.keyed_insert, read_named(common, "keyed-inserts.csv", "thread"))),
        expansions={one.key: one for one in map(make.expansion, read_named(common, "expansions.csv", "key"))},
    )


def _pack(folder: Traversable, about: Mapping[str, Any], systems: Systems) -> Pack:
    convention = about.get("leak_convention")
    if convention != "net":
        raise KnowledgeFault(
            f'{folder.name}/{ABOUT}: leak_convention is “{convention}”; it must be "net" (a row says what a cause does '
            "alone, without what a sound machine shows anyway). Convert the likelihoods."
        )
    tables = kind_tables(folder, about, systems)
    try:
        return Pack(
            kind=about["kind"],
            words=about["words"],
            complaints=tuple(map(records.complaint, tables.lines("complaints.csv"))),
            causes=_causes(tables),
            links=tuple(map(records.link, tables.lines("links.csv"))),
            checks=_checks(tables),
            accesses=tuple(map(records.access, tables.lines("access.csv"))),
            repairs=_repairs(tables),
            assemblies=_assemblies(folder, systems),
            engine_cards=_engine_cards(folder, about.get("engine_card", ())),
            given=tuple(map(records.given_likelihood, tables.lines("likelihoods-given.csv"))),
            gauge=gauge_table(tables.lines("gauge-readings.csv")),
            fault_scale=float(about["fault_scale"]),
            start_check_minutes=float(about["start_check_minutes"]),
            give_up_minutes=float(about["give_up_minutes"]),
            minutes_per_price=float(about["minutes_per_price"]),
            places=tables.places(),
        )
    except KeyError as missing:
        raise KnowledgeFault(f"{folder.name}/{ABOUT}: “{missing.args[0]}” is missing. Write it in.") from None


def _engine_cards(folder: Traversable, named: Sequence[Mapping[str, str]]) -> tuple[EngineCard, ...]:
    """Make the engine cards; what a card does not say holds for all of them, card “-”. A kind needs none."""
    if not named and not (folder / CARDS).is_file():
        return ()
    values = _ranged_values(folder, CARDS, "card", QUANTITIES)
    unknown = set(values) - {ALL_CARDS} - {card["id"] for card in named}
    if unknown:
        raise KnowledgeFault(f"{folder.name}/{CARDS}: there is no engine card “{min(unknown)}”. Name it first.")
    where = f"{folder.name}/{CARDS}: "
    return tuple(
        EngineCard(
            card["id"],
            card["words"],
            **_complete(values[ALL_CARDS] | values[card["id"]], QUANTITIES, f"{where}“{card['id']}”"),
        )
        for card in named
    )


def _ranged_values(
    folder: Traversable, file: str, whose: str, quantities: Sequence[str]
) -> Mapping[str, dict[str, Ranged]]:
    values: dict[str, dict[str, Ranged]] = defaultdict(dict)
    for line in read_lines(folder, file):
        quantity = line.words("quantity")
        if quantity in values[line.words(whose)] or quantity not in quantities:
            raise line.fault(f"“{quantity}” stands there twice or is nothing a card holds. Mend it.")
        values[line.words(whose)][quantity] = records.ranged(line)
    return values


def _complete(known: dict[str, Ranged], quantities: Sequence[str], where: str) -> dict[str, Ranged]:
    missing = [name for name in quantities if name not in known]
    if missing:
        raise KnowledgeFault(f"{where} has no “{missing[0]}”. Write it in.")
    return known


def _causes(tables: KindTables) -> tuple[Cause, ...]:
    shares: dict[str, dict[str, float]] = defaultdict(dict)
    for line in tables.belonging("shares.csv", "cause"):
        shares[line.words("cause")][line.words("complaint")] = line.amount("percent") / 100
    return tuple(records.cause(line, shares[line.words("id")]) for line in tables.lines("causes.csv"))


def _checks(tables: KindTables) -> tuple[Check, ...]:
    results = defaultdict(list)
    for line in tables.belonging("results.csv", "check"):
        made = records.result(line)
        results[line.words("check")].append(replace(made, lifts=tables.only_known(made.lifts, "checks.csv", line)))
    rows: dict[str, list[Likelihood]] = defaultdict(list)
    for line in tables.belonging("likelihoods.csv", "check"):
        rows[line.words("check")].append(records.likelihood(line))
    scales = {line.words("check"): records.scale_of(line) for line in tables.belonging("scales.csv", "check")}
    return tuple(
        replace(records.check(line, results[name], rows[name]), scale=scales.get(name))
        for line in tables.lines("checks.csv")
        for name in (line.words("id"),)
    )


def _repairs(tables: KindTables) -> tuple[Repair, ...]:
    parts = defaultdict(list)
    for line in tables.belonging("repair-parts.csv", "repair"):
        parts[line.words("repair")].append(records.repair_part(line))
    made = []
    for line in tables.lines("repairs.csv"):
        repair = records.repair(line, parts[line.words("id")])
        fixes = tables.only_known(repair.fixes, "causes.csv", line)
        made.append(replace(repair, fixes={cause: repair.fixes[cause] for cause in fixes}))
    return tuple(made)


def _assemblies(folder: Traversable, systems: Systems) -> tuple[Assembly, ...]:
    names = sorted(one.name for one in folder.iterdir() if one.name.startswith("assembly-"))
    texts = [(f"{folder.name}/{name}", read_toml(folder, name)) for name in names]
    return tuple(assembly(file, joined(file, text, systems.assemblies)) for file, text in texts)
