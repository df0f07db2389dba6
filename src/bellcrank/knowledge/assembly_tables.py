"""An assembly written as the tables of its file, the way :mod:`bellcrank.knowledge.assembly_text` reads them."""

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields
from typing import Any

from bellcrank.knowledge.assembly import Assembly, Fastener, Gap, Method, Operation, View
from bellcrank.knowledge.assembly_text import NEEDS

Table = dict[str, Any]

OWN_TABLES = ("needs", "reasons", "fasteners", "gaps", "methods")  # of a step, written apart from its columns
OF_THIS_MACHINE = ("missing",)  # what is found on one machine is no part of a model


def assembly_tables(one: Assembly) -> Table:
    """Give the tables of an assembly's file; the words alone make the same assembly again."""
    about = {"id": one.id, "words": one.words, "basis": str(one.origin.basis), "source": one.origin.source}
    changeover = _filled(
        {
            "tool_minutes": one.tool_minutes,
            "turn_minutes": one.turn_minutes,
            "turn": [{"from": a, "to": b, "minutes": minutes} for (a, b), minutes in one.turns.items()],
        }
    )
    return _filled(
        {
            "assembly": about | _filled({"taper_nut": one.taper_nut}),
            "changeover": changeover,
            "lying": dict(one.lying),
            "view": [_view(view) for view in one.views],
            "operation": [_operation(operation) for operation in one.operations],
        }
    ) | {"targets": dict(one.targets)}


def assembly_toml(one: Assembly) -> str:
    """Give the text of an assembly's file."""
    return "\n".join(_toml(assembly_tables(one), ())) + "\n"


def _operation(one: Operation) -> Table:
    needs = {column: [list(group) for group in one.needs if one.why(group) == why] for column, why in NEEDS.items()}
    columns = {name: value for name, value in _columns(one).items() if name not in OWN_TABLES}
    return _filled(columns | needs) | _filled(
        {
            "gap": [_gap(gap) for gap in one.gaps],
            "method": [_method(method) for method in one.methods],
            "fastener": [_fastener(fastener) for fastener in one.fasteners],
        }
    )


def _method(one: Method) -> Table:
    """Write all of another way: what is left out would be read as in the step."""
    return {name: value for name, value in _columns(one).items() if value is not None}


def _gap(one: Gap) -> Table:
    origin = {"basis": str(one.origin.basis), "source": one.origin.source}
    return {"where": one.where, "low_mm": one.low_mm, "high_mm": one.high_mm} | origin


def _fastener(one: Fastener) -> Table:
    kept = {name: value for name, value in _columns(one).items() if name not in OF_THIS_MACHINE}
    return _filled(kept) | {"by_hand_first": one.by_hand_first}


def _columns(one: Operation | Method | Fastener) -> Table:
    return {field.name: _plain(getattr(one, field.name)) for field in fields(one)}


def _view(one: View) -> Table:
    shapes = [
        _filled({"words": shape.words, "points": _plain(shape.points), "radius": shape.radius}) for shape in one.shapes
    ]
    return {"id": one.id, "words": one.words, "width": one.width, "height": one.height, "shape": shapes}


def _filled(columns: Mapping[str, Any]) -> Table:
    """Leave out what says nothing: nothing, no words, an empty list; a number stays, also zero."""
    return {name: value for name, value in columns.items() if value not in (None, "", [], {}) and value is not False}


def _plain(value: Any) -> Any:
    return [_plain(each) for each in value] if isinstance(value, tuple) else value


def _toml(table: Mapping[str, Any], path: tuple[str, ...]) -> Iterator[str]:
    """Write the plain columns of a table, then its tables, then its lists of tables."""
    inner = {name: value for name, value in table.items() if isinstance(value, dict) or _is_tables(value)}
    yield from (f"{_key(name)} = {_value(value)}" for name, value in table.items() if name not in inner)
    for name, value in inner.items():
        here = (*path, name)
        heading = ".".join(map(_key, here))
        for one in [value] if isinstance(value, dict) else value:
            yield ""
            yield f"[{heading}]" if isinstance(value, dict) else f"[[{heading}]]"
            yield from _toml(one, here)


def _is_tables(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def _key(name: str) -> str:
    bare = name.isascii() and name.replace("-", "").replace("_", "").isalnum()
    return name if bare else json.dumps(name, ensure_ascii=False)


def _value(value: Any) -> str:
    """Write a value; a JSON string is a TOML string, but for the delete sign, which TOML wants escaped."""
    if isinstance(value, list):
        return f"[{', '.join(_values(value))}]"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return str(value).lower() if isinstance(value, bool) else repr(value)


def _values(values: Iterable[Any]) -> Iterator[str]:
    return (_value(each) for each in values)
