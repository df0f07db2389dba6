"""An open shop: its file, what is known of machines, and its clock, handed to every function of this package."""

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar

from bellcrank.knowledge.model import Library
from bellcrank.shop.last_answers import LastAnswers
from bellcrank.shop.storage.engine import Storage

Read = TypeVar("Read")


@dataclass(frozen=True, slots=True, eq=False)
class Shop:
    """Everything a shop function needs."""

    storage: Storage
    library: Library
    folder: Path  # where photos lie beside the file
    now: Callable[[], datetime]
    answers: LastAnswers = field(default_factory=LastAnswers)
    glance: dict[Hashable, Any] | None = None  # what was read for one answer; None: it is read each time

    def at_a_glance(self) -> "Shop":
        """Give the same shop for making up one sheet, for which the file is asked each thing once."""
        return self if self.glance is not None else replace(self, glance={})

    def seen(self, question: Hashable, read: Callable[[], Read]) -> Read:
        """Read something of the file, once for each sheet."""
        if self.glance is None:
            return read()
        if question not in self.glance:
            self.glance[question] = read()
        known: Read = self.glance[question]
        return known

    def close(self) -> None:
        """Let go of the file."""
        self.storage.close()
