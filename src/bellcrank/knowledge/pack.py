"""The only reader of pack files: CSV and TOML into the frozen records of :mod:`bellcrank.knowledge.model`.

A new kind of machine is a folder below ``packs``; no code knows its name. What a file gets wrong is refused with file
and line; what files say of each other is looked at by :mod:`bellcrank.knowledge.checks`.
"""

import csv
import tomllib
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
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
from bellcrank.knowledge.line import Line
from bellcrank.knowledge.model import Cause, Check, Library, Likelihood, Pack, Repair
from bellcrank.knowledge.slip_tables import SlipTables

COMMON = "common"
ABOUT = "pack.toml"
ALL_CARDS = "-"  # a line of engine-cards.csv that holds for every card


def read_library(root: Traversable | None = None) -> Library:
    """Read every pack below ``root``, the program's own packs when none is given."""
    root = root or files("bellcrank.knowledge") / "packs"
    common = root / COMMON
    kinds = sorted((one for one in root.iterdir() if (one / ABOUT).is_file()), key=lambda folder: folder.name)
    packs = [_pack(folder) for folder in kinds]
    return Library(
        packs={pack.kind: pack for pack in packs},
        hazards={one.id: one for one in map(records.hazard, _named(common, "hazards.csv"))},
        release_items=tuple(map(records.release_item, _named(common, "release.csv"))),
        materials={one.key: one for one in map(records.material, _named(common, "materials.csv", "key"))},
        screw_tables=_screw_tables(common),
        strength_classes=gather_classes(map(records.strength_range, _lines(common, "strength-classes.csv"))),
        drive_materials={
            one.key: one for one in map(records.drive_material, _named(common, "drive-materials.csv", "key"))
        },
        woodruff_keys=tuple(map(records.woodruff_key, _named(common, "woodruff-keys.csv", "key"))),
        parallel_keys=tuple(map(records.parallel_key, _lines(common, "parallel-keys.csv"))),
        operators=_operators(common),
        slip_tables=SlipTables(
            {card.id: folder for folder, pack in zip(kinds, packs, strict=True) for card in pack.engine_cards}
        ),
        sources={one.key: one for one in map(records.source, _named(common, "sources.csv", "key"))},
    )


def _operators(common: Traversable) -> Mapping[str, OperatorCard]:
    """Make the cards of those who pull; what a card does not say holds for all of them, card “-”."""
    values = _ranged_values(common, "operators.csv", "operator", OPERATOR_QUANTITIES)
    cards = {}
    for line in _named(common, "operator-names.csv", "operator"):
        name = line.words("operator")
        known = _complete(values[ALL_CARDS] | values[name], OPERATOR_QUANTITIES, f"operators.csv: “{name}”")
        cards[name] = OperatorCard(name, line.words("words"), **known)
    return cards


def _screw_tables(common: Traversable) -> ScrewTables:
    make = screw_records
    return ScrewTables(
        frictions={one.key: one for one in map(make.spread, _named(common, "friction.csv", "key"))},
        nut_factors={one.key: one for one in map(make.spread, _named(common, "nut-factors.csv", "key"))},
        twist_shares={one.strength: one for one in map(make.twist_share, _named(common, "twist-off.csv", "strength"))},
        engagement_rules={one.key: one for one in map(make.engagement_rule, _named(common, "engagement.csv", "key"))},
        locking_nuts=tuple(map(make.locking_nut, _named(common, "locking-nuts.csv", "thread"))),
        shoulder_screws=tuple(map(make.shoulder_screw, _named(common, "shoulder-screws.csv", "shoulder_mm"))),
        forming_screws=tuple(map(make.forming_screw, _named(common, "forming-screws.csv", "thread"))),
        sheet_screws={one.size: one for one in map(make.sheet_screw, _named(common, "sheet-screws.csv", "size"))},
        boss_rules={one.key: one for one in map(make.boss_rule, _named(common, "plastic-bosses.csv", "key"))},
        plastic_screws={one.size: one for one in map(make.plastic_screw, _named(common, "plastic-screws.csv", "size"))},
        keyed_inserts=tuple(map(make.keyed_insert, _named(common, "keyed-inserts.csv", "thread"))),
        expansions={one.key: one for one in map(make.expansion, _named(common, "expansions.csv", "key"))},
    )


def _pack(folder: Traversable) -> Pack:
    about = _toml(folder, ABOUT)
    convention = about.get("leak_convention")
    if convention != "net":
        raise KnowledgeFault(
            f'{folder.name}/{ABOUT}: leak_convention is “{convention}”; it must be "net" (a row says what a cause does '
            "alone, without what a sound machine shows anyway). Convert the likelihoods."
        )
    try:
        return Pack(
            kind=about["kind"],
            words=about["words"],
            complaints=tuple(map(records.complaint, _named(folder, "complaints.csv"))),
            causes=_causes(folder),
            links=tuple(map(records.link, _lines(folder, "links.csv"))),
            checks=_checks(folder),
            accesses=tuple(map(records.access, _named(folder, "access.csv"))),
            repairs=_repairs(folder),
            assemblies=_assemblies(folder),
            engine_cards=_engine_cards(folder, about["engine_card"]),
            given=tuple(map(records.given_likelihood, _lines(folder, "likelihoods-given.csv"))),
            fault_scale=float(about["fault_scale"]),
            start_check_minutes=float(about["start_check_minutes"]),
            give_up_minutes=float(about["give_up_minutes"]),
            minutes_per_price=float(about["minutes_per_price"]),
        )
    except KeyError as missing:
        raise KnowledgeFault(f"{folder.name}/{ABOUT}: “{missing.args[0]}” is missing. Write it in.") from None


def _engine_cards(folder: Traversable, named: Sequence[Mapping[str, str]]) -> tuple[EngineCard, ...]:
    """Make the engine cards; what a card does not say holds for all of them, card “-”."""
    values = _ranged_values(folder, "engine-cards.csv", "card", QUANTITIES)
    unknown = set(values) - {ALL_CARDS} - {card["id"] for card in named}
    if unknown:
        raise KnowledgeFault(
            f"{folder.name}/engine-cards.csv: there is no engine card “{min(unknown)}”. Name it first."
        )
    where = f"{folder.name}/engine-cards.csv: "
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
    for line in _lines(folder, file):
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


def _causes(folder: Traversable) -> tuple[Cause, ...]:
    lines = _named(folder, "causes.csv")
    shares: dict[str, dict[str, float]] = defaultdict(dict)
    for line in _belonging(folder, "shares.csv", "cause", lines):
        told = shares[line.words("cause")]
        if line.words("complaint") in told:
            raise line.fault(f"“{line.words('cause')}” has a share of “{line.words('complaint')}” already. Keep one.")
        told[line.words("complaint")] = line.amount("percent") / 100
    return tuple(records.cause(line, shares[line.words("id")]) for line in lines)


def _checks(folder: Traversable) -> tuple[Check, ...]:
    lines = _named(folder, "checks.csv")
    results = defaultdict(list)
    for line in _belonging(folder, "results.csv", "check", lines):
        results[line.words("check")].append(records.result(line))
    rows: dict[str, list[Likelihood]] = defaultdict(list)
    for line in _belonging(folder, "likelihoods.csv", "check", lines):
        row = records.likelihood(line)
        if any(row.cause == other.cause for other in rows[row.check]):
            raise line.fault(f"“{row.check}” has a row for “{row.cause}” already. Keep one.")
        rows[row.check].append(row)
    return tuple(records.check(line, results[line.words("id")], rows[line.words("id")]) for line in lines)


def _repairs(folder: Traversable) -> tuple[Repair, ...]:
    lines = _named(folder, "repairs.csv")
    parts = defaultdict(list)
    for line in _belonging(folder, "repair-parts.csv", "repair", lines):
        parts[line.words("repair")].append(records.repair_part(line))
    return tuple(records.repair(line, parts[line.words("id")]) for line in lines)


def _assemblies(folder: Traversable) -> tuple[Assembly, ...]:
    names = sorted(one.name for one in folder.iterdir() if one.name.startswith("assembly-"))
    return tuple(assembly(f"{folder.name}/{name}", _toml(folder, name)) for name in names)


def _named(folder: Traversable, name: str, key: str = "id") -> list[Line]:
    """Read a table in which every line has a name of its own."""
    lines = _lines(folder, name)
    seen: dict[str, int] = {}
    for line in lines:
        first = seen.setdefault(line.words(key), line.number)
        if first != line.number:
            raise line.fault(f"“{line.words(key)}” stands in line {first} already. Give it another name.")
    return lines


def _belonging(folder: Traversable, name: str, column: str, owners: Iterable[Line]) -> list[Line]:
    """Read a table whose lines each belong to a line of another table."""
    known = {owner.words("id") for owner in owners}
    lines = _lines(folder, name)
    for line in lines:
        if line.words(column) not in known:
            raise line.fault(f"there is no {column} “{line.words(column)}”. Mend the name.")
    return lines


def _lines(folder: Traversable, name: str) -> list[Line]:
    file = f"{folder.name}/{name}"
    reader = csv.reader(_text(folder, name).splitlines(keepends=True), strict=True)
    try:
        heading: Sequence[str] = next(reader, [])
        lines = []
        for cells in reader:
            if cells and len(cells) != len(heading):
                raise KnowledgeFault(
                    f"{file}, line {reader.line_num}: it has {len(cells)} cells, the heading has {len(heading)}. "
                    "Mend the line; words with a comma stand in quotes."
                )
            if cells:
                lines.append(Line(file, reader.line_num, dict(zip(heading, cells, strict=True))))
    except csv.Error as wrong:
        raise KnowledgeFault(f"{file}, line {reader.line_num}: it cannot be read ({wrong}). Mend the quotes.") from None
    return lines


def _toml(folder: Traversable, name: str) -> dict[str, Any]:
    try:
        return tomllib.loads(_text(folder, name))
    except tomllib.TOMLDecodeError as wrong:
        raise KnowledgeFault(f"{folder.name}/{name}: it cannot be read ({wrong}). Mend the file.") from None


def _text(folder: Traversable, name: str) -> str:
    try:
        return (folder / name).read_text(encoding="utf-8")
    except FileNotFoundError:
        raise KnowledgeFault(f"{folder.name}/{name}: there is no such file. Put it there.") from None
    except UnicodeDecodeError:
        raise KnowledgeFault(f"{folder.name}/{name}: it is not written in UTF-8. Save it as UTF-8.") from None
