"""Long work in the terminal: how far it is, on standard error, and a stop that loses nothing."""

import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType

PATIENCE = 1.5  # [s] before anything is said
FIRST_TIME = "Getting the equations ready; the first time takes up to a minute."


@contextmanager
def at_work(words: str, of: int, waiting: str = FIRST_TIME) -> Iterator[Callable[[int], bool]]:
    """Give a function that is told how much is done and answers whether to go on; Ctrl-C stops and keeps it.

    ``waiting`` is said when nothing is done after a moment.
    """
    stop = threading.Event()

    def asked_to_stop(number: int, frame: FrameType | None) -> None:
        del number, frame
        stop.set()

    def say(sentence: str, end: str = "\n") -> None:
        print(sentence, end=end, file=sys.stderr, flush=True)  # noqa: T201

    shows, begun = sys.stderr.isatty(), threading.Event()
    timer = threading.Timer(PATIENCE, lambda: None if begun.is_set() else say(waiting))
    timer.daemon = True
    timer.start()
    before = signal.signal(signal.SIGINT, asked_to_stop)

    def done(count: int) -> bool:
        begun.set()
        if shows:
            say(f"\r{count}{f' of {of}' if of > 1 else ''} {words}; Ctrl-C stops and keeps them ", end="")
        return not stop.is_set()

    try:
        yield done
    finally:
        timer.cancel()
        signal.signal(signal.SIGINT, before)
        if shows and begun.is_set():
            say("")
        if stop.is_set():
            say("Stopped; what was done by then is told.")
