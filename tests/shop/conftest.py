from datetime import UTC, datetime, timedelta

import pytest

from bellcrank.bootstrap import open_shop
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.release import record_proof


class Clock:
    """A clock that goes on by a minute at each look."""

    def __init__(self):
        self.at = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)

    def __call__(self):
        self.at += timedelta(minutes=1)
        return self.at


@pytest.fixture
def shop(tmp_path):
    """Give an open shop without jobs."""
    opened = open_shop(tmp_path / "data", now=Clock())
    yield opened
    opened.close()


@pytest.fixture
def job(shop):
    """Give the number of a mower that will not start."""
    return take_in(shop, Story(complaint_words="won't start any more", complaints=("wont-start",), name="Ola Quay"))


GOOD_ANSWERS = {
    "yes-no": {"answer": "yes"},
    "yes-no-none": {"answer": "none"},
    "stop-time": {"times": "1.9 2.0 2.1", "timing": "video-60"},
    "tip-speed": {"speed": "3000 rpm", "blade": "510 mm"},
    "blade-bolt-torque": {"torque": "50 N·m"},
    "plug-lead-last": {"answer": "yes"},
}


@pytest.fixture
def prove_all(shop):
    """Give a function that answers the whole release list well, the items named in ``but`` left out."""

    def prove(number, *, but=()):
        for line in job_sheet(shop, number).release.lines:
            if line.id not in but and line.status != "passed":
                record_proof(shop, number, line.id, GOOD_ANSWERS[line.answer])

    return prove
