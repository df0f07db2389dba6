import os
import sqlite3
import stat
import subprocess
import sys
from contextlib import closing

import pytest
from sqlalchemy import text

from bellcrank.errors import StorageFault
from bellcrank.shop.storage.engine import sqlite_module
from bellcrank.shop.storage.opening import open_storage
from bellcrank.shop.storage.tables import APPLICATION_ID, FORM


def ask(storage, sql):
    with storage.reading() as connection:
        return connection.execute(text(sql)).scalar()


def test_makes_a_new_file_in_a_new_folder(tmp_path):
    storage = open_storage(tmp_path / "new" / "shop")
    assert ask(storage, "SELECT count(*) FROM job") == 0
    assert ask(storage, "SELECT version_num FROM alembic_version") == FORM
    storage.close()


def test_opens_what_was_written_before(tmp_path):
    storage = open_storage(tmp_path)
    with storage.writing() as connection:
        connection.execute(text("INSERT INTO setting (key, value) VALUES ('shop_name', 'Łódka')"))
    storage.close()
    again = open_storage(tmp_path)
    assert ask(again, "SELECT value FROM setting") == "Łódka"
    again.close()


@pytest.mark.parametrize(
    ("pragma", "value"), [("journal_mode", "wal"), ("synchronous", 2), ("foreign_keys", 1), ("trusted_schema", 0)]
)
def test_keeps_the_file_the_careful_way(tmp_path, pragma, value):
    storage = open_storage(tmp_path)
    assert ask(storage, f"PRAGMA {pragma}") == value
    storage.close()


def test_every_table_keeps_to_its_types(tmp_path):
    storage = open_storage(tmp_path)
    with storage.reading() as connection:
        strict = dict(
            connection.execute(text("SELECT name, strict FROM pragma_table_list WHERE schema = 'main'")).all()
        )
    storage.close()
    ours = {"customer", "machine", "job", "event", "photo", "machine_torque", "invoice", "setting", "hand_reading"}
    assert {name for name in ours if strict[name]} == ours


def test_customers_are_nobody_elses_business_on_this_computer(tmp_path):
    storage = open_storage(tmp_path)
    storage.close()
    assert stat.S_IMODE((tmp_path / "shop.db").stat().st_mode) == 0o600


def test_refuses_a_strangers_database_and_leaves_it_as_it_was(tmp_path):
    path = tmp_path / "shop.db"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE recipe (id)")
    before = path.read_bytes()
    with pytest.raises(StorageFault, match="is not a shop's file of Bellcrank"):
        open_storage(tmp_path)
    assert path.read_bytes() == before


def test_refuses_a_file_that_is_no_database(tmp_path):
    (tmp_path / "shop.db").write_text("Dear diary, " * 200)
    with pytest.raises(StorageFault, match="Move it away, or start with another folder"):
        open_storage(tmp_path)


def test_refuses_a_file_of_a_newer_program(tmp_path):
    storage = open_storage(tmp_path)
    with storage.writing() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    storage.close()
    with pytest.raises(StorageFault, match="newer Bellcrank"):
        open_storage(tmp_path)


def test_refuses_a_folder_that_cannot_be_made(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(StorageFault, match="cannot be made"):
        open_storage(tmp_path / "file" / "shop")


def test_refuses_a_folder_that_cannot_be_written_to(tmp_path, monkeypatch):
    monkeypatch.setattr(os, "access", lambda *_: False)  # not by mode bits: whoever runs the tests may be root
    with pytest.raises(StorageFault, match="cannot be written to"):
        open_storage(tmp_path)


def test_refuses_a_file_that_cannot_be_written_to(tmp_path, monkeypatch):
    open_storage(tmp_path).close()
    monkeypatch.setattr(os, "access", lambda path, _: path == tmp_path)
    with pytest.raises(StorageFault, match=r"shop\.db cannot be written to"):
        open_storage(tmp_path)


def test_a_start_with_an_up_to_date_file_does_not_wait_for_alembic(tmp_path):
    open_storage(tmp_path).close()
    program = (
        "import sys; from pathlib import Path; from bellcrank.shop.storage.opening import open_storage; "
        f"open_storage(Path({str(tmp_path)!r})); print('alembic' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_an_empty_file_of_ours_is_brought_up_to_date(tmp_path):
    with closing(sqlite_module().connect(tmp_path / "shop.db")) as connection:
        connection.execute(f"PRAGMA application_id={APPLICATION_ID}")
    storage = open_storage(tmp_path)
    assert ask(storage, "SELECT version_num FROM alembic_version") == FORM
    assert ask(storage, "SELECT count(*) FROM job") == 0
    storage.close()


def test_several_programs_may_make_the_file_at_once(tmp_path):
    program = (
        "from pathlib import Path; from bellcrank.shop.storage.opening import open_storage; "
        f"open_storage(Path({str(tmp_path)!r}))"
    )
    running = [subprocess.Popen([sys.executable, "-c", program], stderr=subprocess.PIPE) for _ in range(3)]
    said = [one.communicate()[1] for one in running]
    assert [one.returncode for one in running] == [0, 0, 0], said
