"""Tables and TOML files of packs, read line by line; what cannot be read is refused with file and line."""

import csv
import tomllib
from collections.abc import Sequence
from importlib.resources.abc import Traversable
from typing import Any

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.line import Line


def read_named(folder: Traversable, name: str, key: str = "id") -> list[Line]:
    """Read a table in which every line has a name of its own."""
    lines = read_lines(folder, name)
    refuse_twice(lines, key)
    return lines


def refuse_twice(lines: Sequence[Line], *keys: str) -> None:
    """Refuse a table in which two lines have the same name."""
    seen: dict[tuple[str, ...], int] = {}
    for line in lines:
        name = tuple(line.words(key) for key in keys)
        first = seen.setdefault(name, line.number)
        if first != line.number:
            mend = "Keep one." if len(keys) > 1 else "Give it another name."
            raise line.fault(f"“{', '.join(name)}” stands in line {first} already. {mend}")


def read_lines(folder: Traversable, name: str, where: str = "") -> list[Line]:
    """Read a table; empty lines are passed over. ``where`` names the folder when its own name does not say enough."""
    file = f"{where or folder.name}/{name}"
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


def folders_in(folder: Traversable) -> list[Traversable]:
    """Give the folders in a folder by name; none when it is not there."""
    inside = [one for one in folder.iterdir() if one.is_dir()] if folder.is_dir() else []
    return sorted(inside, key=lambda one: one.name)


def read_toml(folder: Traversable, name: str) -> dict[str, Any]:
    """Read a TOML file."""
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
