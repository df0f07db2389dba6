"""Opening the shop's file: make it, know it for ours, bring an older one up to date, refuse what is not."""

import os
from contextlib import closing
from pathlib import Path

from sqlalchemy import Connection, Engine, text

from bellcrank.errors import StorageFault
from bellcrank.shop.storage.engine import Storage, engine_for, in_shop_words, sqlite_module
from bellcrank.shop.storage.tables import APPLICATION_ID, FORM, metadata, write_form
from bellcrank.shop.storage.write_lock import WriteLock

FILE_NAME = "shop.db"
LOCK_NAME = "shop.lock"
NO_FORM = ""  # our file, but no step of shop/storage/migrations has been done on it


def open_storage(folder: Path) -> Storage:
    """Open the shop's file in that folder; a new one is made when there is none."""
    _make_folder(folder)
    path = folder / FILE_NAME
    form = _form_of(path)
    engine = engine_for(path)
    lock = WriteLock(folder / LOCK_NAME)
    storage = Storage(path, engine, lock)
    try:
        _bring_up(storage, engine, lock, form)
    except StorageFault:
        storage.close()
        raise
    return storage


def _bring_up(storage: Storage, engine: Engine, lock: WriteLock, form: str | None) -> None:
    if form == FORM:
        _refuse_read_only(storage.path)
    elif form is None:
        with storage.writing() as connection:
            _fill_new(connection)
        storage.path.chmod(0o600)  # customers' names and addresses are nobody else's business on this computer
    else:
        from bellcrank.shop.storage.migrations.bring_up_to_date import bring_up_to_date  # noqa: PLC0415  Alembic imports slowly

        with in_shop_words(storage.path), lock.held():
            bring_up_to_date(engine, storage.path, form)


def _fill_new(connection: Connection) -> None:
    if connection.execute(text("SELECT count(*) FROM sqlite_schema")).scalar_one():
        return  # another program made it while we waited for the lock
    metadata.create_all(connection)
    write_form(connection, FORM)


def _form_of(path: Path) -> str | None:
    """Give the form of the file, None when there is none or it is empty; a stranger's file is refused, untouched."""
    if not path.exists() or path.stat().st_size == 0:
        return None
    sqlite = sqlite_module()
    try:
        with closing(sqlite.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as connection:
            names = {row[0] for row in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")}
            ours = connection.execute("PRAGMA application_id").fetchone()[0] == APPLICATION_ID
            if names and not ours:
                raise _not_ours(path)
            if not ours:
                return None
            if "alembic_version" not in names:
                return NO_FORM
            row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
            return str(row[0]) if row else NO_FORM
    except sqlite.OperationalError as fault:
        raise StorageFault(
            f"The shop's file {path} cannot be opened ({fault}). Check that the folder is writable for you and not on "
            "a network drive, or bring back a copy."
        ) from fault
    except sqlite.DatabaseError:
        raise _not_ours(path) from None


def _not_ours(path: Path) -> StorageFault:
    return StorageFault(
        f"The file {path} is not a shop's file of Bellcrank. Nothing was changed. Move it away, or start with another "
        "folder."
    )


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as fault:
        raise StorageFault(
            f"The folder {folder} cannot be made ({fault.strerror}). Start with a folder you may write to."
        ) from None
    _refuse_read_only(folder)


def _refuse_read_only(path: Path) -> None:
    if not os.access(path, os.W_OK):
        raise StorageFault(f"{path} cannot be written to. Make it writable for you, or start with another folder.")
