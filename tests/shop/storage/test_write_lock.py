import threading
import time

import pytest

from bellcrank.errors import StorageFault
from bellcrank.shop.storage.write_lock import WriteLock


def test_a_second_lock_on_the_same_file_waits_until_the_first_lets_go(tmp_path):
    first, second = WriteLock(tmp_path / "lock"), WriteLock(tmp_path / "lock")
    order = []
    held = threading.Event()

    def write_first():
        with first.held():
            held.set()
            time.sleep(0.05)
            order.append("first")

    thread = threading.Thread(target=write_first)
    thread.start()
    held.wait()
    with second.held():
        order.append("second")
    thread.join()
    assert order == ["first", "second"]


def test_says_that_another_program_writes_when_it_does_not_let_go(tmp_path):
    with (
        WriteLock(tmp_path / "lock").held(),
        pytest.raises(StorageFault, match="Another program has been writing"),
        WriteLock(tmp_path / "lock", patience_s=0.02).held(),
    ):
        pass


def test_two_threads_of_one_program_never_write_at_once(tmp_path):
    lock = WriteLock(tmp_path / "lock", patience_s=0.02)
    with lock.held(), pytest.raises(StorageFault, match="Nothing was changed"), lock.held():
        pass


def test_a_failed_write_lets_go_of_the_lock(tmp_path):
    lock = WriteLock(tmp_path / "lock")
    with pytest.raises(RuntimeError), lock.held():
        raise RuntimeError
    with lock.held():
        pass


def test_a_folder_that_is_gone_is_named(tmp_path):
    with pytest.raises(StorageFault, match="cannot be written to"), WriteLock(tmp_path / "gone" / "lock").held():
        pass
