"""Long work in the terminal: it tells how far it is, and a stop keeps what is done."""

import os
import signal

import pytest

from bellcrank.cli import progress
from bellcrank.cli.progress import FIRST_TIME, at_work


@pytest.fixture
def interruptible():
    """Ctrl-C as in a terminal, also where the tests run in the background and it is ignored."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("interruptible")
def test_a_stop_is_asked_for_and_nothing_is_lost(capsys):
    with at_work("pulls", 100) as work:
        assert work(25)
        os.kill(os.getpid(), signal.SIGINT)
        assert not work(50)
    assert "Stopped; what was done by then is told." in capsys.readouterr().err
    with pytest.raises(KeyboardInterrupt):  # afterwards Ctrl-C is what it was
        signal.raise_signal(signal.SIGINT)


def test_waiting_for_the_first_pull_is_explained(capsys, monkeypatch):
    monkeypatch.setattr(progress, "PATIENCE", 0.0)
    with at_work("pulls", 100) as work:
        for _ in range(200_000):
            if FIRST_TIME in capsys.readouterr().err:
                break
        else:
            pytest.fail("nothing was said")
        assert work(25)


def test_quick_work_says_nothing(capsys):
    with at_work("pulls", 100) as work:
        assert work(100)
    assert capsys.readouterr().err == ""
