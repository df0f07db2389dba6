"""What a shop adds to the pack of a kind: causes it found and checks it makes. The records alone; see `with_own`."""

import re
import unicodedata
from collections.abc import Container, Iterable
from dataclasses import dataclass, replace

PREFIX = "own-"  # no pack of ours names anything so, and none ever will
LONGEST_NAME = 40  # [letters]
OTHER_SYSTEM = "other"
HOW_WELL = {"hardly": 0.15, "often": 0.6, "nearly always": 0.9}  # [-] chance that a cause shows so; guess


@dataclass(frozen=True, slots=True)
class OwnCause:
    """A cause the pack did not know, with the look that finds it and the repair that puts it right."""

    id: str
    words: str  # "mouse nest under the shroud"
    system: str
    complaints: tuple[str, ...]  # of the job it was found in
    explains: tuple[tuple[str, str], ...]  # check and result of the findings it explains
    access: tuple[str, ...]  # what must be open to see it and to put it right
    repair_words: str  # imperative
    minutes: float  # the repair, hands-on, typical [min]
    price: str  # of parts, decimal text in the shop's currency; "" for none

    @property
    def look(self) -> str:
        """Name of the check that looks for it."""
        return f"{PREFIX}look-{self.id.removeprefix(PREFIX)}"

    @property
    def mend(self) -> str:
        """Name of the repair that puts it right."""
        return f"{PREFIX}mend-{self.id.removeprefix(PREFIX)}"

    @property
    def names(self) -> frozenset[str]:
        """All the names it takes up."""
        return frozenset({self.id, self.look, self.mend})


@dataclass(frozen=True, slots=True)
class OwnResult:
    """A possible answer of an own check."""

    id: str
    words: str


@dataclass(frozen=True, slots=True)
class Shows:
    """How well an own check shows a cause."""

    cause: str
    how_well: str  # one of HOW_WELL
    result: str  # the result it shows as


@dataclass(frozen=True, slots=True)
class OwnCheck:
    """A check the pack did not know."""

    id: str
    words: str  # imperative
    minutes: float  # hands-on [min]
    results: tuple[OwnResult, ...]  # from "nothing wrong" upwards
    tools: tuple[str, ...]
    access: tuple[str, ...]
    shows: tuple[Shows, ...]
    runs_engine: bool
    hazards: tuple[str, ...]  # beside those that go with the access

    @property
    def names(self) -> frozenset[str]:
        """All the names it takes up."""
        return frozenset({self.id})


@dataclass(frozen=True, slots=True)
class Own:
    """All that a shop added to one kind; what was taken back stays readable in the jobs that used it."""

    causes: tuple[OwnCause, ...] = ()
    checks: tuple[OwnCheck, ...] = ()
    old_causes: tuple[OwnCause, ...] = ()  # taken back
    old_checks: tuple[OwnCheck, ...] = ()

    def as_used(self, names: Container[str]) -> "Own":
        """Give it as a job sees it that used some of these names: what was taken back since still counts there."""
        causes = tuple(one for one in self.old_causes if one.look in names or one.mend in names)
        checks = tuple(one for one in self.old_checks if one.id in names)
        return replace(
            self,
            causes=self.causes + causes,
            checks=self.checks + checks,
            old_causes=tuple(one for one in self.old_causes if one not in causes),
            old_checks=tuple(one for one in self.old_checks if one not in checks),
        )


def names_of(*several: Iterable[OwnCause] | Iterable[OwnCheck]) -> frozenset[str]:
    """Give all the names that own entries take up."""
    return frozenset(name for entries in several for one in entries for name in one.names)


def own_name(words: str, taken: Container[str]) -> str:
    """Make a name out of words that no other has.

    >>> own_name("Mouse nest, under the shroud!", {"own-mouse-nest-under-the-shroud"})
    'own-mouse-nest-under-the-shroud-2'
    """
    base = PREFIX + (short_name(words) or "entry")
    number = 2
    name = base
    while any(one in taken for one in _family(name)):
        name = f"{base}-{number}"
        number += 1
    return name


def short_name(words: str) -> str:
    """Turn words into lower-case letters and hyphens.

    >>> short_name("Très sale, à l'intérieur")
    'tres-sale-a-l-interieur'
    """
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_NAME].strip("-")


def _family(name: str) -> tuple[str, ...]:
    stem = name.removeprefix(PREFIX)
    return name, f"{PREFIX}look-{stem}", f"{PREFIX}mend-{stem}"
