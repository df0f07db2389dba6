import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import text

from bellcrank.errors import StorageFault
from bellcrank.shop.storage.opening import open_storage

WRITE_MANY = """
import sys
from pathlib import Path
from sqlalchemy import text
from bellcrank.shop.storage.opening import open_storage

storage = open_storage(Path(sys.argv[1]))
print("open", flush=True)
sys.stdin.readline()
for place in range(int(sys.argv[3])):
    with storage.writing() as connection:
        row = {"key": f"{sys.argv[2]}-{place}", "value": ""}
        connection.execute(text("INSERT INTO setting (key, value) VALUES (:key, :value)"), row)
    print(place, flush=True)
"""


def start_writer(folder: Path, name: str, rows: int) -> subprocess.Popen[str]:
    arguments = [sys.executable, "-c", WRITE_MANY, str(folder), name, str(rows)]
    return subprocess.Popen(arguments, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)


def count(storage):
    with storage.reading() as connection:
        return connection.execute(text("SELECT count(*) FROM setting")).scalar_one()


@pytest.fixture
def storage(tmp_path):
    opened = open_storage(tmp_path)
    yield opened
    opened.close()


def put(connection, key):
    connection.execute(text("INSERT INTO setting (key, value) VALUES (:key, '')"), {"key": key})


def test_a_write_that_fails_half_way_keeps_nothing(storage):
    def write_half():
        with storage.writing() as connection:
            put(connection, "one")
            raise RuntimeError

    with pytest.raises(RuntimeError):
        write_half()
    assert count(storage) == 0


def test_reading_sees_one_moment_while_somebody_writes(storage):
    with storage.reading() as reader:
        before = reader.execute(text("SELECT count(*) FROM setting")).scalar_one()
        with storage.writing() as writer:
            put(writer, "one")
        after = reader.execute(text("SELECT count(*) FROM setting")).scalar_one()
    assert (before, after, count(storage)) == (0, 0, 1)


def test_a_record_that_belongs_to_nothing_is_refused(storage):
    orphan = "INSERT INTO photo (job_id, sha256, width, height, file_name, words, added_at) "
    values = f"VALUES (99, '{'0' * 64}', 1, 1, '', '', '')"
    with pytest.raises(StorageFault, match="Nothing of this step was kept"), storage.writing() as connection:
        connection.execute(text(orphan + values))


def test_a_text_is_refused_where_a_number_belongs(storage):
    row = "INSERT INTO invoice (job_id, year, running, issued_at, currency, total_minor) VALUES (1, 'x', 1, '', '', 1)"
    with pytest.raises(StorageFault), storage.writing() as connection:
        connection.execute(text(row))


def test_two_programs_that_write_at_once_both_succeed(storage, tmp_path):
    writers = [start_writer(tmp_path, name, 25) for name in ("left", "right")]
    for writer in writers:
        writer.stdout.readline()
    for writer in writers:
        writer.stdin.write("go\n")
        writer.stdin.flush()
    for writer in writers:
        writer.communicate()
    assert [writer.returncode for writer in writers] == [0, 0]
    assert count(storage) == 50


def test_what_was_said_to_be_kept_is_there_after_the_program_was_killed(tmp_path):
    writer = start_writer(tmp_path, "killed", 500)
    writer.stdout.readline()
    writer.stdin.write("go\n")
    writer.stdin.flush()
    said = [writer.stdout.readline() for _ in range(20)]
    writer.kill()
    said.extend(writer.communicate()[0].splitlines())
    kept = open_storage(tmp_path)
    with kept.reading() as connection:
        assert connection.execute(text("PRAGMA integrity_check")).scalar_one() == "ok"
    assert count(kept) >= len([line for line in said if line.strip()])
    kept.close()
