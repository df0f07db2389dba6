"""The only reader of pack files: CSV and TOML into the frozen records of :mod:`bellcrank.knowledge.model`.

A new kind of machine is a folder below ``packs``; no code knows its name.
"""

import csv
import tomllib
from collections.abc import Callable, Iterator, Mapping
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, TypeVar

from bellcrank.errors import KnowledgeFault
from bellcrank.fastening.strength import Material, StrengthRange, gather_classes
from bellcrank.knowledge.model import (
    Access,
    Assembly,
    Cause,
    Check,
    CheckKind,
    Complaint,
    EngineCard,
    Fastener,
    Hazard,
    Library,
    Likelihood,
    Link,
    Operation,
    Origin,
    Pack,
    ReleaseItem,
    Repair,
    RepairPart,
    Result,
    Severity,
    Signal,
)
from bellcrank.sources import Basis, Source, Status
from bellcrank.units import to_si

COMMON = "common"
LEAK_ROW = "-"
Record = TypeVar("Record")
Row = Mapping[str, str]


def read_library(root: Traversable | None = None) -> Library:
    """Read every pack below ``root``, the program's own packs when none is given."""
    root = root or files("bellcrank.knowledge") / "packs"
    common = root / COMMON
    kinds = sorted((f for f in root.iterdir() if f.is_dir() and (f / "pack.toml").is_file()), key=lambda f: f.name)
    packs = (_pack(folder) for folder in kinds)
    return Library(
        packs={pack.kind: pack for pack in packs},
        hazards={one.id: one for one in _records(common / "hazards.csv", _hazard)},
        release_items=tuple(_records(common / "release.csv", _release_item)),
        materials={one.key: one for one in _records(common / "materials.csv", _material)},
        strength_classes=gather_classes(_records(common / "strength-classes.csv", _strength)),
        sources={one.key: one for one in _records(common / "sources.csv", _source)},
    )


def _records(file: Traversable, make: Callable[[Row], Record]) -> Iterator[Record]:
    """Make a record of each line; what goes wrong is told with file and line."""
    with file.open(encoding="utf-8", newline="") as text:
        reader = csv.DictReader(text, strict=True)
        for row in reader:
            where = f"{file.name}, line {reader.line_num}"
            if None in row or None in row.values():
                raise KnowledgeFault(f"{where}: it must have {len(reader.fieldnames or ())} columns. Mend the line.")
            try:
                yield make(row)
            except KeyError as missing:
                raise KnowledgeFault(f"{where}: the column {missing} is missing. Add it to the heading.") from None
            except ValueError as wrong:
                raise KnowledgeFault(f"{where}: {wrong}. Mend the line.") from None


def _pack(folder: Traversable) -> Pack:
    about = _toml(folder / "pack.toml")
    if about.get("leak_convention") != "net":
        raise KnowledgeFault(
            f'{folder.name}/pack.toml: leak_convention is {about.get("leak_convention")!r}; it must be "net" (what a '
            "cause does alone, without the leak). Convert the likelihoods."
        )
    try:
        return Pack(
            kind=about["kind"],
            words=about["words"],
            complaints=tuple(_records(folder / "complaints.csv", _complaint)),
            causes=_causes(folder),
            links=tuple(_records(folder / "links.csv", _link)),
            checks=_checks(folder),
            accesses=tuple(_records(folder / "access.csv", _access)),
            repairs=_repairs(folder),
            assemblies=tuple(
                _assembly(file)
                for file in sorted(folder.iterdir(), key=lambda f: f.name)
                if file.name.startswith("assembly-")
            ),
            engine_cards=tuple(EngineCard(card["id"], card["words"]) for card in about.get("engine_card", [])),
            fault_scale=float(about["fault_scale"]),
            start_check_minutes=float(about["start_check_minutes"]),
            give_up_minutes=float(about["give_up_minutes"]),
        )
    except KeyError as missing:
        raise KnowledgeFault(f"{folder.name}/pack.toml: {missing} is missing. Add it.") from None


def _toml(file: Traversable) -> dict[str, Any]:
    try:
        return tomllib.loads(file.read_text(encoding="utf-8"))
    except tomllib.TOMLDecodeError as wrong:
        raise KnowledgeFault(f"{file.name}: {wrong}. Mend the file.") from None


def _causes(folder: Traversable) -> tuple[Cause, ...]:
    shares: dict[str, dict[str, float]] = {}
    for row in _records(folder / "shares.csv", dict):
        shares.setdefault(row["cause"], {})[row["complaint"]] = float(row["percent"]) / 100

    def cause(row: Row) -> Cause:
        return Cause(
            id=row["id"],
            words=row["words"],
            system=row["system"],
            severity=Severity(row["severity"]),
            prevalence=float(row["prevalence"]) if row["prevalence"] else None,
            shares=shares.pop(row["id"], {}),
            repair=row["repair"] or None,
            origin=_origin(row),
        )

    causes = tuple(_records(folder / "causes.csv", cause))
    if shares:
        raise KnowledgeFault(f"{folder.name}/shares.csv: there is no cause “{next(iter(shares))}”. Mend the name.")
    return causes


def _checks(folder: Traversable) -> tuple[Check, ...]:
    results: dict[str, list[Result]] = {}
    for row in _records(folder / "results.csv", dict):
        made = Result(row["id"], row["words"], row["says"], _yes(row["forbids_running"]))
        results.setdefault(row["check"], []).append(made)
    leaks: dict[str, tuple[float, ...]] = {}
    rows: dict[str, list[Likelihood]] = {}
    for likelihood in _records(folder / "likelihoods.csv", _likelihood):
        if likelihood.cause == LEAK_ROW:
            leaks[likelihood.check] = likelihood.probabilities
        else:
            rows.setdefault(likelihood.check, []).append(likelihood)

    def check(row: Row) -> Check:
        name = row["id"]
        if name not in results or name not in leaks:
            raise ValueError(f"“{name}” has no results or no leak row (cause “{LEAK_ROW}”)")
        return Check(
            id=name,
            kind=CheckKind(row["kind"]),
            words=row["words"],
            story=bool(row["story_words"]),
            story_words=row["story_words"],
            results=tuple(results[name]),
            leak=leaks[name],
            likelihoods=tuple(rows.get(name, [])),
            minutes=float(row["minutes"]),
            tools=_words(row["tools"]),
            access=_words(row["access"]),
            off_first=_words(row["off_first"]),
            hazards=_words(row["hazards"]),
            runs_engine=_yes(row["runs_engine"]),
            origin=_origin(row),
        )

    return tuple(_records(folder / "checks.csv", check))


def _repairs(folder: Traversable) -> tuple[Repair, ...]:
    parts: dict[str, list[RepairPart]] = {}
    for row in _records(folder / "repair-parts.csv", dict):
        parts.setdefault(row["repair"], []).append(RepairPart(row["words"], row["price"]))

    def repair(row: Row) -> Repair:
        return Repair(
            id=row["id"],
            words=row["words"],
            fixes={name: float(chance) for name, chance in (one.split("=") for one in _words(row["fixes"]))},
            minutes=(float(row["minutes_low"]), float(row["minutes_typical"]), float(row["minutes_high"])),
            access=_words(row["access"]),
            target=row["target"] or None,
            parts=tuple(parts.get(row["id"], [])),
            tools=_words(row["tools"]),
            off_first=_words(row["off_first"]),
            hazards=_words(row["hazards"]),
            touches=_words(row["touches"]),
            origin=_origin(row),
        )

    return tuple(_records(folder / "repairs.csv", repair))


def _assembly(file: Traversable) -> Assembly:
    text = _toml(file)
    try:
        about = text["assembly"]
        return Assembly(
            id=about["id"],
            words=about["words"],
            operations=tuple(_operation(one) for one in text["operation"]),
            targets=dict(about["targets"]),
            origin=Origin(Basis(about["basis"]), about["source"]),
        )
    except (KeyError, TypeError, ValueError) as wrong:
        raise KnowledgeFault(f"{file.name}: {wrong} is missing or not as it must be. Mend the file.") from None


def _operation(one: Mapping[str, Any]) -> Operation:
    return Operation(
        id=one["id"],
        kind=one["kind"],
        do=one["do"],
        undo=one["undo"],
        part=one["part"],
        needs=tuple(tuple(group) for group in one.get("needs", [])),
        tool=one.get("tool", "hand"),
        minutes=float(one["minutes"]),
        undo_minutes=float(one.get("undo_minutes", one["minutes"])),
        orientations=tuple(one.get("orientations", [])),
        fasteners=tuple(_fastener(fastener) for fastener in one.get("fastener", [])),
        hazards=tuple(one.get("hazards", [])),
        undo_hazards=tuple(one.get("undo_hazards", [])),
        turns_crank=bool(one.get("turns_crank", False)),
        undo_checks=tuple(one.get("undo_checks", [])),
        gives=one.get("gives", ""),
    )


def _fastener(one: Mapping[str, Any]) -> Fastener:
    return Fastener(
        id=one["id"],
        words=one["words"],
        count=int(one["count"]),
        thread=one.get("thread", ""),
        strength=one.get("strength", ""),
        drive=one["drive"],
        size=one.get("size", ""),
        length_mm=one.get("length_mm"),
        head=one.get("head", "hex"),
        where=one["where"],
        into=one.get("into", ""),
        engaged_mm=one.get("engaged_mm"),
        under_head=one.get("under_head", ""),
        single_use=bool(one.get("single_use", False)),
        thread_care=one.get("thread_care", ""),
        pattern=one.get("pattern", ""),
        published_torque_nm=one.get("published_torque_nm"),
        safety_joint=bool(one.get("safety_joint", False)),
        source=one.get("source", "own-drawing"),
    )


def _complaint(row: Row) -> Complaint:
    return Complaint(row["id"], row["words"], float(row["weight"]), _yes(row["engine_runs"]), _origin(row))


def _link(row: Row) -> Link:
    return Link(row["root"], row["consequence"], float(row["probability"]), _origin(row))


def _likelihood(row: Row) -> Likelihood:
    chances = tuple(float(one) for one in _words(row["probabilities"]))
    return Likelihood(row["check"], row["cause"], chances, _origin(row))


def _access(row: Row) -> Access:
    return Access(
        id=row["id"],
        words=row["words"],
        needs=_words(row["needs"]),
        opens=row["opens"] or None,
        open_minutes=float(row["open_minutes"]),
        close_minutes=float(row["close_minutes"]),
        shut_to_run=_yes(row["shut_to_run"]),
    )


def _hazard(row: Row) -> Hazard:
    return Hazard(row["id"], Signal(row["signal"]), row["control"], row["consequence"], row["source"])


def _release_item(row: Row) -> ReleaseItem:
    return ReleaseItem(
        id=row["id"],
        words=row["words"],
        how=row["how"],
        triggers=_words(row["triggers"]),
        hard=_yes(row["hard"]),
        answer=row["answer"],
        limit_words=row["limit_words"],
        redo_after=_words(row["redo_after"]),
        hazards=_words(row["hazards"]),
        source=row["source"],
    )


def _material(row: Row) -> Material:
    def megapascals(name: str) -> float | None:
        return to_si(float(row[name]), "MPa", "pressure") if row[name] else None

    return Material(
        key=row["key"],
        words=row["words"],
        tensile=megapascals("tensile_mpa"),
        shear=megapascals("shear_mpa"),
        bearing=megapascals("bearing_mpa"),
        knock_down=float(row["knock_down"]),
        basis=Basis(row["basis"]),
        source=row["source"],
    )


def _strength(row: Row) -> tuple[str, str, StrengthRange]:
    return (
        row["key"],
        row["words"],
        StrengthRange(
            min_diameter=to_si(float(row["min_diameter_mm"]), "mm", "length"),
            max_diameter=to_si(float(row["max_diameter_mm"]), "mm", "length"),
            tensile=to_si(float(row["tensile_mpa"]), "MPa", "pressure"),
            yield_=to_si(float(row["yield_mpa"]), "MPa", "pressure"),
            proof=to_si(float(row["proof_mpa"]), "MPa", "pressure"),
            basis=Basis(row["basis"]),
            source=row["source"],
        ),
    )


def _source(row: Row) -> Source:
    return Source(row["key"], row["title"], row["locator"], Status(row["status"]))


def _origin(row: Row) -> Origin:
    return Origin(Basis(row["basis"]), row["source"])


def _words(cell: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in cell.split(";") if word.strip())


def _yes(cell: str) -> bool:
    if cell not in ("yes", "no"):
        raise ValueError(f"“{cell}” stands where yes or no must stand")
    return cell == "yes"
