"""The shop's file, open: reading sees one moment, writing is all or nothing."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import ModuleType
from typing import Any, TypeAlias

from sqlalchemy import URL, Connection, Engine, Insert, create_engine, event
from sqlalchemy.exc import DBAPIError
from sqlalchemy.pool import ConnectionPoolEntry

from bellcrank.errors import StorageFault
from bellcrank.shop.storage.write_lock import WriteLock

BUSY_TIMEOUT_MS = 10_000  # [ms] how long SQLite itself waits for another connection
LARGEST_JOURNAL_BYTES = 64 * 2**20  # [bytes] the write-ahead file is cut back to this after a tidy-up
PRAGMAS = (
    f"PRAGMA busy_timeout={BUSY_TIMEOUT_MS}",
    "PRAGMA journal_mode=WAL",
    "PRAGMA synchronous=FULL",
    "PRAGMA foreign_keys=ON",
    "PRAGMA trusted_schema=OFF",
    f"PRAGMA journal_size_limit={LARGEST_JOURNAL_BYTES}",
)


OpenFile: TypeAlias = Connection  # what the shop hands on while a transaction is open


class Storage:
    """One shop's file. Hand out a connection for reading or for writing, nothing else."""

    def __init__(self, path: Path, engine: Engine, lock: WriteLock) -> None:
        self.path = path
        self._engine = engine
        self._writer = engine.execution_options(bellcrank_writes=True)
        self._lock = lock
        self._written = 0  # times, by this program

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that sees the file as it is at this moment, until the block ends."""
        with in_shop_words(self.path), self._engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection whose changes are all kept when the block ends well, and none when it does not."""
        with in_shop_words(self.path), self._lock.held(), self._writer.connect() as connection, connection.begin():
            yield connection
        self._written += 1

    def mark(self) -> tuple[int, ...]:
        """Give something that changes whenever anybody has written into the file; the file itself is not asked.

        Our own writes are counted, those of other programs show in size and time.
        """
        sides = (path.stat() for path in (self.path, Path(f"{self.path}-wal")) if path.exists())
        return (self._written, *(figure for side in sides for figure in (side.st_mtime_ns, side.st_size)))

    def close(self) -> None:
        """Let go of the file."""
        self._engine.dispose()


def sqlite_module() -> ModuleType:
    """Give the newest SQLite there is: the separate package where installed, else the one Python brings."""
    try:
        import pysqlite3.dbapi2 as newer  # noqa: PLC0415  not there on every platform
    except ImportError:
        return sqlite3
    return newer  # type: ignore[no-any-return]


def engine_for(path: Path) -> Engine:
    """Make the engine for the file at that path; the file is opened at the first use."""
    engine = create_engine(URL.create("sqlite", database=str(path)), module=sqlite_module())
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return engine


def _set_up(connection: Any, _: ConnectionPoolEntry) -> None:
    connection.isolation_level = None  # we say BEGIN ourselves: the module's own way gives reads no snapshot
    for pragma in PRAGMAS:
        connection.execute(pragma)


def _begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("bellcrank_writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


@contextmanager
def in_shop_words(path: Path) -> Iterator[None]:
    """Turn what the database says of a full disk or a locked file into a sentence for the bench."""
    try:
        yield
    except DBAPIError as fault:
        raise StorageFault(
            f"The shop's file {path} cannot be used ({fault.orig}). Nothing of this step was kept. "
            "Check that the disk is not full and the folder is writable, then do the step again."
        ) from fault


def add_row(connection: Connection, statement: Insert) -> int:
    """Insert one row and give its id."""
    key: Any = connection.execute(statement).inserted_primary_key
    return int(key[0])
