"""Pulls worked out beside the pages: one at a time in a thread of its own, each kept once it is done."""

import threading
from collections.abc import Callable
from concurrent.futures import Future

from bellcrank.knowledge.model import Library
from bellcrank.shop.one_pull import OnePull, PullAsked

QUICK = 1.5  # [s] a page waits before it says that it is waiting
KEPT = 40  # pulls, half a megabyte each


class PullsAtWork:
    """The pulls that were asked for since the start; the first one waits until the equations are compiled."""

    def __init__(self, library: Library, pull: Callable[[Library, PullAsked], OnePull]) -> None:
        self._library, self._pull = library, pull
        self._asked: dict[PullAsked, Future[OnePull]] = {}
        self._look, self._work = threading.Lock(), threading.Lock()

    def ask(self, asked: PullAsked, patience: float = QUICK) -> OnePull | None:
        """Give a pull, None while it is still being worked out; what went wrong with it is raised, once."""
        with self._look:
            found = self._asked.get(asked) or self._begin(asked)
        try:
            return found.result(patience)
        except TimeoutError:
            return None

    def _begin(self, asked: PullAsked) -> Future[OnePull]:
        begun: Future[OnePull] = Future()
        done = [one for one, future in self._asked.items() if future.done()]
        for oldest in done[: max(0, len(self._asked) - KEPT + 1)]:
            del self._asked[oldest]
        self._asked[asked] = begun
        # a daemon: nobody who closes the bench waits for a picture
        threading.Thread(target=self._run, args=(asked, begun), daemon=True).start()
        return begun

    def _run(self, asked: PullAsked, begun: Future[OnePull]) -> None:
        try:
            with self._work:
                begun.set_result(self._pull(self._library, asked))
        except Exception as fault:  # told to whoever asked, who may ask again
            with self._look:
                self._asked.pop(asked, None)
            begun.set_exception(fault)
