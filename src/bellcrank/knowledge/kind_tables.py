"""The tables of one kind of machine: those of the systems it is built of, and its own, which come last.

A system (ignition, float carburettor, recoil starter ...) is a folder below ``systems``, shared by every kind that
names it. A line of the kind's own with the same name takes the place of the system's; what a system says of causes or
checks that this kind does not have is passed over, but only if another kind has them: a slip of the pen is refused.
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from importlib.resources.abc import Traversable
from typing import Any

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.line import Line
from bellcrank.knowledge.model import Place
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.knowledge.tables import folders_in, read_lines, read_toml, refuse_twice

SYSTEMS = "systems"
ASSEMBLY = "assembly.toml"
KEYS = {
    "complaints.csv": ("id",),
    "causes.csv": ("id",),
    "shares.csv": ("complaint", "cause"),
    "links.csv": ("root", "consequence"),
    "checks.csv": ("id",),
    "results.csv": ("check", "id"),
    "likelihoods.csv": ("check", "cause"),
    "likelihoods-given.csv": ("complaint", "check", "cause"),
    "access.csv": ("id",),
    "scales.csv": ("check",),
    "gauge-readings.csv": ("card", "release"),
    "repairs.csv": ("id",),
    "repair-parts.csv": ("repair", "words"),
}
TAKEN_WHOLE = {"results.csv", "repair-parts.csv"}  # the kind's lines of one check or repair replace all of the system's
NEEDS_NOT_BE = {
    "gauge-readings.csv",
    "scales.csv",
    "likelihoods-given.csv",
}  # a kind needs not have these tables of its own
NAMES = {"check": "checks.csv", "cause": "causes.csv", "root": "causes.csv", "consequence": "causes.csv"}
NAMES |= {"repair": "repairs.csv"}
NAMED = ("causes.csv", "checks.csv", "repairs.csv")  # what systems may name of each other


class Systems:
    """All systems there are, used by a kind or not; each table is read once."""

    def __init__(self, folders: Mapping[str, Traversable], kinds: Sequence[Traversable]) -> None:
        self.folders = folders
        self.kinds = kinds
        self._read: dict[tuple[str, str], list[Line]] = {}

    @cached_property
    def names(self) -> Mapping[str, frozenset[str]]:
        """Names of all causes, checks and repairs of all systems and kinds, by table."""
        return {
            table: frozenset(
                line.words("id")
                for lines in (
                    *(self.lines(system, table) for system in self.folders),
                    *(read_lines(kind, table) for kind in self.kinds),
                )
                for line in lines
            )
            for table in NAMED
        }

    @cached_property
    def assemblies(self) -> Mapping[str, Mapping[str, Any]]:
        """How a system comes apart, by system, for those that say so."""
        return {
            name: read_toml(folder, ASSEMBLY) for name, folder in self.folders.items() if (folder / ASSEMBLY).is_file()
        }

    def lines(self, system: str, table: str) -> list[Line]:
        """Give the lines of a system's table, which it needs not have."""
        known = self._read.get((system, table))
        if known is None:
            folder = self.folders[system]
            there = (folder / table).is_file()
            known = read_lines(folder, table, f"{SYSTEMS}/{system}") if there else []
            refuse_twice(known, *KEYS[table])
            self._read[system, table] = known
        return known


class KindTables:
    """The lines of one kind, from its systems and its own folder.

    ``leave_out`` names causes, checks and repairs of the systems that this kind does not have.
    """

    def __init__(self, own: Traversable, used: Sequence[str], systems: Systems, leave_out: frozenset[str]) -> None:
        self.own = own
        self.used = used
        self.systems = systems
        self.leave_out = leave_out
        self._lines: dict[str, list[Line]] = {}

    def lines(self, name: str) -> list[Line]:
        """Give the lines of a table that hold for this kind, in the order of the systems, its own last."""
        if name not in self._lines:
            self._lines[name] = self._put_together(name)
        return self._lines[name]

    def _put_together(self, name: str) -> list[Line]:
        keys = KEYS[name]
        own = read_lines(self.own, name) if name not in NEEDS_NOT_BE or (self.own / name).is_file() else []
        refuse_twice(own, *keys)
        lines: dict[tuple[str, ...], Line] = {}
        for system in self.used:
            for line in self.systems.lines(system, name):
                key = _key(line, keys)
                if key in lines:
                    first = lines[key]
                    raise line.fault(f"“{', '.join(key)}” stands in {first.file}, line {first.number}, too. Keep one.")
                if self._holds(line, keys):
                    lines[key] = line
        if name in TAKEN_WHOLE:
            replaced = {line.words(keys[0]) for line in own}
            lines = {key: line for key, line in lines.items() if key[0] not in replaced}
        return list((lines | {_key(line, keys): line for line in own}).values())

    def belonging(self, name: str, column: str) -> list[Line]:
        """Give the lines of a table whose lines each belong to a line of another table."""
        known = self.known[NAMES[column]]
        lines = self.lines(name)
        for line in lines:
            if line.words(column) not in known:
                raise line.fault(f"there is no {column} “{line.words(column)}”. Mend the name.")
        return lines

    @cached_property
    def known(self) -> Mapping[str, frozenset[str]]:
        """Names of the causes, checks and repairs of this kind, by table."""
        return {table: frozenset(line.words("id") for line in self.lines(table)) for table in NAMED}

    def only_known(self, names: Iterable[str], table: str, line: Line) -> tuple[str, ...]:
        """Give the names this kind has of those a system's line lists; a kind's own line is left as it is."""
        if not line.file.startswith(SYSTEMS):
            return tuple(names)
        return tuple(name for name in names if self._has(name, table, line))

    def places(self) -> Mapping[tuple[str, str], Place]:
        """Give file and line of everything that has a name in a table, by table and name."""
        return {
            (table, ",".join(_key(line, keys))): Place(line.file, line.number)
            for table, keys in KEYS.items()
            for line in self.lines(table)
        }

    def _holds(self, line: Line, keys: Sequence[str]) -> bool:
        """Whether a system's line is about what this kind has."""
        if keys == ("id",):
            return line.words("id") not in self.leave_out
        named = [column for column in keys if column in NAMES and line.words(column) != LEAK_ROW]
        return all(self._has(line.words(column), NAMES[column], line) for column in named)

    def _has(self, name: str, table: str, line: Line) -> bool:
        if name not in self.systems.names[table]:
            raise line.fault(f"no kind of machine has “{name}”. Mend the name.")
        return name in self.known[table]


def kind_tables(own: Traversable, about: Mapping[str, Sequence[str]], systems: Systems) -> KindTables:
    """Find the folders of a kind's systems; one that is not there is refused."""
    named = about.get("systems", ())
    for name in named:
        if name not in systems.folders:
            known = ", ".join(sorted(systems.folders))
            raise KnowledgeFault(f"{own.name}/pack.toml: there is no system “{name}”; it must be one of: {known}.")
    leave_out = frozenset(about.get("leave_out", ()))
    for name in sorted(leave_out):
        if not any(name in names for names in systems.names.values()):
            raise KnowledgeFault(f"{own.name}/pack.toml: leave_out names “{name}”, which no kind has. Mend the name.")
    return KindTables(own, tuple(named), systems, leave_out)


def read_systems(root: Traversable, kinds: Sequence[Traversable]) -> Systems:
    """Find the folders of all systems, beside those of the kinds."""
    return Systems({folder.name: folder for folder in folders_in(root / SYSTEMS)}, kinds)


def _key(line: Line, keys: Sequence[str]) -> tuple[str, ...]:
    return tuple(line.words(key) for key in keys)
