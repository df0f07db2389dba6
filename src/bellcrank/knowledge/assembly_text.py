"""An assembly made of the tables of its file: operations, and the fasteners each of them undoes."""

from collections.abc import Iterable, Mapping
from typing import Any

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.assembly import (
    BEHIND,
    FIRST,
    HELD,
    Assembly,
    Fastener,
    Gap,
    Method,
    Operation,
    Shape,
    View,
)
from bellcrank.sources import Basis, Origin

Table = Mapping[str, Any]


NEEDS = {"needs": FIRST, "held_by": HELD, "behind": BEHIND}  # the columns that say what is done before, and why


def assembly(file: str, text: Table) -> Assembly:
    """Make the assembly of a file's parsed text; what is missing is told with file and step."""
    where = file
    try:
        about = text["assembly"]
        changeover = text.get("changeover", {})
        operations = []
        for table in text["operation"]:
            where = f"{table.get('file', file)}, step “{table['id']}”"
            operations.append(_operation(table))
        where = file
        return Assembly(
            id=about["id"],
            words=about["words"],
            operations=tuple(operations),
            targets=dict(text["targets"]),
            taper_nut=about.get("taper_nut", ""),
            origin=Origin(Basis(about["basis"]), about["source"]),
            views=tuple(_view(one) for one in text.get("view", [])),
            tool_minutes=changeover.get("tool_minutes"),
            turn_minutes=changeover.get("turn_minutes"),
            turns={(one["from"], one["to"]): float(one["minutes"]) for one in changeover.get("turn", [])},
            lying=dict(text.get("lying", {})),
        )
    except KeyError as missing:
        raise KnowledgeFault(f"{where}: “{missing.args[0]}” is missing. Write it in.") from None
    except (TypeError, ValueError, AttributeError) as wrong:
        raise KnowledgeFault(f"{where}: something is not of the kind it must be ({wrong}). Mend it.") from None


def _operation(table: Table) -> Operation:
    groups = [(tuple(group), why) for column, why in NEEDS.items() for group in table.get(column, [])]
    needs = tuple(group for group, _ in groups)
    return Operation(
        id=table["id"],
        kind=table["kind"],
        do=table["do"],
        undo=table["undo"],
        part=table["part"],
        needs=needs,
        reasons=tuple(why for _, why in groups),
        tool=table.get("tool", "hand"),
        minutes=float(table["minutes"]),
        undo_minutes=float(table.get("undo_minutes", table["minutes"])),
        access_minutes=float(table.get("access_minutes", 0.0)),
        orientations=_words(table, "orientations"),
        fasteners=tuple(_fastener(one) for one in table.get("fastener", [])),
        hazards=_words(table, "hazards"),
        undo_hazards=_words(table, "undo_hazards"),
        turns_crank=table.get("turns_crank", False),
        undo_checks=_words(table, "undo_checks"),
        gives=table.get("gives", ""),
        touches=_words(table, "touches"),
        numbers=_words(table, "numbers"),
        hidden=_words(table, "hidden"),
        gaps=tuple(_gap(one) for one in table.get("gap", [])),
        free=_words(table, "free"),
        renew=_words(table, "renew"),
        words=table.get("words", ""),
        not_when=_words(table, "not_when"),
        methods=tuple(_method(one, table, needs) for one in table.get("method", [])),
    )


def _words(table: Table, column: str) -> tuple[str, ...]:
    return tuple(table.get(column, []))


def _method(table: Table, step: Table, needs: tuple[tuple[str, ...], ...]) -> Method:
    """Make another way of doing a step; what it does not say is as in the step."""
    return Method(
        id=table["id"],
        words=table["words"],
        do=table["do"],
        tool=table.get("tool", "hand"),
        minutes=float(table["minutes"]),
        needs=tuple(tuple(group) for group in table["needs"]) if "needs" in table else needs,
        orientations=_words(table if "orientations" in table else step, "orientations"),
        hazards=_words(table if "hazards" in table else step, "hazards"),
        turns_crank=table.get("turns_crank", step.get("turns_crank", False)),
        not_when=_words(table, "not_when"),
        undo=table.get("undo", ""),
        undo_minutes=float(table["undo_minutes"]) if "undo_minutes" in table else None,
        undo_hazards=_words(table, "undo_hazards") if "undo_hazards" in table else None,
    )


def _gap(table: Table) -> Gap:
    origin = Origin(Basis(table["basis"]), table["source"])
    return Gap(table["where"], float(table["low_mm"]), float(table["high_mm"]), origin)


def _view(table: Table) -> View:
    shapes = tuple(
        Shape(one.get("words", ""), _points(one["points"]), float(one.get("radius", 0.0))) for one in table["shape"]
    )
    return View(table["id"], table["words"], float(table["width"]), float(table["height"]), shapes)


def _points(points: Iterable[Iterable[float]]) -> tuple[tuple[float, float], ...]:
    return tuple((float(across), float(down)) for across, down in points)


def _fastener(table: Table) -> Fastener:
    thread = table.get("thread", "")
    return Fastener(
        id=table["id"],
        words=table["words"],
        count=int(table["count"]),
        thread=thread,
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
        by_hand_first=table.get("by_hand_first", bool(thread) and int(table["count"]) > 1),
        stages=tuple(float(share) for share in table.get("stages", [])),
        view=table.get("view", ""),
        places=_points(table.get("places", [])),
    )
