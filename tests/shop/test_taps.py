"""A tap sent again counts once."""

import threading

import pytest

from bellcrank.errors import NotAllowedNow, NotUnderstood
from bellcrank.shop.records import read_record
from bellcrank.shop.storage.taps import KeptBefore
from bellcrank.shop.taps import for_one_tap
from bellcrank.shop.work import choose_target, tick

KEY, OTHER = "0" * 31 + "1", "f" * 32


@pytest.fixture
def on_the_way(shop, job):
    """Give a job on its way in to the flywheel."""
    choose_target(shop, job, "flywheel")
    return job


def ticks(shop, number):
    return [event.body["operation"] for event in read_record(shop, number).standing("step")]


def test_the_same_tap_twice_is_one_row(shop, on_the_way):
    tick(for_one_tap(shop, KEY), on_the_way, "in", "lead-off", done=True)
    with pytest.raises(KeptBefore):
        for_one_tap(shop, KEY)
    assert ticks(shop, on_the_way) == ["lead-off"]


def test_a_tap_sent_again_does_not_undo_what_was_done_since(shop, on_the_way):
    tick(for_one_tap(shop, KEY), on_the_way, "in", "lead-off", done=True)
    tick(shop, on_the_way, "in", "lead-off", done=False)
    with pytest.raises(KeptBefore):
        tick(for_one_tap(shop, KEY), on_the_way, "in", "lead-off", done=True)
    assert len(ticks(shop, on_the_way)) == 2


def test_two_posts_of_one_tap_at_the_same_moment_are_one_row(shop, on_the_way):
    both_looked = [for_one_tap(shop, KEY) for _ in range(2)]  # neither saw the other's
    start, outcomes = threading.Barrier(2), []

    def send(one):
        start.wait()
        try:
            tick(one, on_the_way, "in", "lead-off", done=True)
            outcomes.append("kept")
        except KeptBefore:
            outcomes.append("kept before")

    threads = [threading.Thread(target=send, args=(one,)) for one in both_looked]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["kept", "kept before"]
    assert ticks(shop, on_the_way) == ["lead-off"]


def test_a_refused_tap_may_be_sent_again(shop, on_the_way):
    with pytest.raises(NotAllowedNow):
        tick(for_one_tap(shop, KEY), on_the_way, "in", "flywheel-off", done=True)
    tick(for_one_tap(shop, OTHER), on_the_way, "in", "lead-off", done=True)
    with pytest.raises(NotAllowedNow):  # and is judged anew, not taken for kept
        tick(for_one_tap(shop, KEY), on_the_way, "in", "flywheel-off", done=True)


def test_a_write_that_fails_keeps_no_key(shop, on_the_way):
    def write_and_fail():
        with for_one_tap(shop, KEY).storage.writing():
            raise RuntimeError("the lamp went out")

    with pytest.raises(RuntimeError):
        write_and_fail()
    tick(for_one_tap(shop, KEY), on_the_way, "in", "lead-off", done=True)
    assert ticks(shop, on_the_way) == ["lead-off"]


def test_what_follows_the_first_write_of_a_tap_is_written_too(shop, on_the_way):
    one = for_one_tap(shop, KEY)
    tick(one, on_the_way, "in", "lead-off", done=True)
    tick(one, on_the_way, "in", "lead-off", done=False)
    assert len(ticks(shop, on_the_way)) == 2


@pytest.mark.parametrize("key", ["", "1", "F" * 32, "0" * 33, "'; drop table tap; --".ljust(32)])
def test_a_key_that_is_no_key_is_refused(shop, key):
    with pytest.raises(NotUnderstood, match="Tap it again"):
        for_one_tap(shop, key)


def test_a_kept_tap_on_a_step_ticked_elsewhere_says_so(shop, on_the_way):
    tick(shop, on_the_way, "in", "lead-off", done=True)
    with pytest.raises(NotAllowedNow, match="is ticked already, from another phone or page"):
        tick(for_one_tap(shop, KEY), on_the_way, "in", "lead-off", done=True, only_new=True)
    tick(shop, on_the_way, "in", "lead-off", done=False)
    with pytest.raises(NotAllowedNow, match="is off already"):
        tick(for_one_tap(shop, KEY), on_the_way, "in", "lead-off", done=False, only_new=True)
