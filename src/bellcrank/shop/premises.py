"""An open shop: its file, what is known of machines, and its clock, handed to every function of this package."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from bellcrank.knowledge.model import Library
from bellcrank.shop.last_answers import LastAnswers
from bellcrank.shop.storage.engine import Storage


@dataclass(frozen=True, slots=True, eq=False)
class Shop:
    """Everything a shop function needs."""

    storage: Storage
    library: Library
    folder: Path  # where photos lie beside the file
    now: Callable[[], datetime]
    answers: LastAnswers = field(default_factory=LastAnswers)

    def close(self) -> None:
        """Let go of the file."""
        self.storage.close()
