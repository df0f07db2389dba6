"""One question of the numbers bench: what is asked, what is taken when it is not told, what answers it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from bellcrank.knowledge.model import Library
from bellcrank.shop.answers import Answered

MEASURE = "Common sizes, no source: measure yours and type them."


@dataclass(frozen=True, slots=True)
class Asked:
    """Something that is asked."""

    name: str
    label: str
    example: str


@dataclass(frozen=True, slots=True)
class Room:
    """One of the questions, with all that may be told for it."""

    key: str
    words: str  # how it is called in a row of others
    title: str
    lead: str
    fields: tuple[Asked, ...]
    needs: tuple[str, ...]  # what must be told
    taken: Callable[[Mapping[str, str]], Mapping[str, str]]  # what is taken for what was not told
    answer: Callable[[Library, Mapping[str, str], str], Answered]
    instead: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # told, what it takes the place of

    def told(self, typed: Mapping[str, str]) -> dict[str, str]:
        """Give what was told that this room asks for."""
        return {one.name: typed[one.name] for one in self.fields if typed.get(one.name)}

    def replaced(self, typed: Mapping[str, str]) -> frozenset[str]:
        """Name what is not asked, for something else was told in its place."""
        return frozenset(name for told, names in self.instead.items() if typed.get(told) for name in names)

    def ready(self, typed: Mapping[str, str]) -> bool:
        """Whether enough was told for an answer."""
        replaced = self.replaced(typed)
        return all(typed.get(name) or name in replaced for name in self.needs)

    def assumed(self, typed: Mapping[str, str]) -> dict[str, str]:
        """Give what is taken because it was not told."""
        told, replaced = self.told(typed), self.replaced(typed)
        return {name: value for name, value in self.taken(typed).items() if name not in told and name not in replaced}

    def in_words(self, values: Mapping[str, str]) -> str:
        """Say values with what they are."""
        return "; ".join(f"{_small(one.label)}: {values[one.name]}" for one in self.fields if one.name in values)

    def answered(self, library: Library, typed: Mapping[str, str], unit: str) -> Answered:
        """Answer from what was told, torques in the unit first."""
        return self.answer(library, {**self.assumed(typed), **self.told(typed)}, unit)

    def taken_words(self, typed: Mapping[str, str]) -> tuple[str, ...]:
        """Say what is taken because it was not told."""
        assumed = self.assumed(typed)
        return (f"Not told, so taken: {self.in_words(assumed)}. {MEASURE}",) if assumed else ()


def _small(words: str) -> str:
    return words[:1].lower() + words[1:]


def nothing(_: Mapping[str, str]) -> dict[str, str]:
    """Take nothing for what was not told."""
    return {}
