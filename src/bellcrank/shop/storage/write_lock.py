"""One writer at a time: a lock in this program and a lock file against every other program on this computer.

SQLite before 3.51.3 can harm a file in write-ahead mode when two connections write or tidy up at the same
instant. With this lock no two ever do, whatever version is installed.
"""

import os
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from bellcrank.errors import StorageFault

PATIENCE_S = 15.0  # [s] longest wait for another program that writes; a write takes milliseconds
PAUSE_S = 0.005  # [s] between two looks at the lock file


class WriteLock:
    """The right to write to one shop's file."""

    def __init__(self, path: Path, patience_s: float = PATIENCE_S) -> None:
        self._path = path
        self._patience_s = patience_s
        self._inside = threading.Lock()

    @contextmanager
    def held(self) -> Iterator[None]:
        """Hold the right to write while the block runs; refuse when another program does not let go."""
        if not self._inside.acquire(timeout=self._patience_s):
            raise self._too_long()
        try:
            with self._open_file() as descriptor:
                self._wait_for(descriptor)
                try:
                    yield
                finally:
                    _release(descriptor)
        finally:
            self._inside.release()

    @contextmanager
    def _open_file(self) -> Iterator[int]:
        try:
            descriptor = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)
        except OSError as fault:
            raise StorageFault(
                f"The folder {self._path.parent} cannot be written to ({fault.strerror}). "
                "Make it writable for you, or start with another folder."
            ) from None
        try:
            yield descriptor
        finally:
            os.close(descriptor)

    def _wait_for(self, descriptor: int) -> None:
        until = time.monotonic() + self._patience_s
        while not _take(descriptor):
            if time.monotonic() > until:
                raise self._too_long()
            time.sleep(PAUSE_S)

    def _too_long(self) -> StorageFault:
        return StorageFault(
            f"Another program has been writing to the shop's file for more than {self._patience_s:.0f} s. "
            "Nothing was changed. Try again; if it stays so, close the other program."
        )


if sys.platform == "win32":
    import msvcrt

    def _take(descriptor: int) -> bool:
        os.lseek(descriptor, 0, os.SEEK_SET)
        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

    def _release(descriptor: int) -> None:
        os.lseek(descriptor, 0, os.SEEK_SET)
        msvcrt.locking(descriptor, msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def _take(descriptor: int) -> bool:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

    def _release(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_UN)
