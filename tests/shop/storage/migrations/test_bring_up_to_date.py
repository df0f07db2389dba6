from contextlib import closing

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.operations import Operations
from sqlalchemy import text

from bellcrank.errors import StorageFault
from bellcrank.shop.storage.engine import engine_for, sqlite_module
from bellcrank.shop.storage.migrations.bring_up_to_date import STEPS, bring_up_to_date
from bellcrank.shop.storage.opening import open_storage
from bellcrank.shop.storage.tables import APPLICATION_ID, FORM, metadata, write_form

EVERYTHING = "SELECT type, name, tbl_name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%' ORDER BY type, name"


def in_parts(sql):
    """Columns in their order, then the constraints sorted: their order says nothing."""
    words = " ".join((sql or "").replace("(", " ( ").replace(")", " ) ").replace(",", " , ").split())
    columns, *constraints = words.removesuffix(" ) STRICT").split(" , CONSTRAINT ")
    return columns, sorted(constraints), words.endswith("STRICT")


def form_of(engine):
    with engine.connect() as connection:
        return [(*row[:3], in_parts(row[3])) for row in connection.execute(text(EVERYTHING))]


@pytest.fixture
def brought_up(tmp_path):
    """Give the engine of a file made step by step."""
    path = tmp_path / "shop.db"
    with closing(sqlite_module().connect(path)) as connection:
        connection.execute(f"PRAGMA application_id={APPLICATION_ID}")
    engine = engine_for(path)
    bring_up_to_date(engine, path, "")
    yield engine
    engine.dispose()


def test_the_steps_lead_to_the_same_form_as_a_new_file(brought_up, tmp_path):
    storage = open_storage(tmp_path / "new")
    fresh = engine_for(storage.path)
    assert form_of(brought_up) == form_of(fresh)
    fresh.dispose()
    storage.close()


def test_alembic_finds_no_difference_to_the_tables(brought_up):
    with brought_up.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []


def test_the_newest_step_is_the_form_the_program_expects():
    assert STEPS[-1].revision == FORM


def test_each_step_follows_the_one_before_it():
    assert [step.down_revision for step in STEPS] == [None, *(step.revision for step in STEPS[:-1])]


def test_a_copy_is_kept_before_anything_is_changed(brought_up, tmp_path):
    assert [path.name for path in tmp_path.glob("shop-before-*.db")] == [f"shop-before-{FORM}-was-new.db"]


def test_refuses_a_form_it_does_not_know_and_makes_no_copy(tmp_path):
    engine = engine_for(tmp_path / "shop.db")
    with pytest.raises(StorageFault, match="written by a newer Bellcrank"):
        bring_up_to_date(engine, tmp_path / "shop.db", "9999")
    engine.dispose()
    assert list(tmp_path.glob("*before*")) == []


def test_a_file_of_the_first_form_keeps_what_is_in_it_and_takes_what_later_forms_hold(tmp_path):
    path = tmp_path / "shop.db"
    engine = engine_for(path)
    with engine.connect().execution_options(bellcrank_writes=True) as connection, connection.begin():
        with Operations.context(MigrationContext.configure(connection)):
            STEPS[0].upgrade()
        connection.execute(text("INSERT INTO setting (key, value) VALUES ('mechanic', 'Kari')"))
        write_form(connection, "0001")
    engine.dispose()
    storage = open_storage(tmp_path)
    with storage.reading() as connection:
        assert connection.execute(text("SELECT value FROM setting")).scalar_one() == "Kari"
        for table in ("hand_reading", "lesson", "imported_counts"):
            assert connection.execute(text(f"SELECT count(*) FROM {table}")).scalar_one() == 0  # noqa: S608
        assert connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one() == FORM
    storage.close()
    assert (tmp_path / f"shop-before-{FORM}-was-0001.db").exists()
