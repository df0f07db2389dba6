"""Bring an older file to the present form, all steps or none, with a copy kept beside it first."""

from pathlib import Path
from types import ModuleType

from alembic.migration import MigrationContext
from alembic.operations import Operations
from sqlalchemy import Connection, Engine

from bellcrank.errors import StorageFault
from bellcrank.shop.storage.migrations import (
    r0001_first,
    r0002_hand_readings,
    r0003_lessons,
    r0004_own_pack,
    r0005_taps,
    r0006_own_models,
)
from bellcrank.shop.storage.tables import write_form

STEPS: tuple[ModuleType, ...] = (  # oldest first
    r0001_first,
    r0002_hand_readings,
    r0003_lessons,
    r0004_own_pack,
    r0005_taps,
    r0006_own_models,
)


def bring_up_to_date(engine: Engine, path: Path, form: str) -> None:
    """Do the steps the file has not had; the caller holds the write lock."""
    steps = _steps_after(form, path)
    _keep_copy(engine, path, form)
    with engine.connect().execution_options(bellcrank_writes=True) as connection:
        connection.detach()  # this connection goes away afterwards: its pragma must not be used for anything else
        _leave_foreign_keys_alone(connection)
        with connection.begin():
            with Operations.context(MigrationContext.configure(connection)):
                for step in steps:
                    step.upgrade()
            write_form(connection, steps[-1].revision)
            _refuse_orphans(connection, path)


def _steps_after(form: str, path: Path) -> tuple[ModuleType, ...]:
    if form == "":
        return STEPS
    known = [step.revision for step in STEPS]
    if form not in known:
        raise StorageFault(
            f"The shop's file {path} was written by a newer Bellcrank than this one. Nothing was changed. "
            "Install the newer Bellcrank, or start with another folder."
        )
    return STEPS[known.index(form) + 1 :]


def _keep_copy(engine: Engine, path: Path, form: str) -> None:
    copy = path.with_name(f"{path.stem}-before-{STEPS[-1].revision}-was-{form or 'new'}{path.suffix}")
    copy.unlink(missing_ok=True)
    with engine.connect() as connection:
        connection.detach()
        connection.connection.execute("VACUUM INTO ?", (str(copy),))  # past the engine: not inside BEGIN


def _leave_foreign_keys_alone(connection: Connection) -> None:
    # Rebuilding a parent table with foreign keys on deletes its children without a word; inside BEGIN the
    # pragma does nothing, so it goes past the engine.
    connection.connection.execute("PRAGMA foreign_keys=OFF")


def _refuse_orphans(connection: Connection, path: Path) -> None:
    orphans = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if orphans:
        raise StorageFault(
            f"The shop's file {path} could not be brought up to date: {len(orphans)} records would lose what they "
            "belong to. Nothing was changed; a copy lies beside it."
        )
