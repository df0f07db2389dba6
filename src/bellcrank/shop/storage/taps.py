"""Keys of taps a phone sends when the link is back: each is kept with what it wrote, so that it counts once."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime

from sqlalchemy import Connection, insert, select

from bellcrank.shop.storage.engine import Storage
from bellcrank.shop.storage.tables import tap


class KeptBefore(Exception):
    """The very same tap was kept before, its answer lost on the way: no fault, the phone may let go of it."""


def tap_is_kept(connection: Connection, key: str) -> bool:
    """Whether what this tap wrote stands in the file."""
    return connection.execute(select(tap.c.id).where(tap.c.key == key)).first() is not None


class OneTapStorage(Storage):
    """The shop's file for one tap: its first write also keeps the tap's key, all or nothing."""

    def __init__(self, whole: Storage, key: str, now: datetime) -> None:
        self.path = whole.path
        self._whole = whole
        self._key: str | None = key  # None once it is kept
        self._now = now

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection as the whole storage does."""
        with self._whole.reading() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection as the whole storage does; the key goes in with the first write."""
        with self._whole.writing() as connection:
            if self._key is not None:
                if tap_is_kept(connection, self._key):
                    raise KeptBefore(self._key)
                connection.execute(insert(tap).values(key=self._key, kept_at=self._now))
            yield connection
        self._key = None

    def mark(self) -> tuple[int, ...]:
        """Give the mark of the whole storage."""
        return self._whole.mark()

    def close(self) -> None:
        """Let go of the file."""
        self._whole.close()
