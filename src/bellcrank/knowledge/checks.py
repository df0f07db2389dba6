"""Whole-library checks: every gap and contradiction between the tables of the packs, in words, by file and line."""

from collections.abc import Iterator
from dataclasses import dataclass

from bellcrank.knowledge.closed_lists import ANSWERS, TOUCHED, TRIGGERS
from bellcrank.knowledge.model import Library, Pack
from bellcrank.knowledge.pack_checks import gaps, unknown
from bellcrank.knowledge.sources_used import sources_used
from bellcrank.knowledge.tools import unknown_tools

COMMON = "common"
STRONGEST = 4e9  # [Pa] above any metal a shop meets


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in a pack that does not fit."""

    kind: str  # of machine, or "common"
    file: str  # below the folder of the packs
    line: int | None  # None: the file as a whole
    words: str

    @property
    def where(self) -> str:
        """File and line in words."""
        return self.file if self.line is None else f"{self.file}, line {self.line}"


def problems(library: Library) -> tuple[Problem, ...]:
    """Give every problem of every pack, in order of packs and files."""
    found = [
        located(pack, table, name, words)
        for pack in library.packs.values()
        for table, name, words in gaps(library, pack)
    ]
    found.extend(
        located(pack, table, name, words)
        for pack in library.packs.values()
        for table, name, words in unknown_tools(pack, library.tools)
    )
    found.extend(_common("release.csv", words) for words in _release_problems(library))
    found.extend(_common("materials.csv", words) for words in _material_problems(library))
    found.extend(_source_problems(library))
    return tuple(found)


def located(pack: Pack, table: str, name: str, words: str) -> Problem:
    """Make a problem of a pack, with the line in which that name stands in that table."""
    place = pack.places.get((table, name))
    if place is None:
        return Problem(pack.kind, f"{pack.kind}/{table}", None, words)
    return Problem(pack.kind, place.file, place.line, words)


def _common(table: str, words: str) -> Problem:
    return Problem(COMMON, f"{COMMON}/{table}", None, words)


def _release_problems(library: Library) -> Iterator[str]:
    items = {item.id for item in library.release_items}
    for item in library.release_items:
        where = f"“{item.id}”"
        looked_up = (
            ("hazard", item.hazards, library.hazards),
            ("trigger", item.triggers, TRIGGERS),
            ("thing touched or item", item.redo_after, {*TOUCHED, *items}),
            ("kind of answer", (item.answer,), ANSWERS),
            ("kind of machine", item.kinds, library.packs),
        )
        for what, names, known in looked_up:
            yield from (words for _, words in unknown("", where, what, names, known))


def _material_problems(library: Library) -> Iterator[str]:
    for material in library.materials.values():
        if not 0 < material.knock_down <= 1:
            yield f"“{material.key}”: the share counted on is {material.knock_down:g}; it must lie above 0, at most 1."
        strengths = {"tensile": material.tensile, "shear": material.shear, "bearing": material.bearing}
        for name, strength in strengths.items():
            if strength is not None and not 0 < strength < STRONGEST:
                yield f"“{material.key}”: the {name} strength is {strength / 1e6:g} MPa; it must lie in 0 to 4000 MPa."


def _source_problems(library: Library) -> Iterator[Problem]:
    used = sources_used(library)
    for kind, file, name, key in sorted(used):
        if key not in library.sources:
            words = f"the source “{key}” is not in {COMMON}/sources.csv."
            pack = library.packs.get(kind)
            yield _common(file, words) if pack is None else located(pack, file, name, words)
    for key in sorted(library.sources.keys() - {key for *_, key in used}):
        yield _common("sources.csv", f"nothing rests on the source “{key}”.")
