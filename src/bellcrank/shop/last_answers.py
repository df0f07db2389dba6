"""The answers to the last few questions, kept while the shop is open: what was asked before is not worked out anew.

Only answers that follow from the question alone may be kept here: the weighing of a case, what readings of a hand say;
not a price or a time.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Any, TypeVar

MOST_KEPT = 64  # [-] answers; a busy bench has a dozen jobs open, an answer takes some 100 kB

Answer = TypeVar("Answer")


class LastAnswers:
    """A small store that forgets what was asked longest ago."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        self._most = most
        self._kept: OrderedDict[Hashable, Any] = OrderedDict()
        self._lock = Lock()

    def answer(self, question: Hashable, work_out: Callable[[], Answer]) -> Answer:
        """Give the answer kept for a question, or work it out and keep it."""
        with self._lock:
            if question in self._kept:
                self._kept.move_to_end(question)
                known: Answer = self._kept[question]
                return known
        found = work_out()
        with self._lock:
            self._kept[question] = found
            if len(self._kept) > self._most:
                self._kept.popitem(last=False)
        return found
