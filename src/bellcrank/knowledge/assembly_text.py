"""An assembly made of the tables of its file: operations, and the fasteners each of them undoes."""

from collections.abc import Mapping
from typing import Any

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.assembly import Assembly, Fastener, Operation
from bellcrank.sources import Basis, Origin

Table = Mapping[str, Any]


def assembly(file: str, text: Table) -> Assembly:
    """Make the assembly of a file's parsed text; what is missing is told with file and step."""
    where = file
    try:
        about = text["assembly"]
        operations = []
        for table in text["operation"]:
            where = f"{file}, step “{table['id']}”"
            operations.append(_operation(table))
        where = file
        return Assembly(
            id=about["id"],
            words=about["words"],
            operations=tuple(operations),
            targets=dict(about["targets"]),
            taper_nut=about.get("taper_nut", ""),
            origin=Origin(Basis(about["basis"]), about["source"]),
        )
    except KeyError as missing:
        raise KnowledgeFault(f"{where}: “{missing.args[0]}” is missing. Write it in.") from None
    except (TypeError, ValueError, AttributeError) as wrong:
        raise KnowledgeFault(f"{where}: something is not of the kind it must be ({wrong}). Mend it.") from None


def _operation(table: Table) -> Operation:
    return Operation(
        id=table["id"],
        kind=table["kind"],
        do=table["do"],
        undo=table["undo"],
        part=table["part"],
        needs=tuple(tuple(group) for group in table.get("needs", [])),
        tool=table.get("tool", "hand"),
        minutes=float(table["minutes"]),
        undo_minutes=float(table.get("undo_minutes", table["minutes"])),
        orientations=tuple(table.get("orientations", [])),
        fasteners=tuple(_fastener(one) for one in table.get("fastener", [])),
        hazards=tuple(table.get("hazards", [])),
        undo_hazards=tuple(table.get("undo_hazards", [])),
        turns_crank=table.get("turns_crank", False),
        undo_checks=tuple(table.get("undo_checks", [])),
        gives=table.get("gives", ""),
        touches=tuple(table.get("touches", [])),
        numbers=tuple(table.get("numbers", [])),
    )


def _fastener(table: Table) -> Fastener:
    return Fastener(
        id=table["id"],
        words=table["words"],
        count=int(table["count"]),
        thread=table.get("thread", ""),
        strength=table.get("strength", ""),
        drive=table["drive"],
        size=table.get("size", ""),
        length_mm=table.get("length_mm"),
        head=table.get("head", "hex"),
        where=table["where"],
        into=table.get("into", ""),
        engaged_mm=table.get("engaged_mm"),
        under_head=table.get("under_head", ""),
        single_use=table.get("single_use", False),
        thread_care=table.get("thread_care", ""),
        pattern=table.get("pattern", ""),
        published_torque_nm=table.get("published_torque_nm"),
        safety_joint=table.get("safety_joint", False),
        source=table.get("source", "own-drawing"),
    )
