from datetime import UTC, datetime, timedelta

import pytest

from bellcrank.bootstrap import open_shop
from bellcrank.shop.demo import load_demo
from bellcrank.shop.fill_sheet import bench_sheet, job_sheet
from bellcrank.shop.release import record_proof
from bellcrank.shop.work import tick

FILMED_STOP = {"times": "1.9 2.0 1.9", "timing": "video-120"}
GOOD_ANSWERS = {
    "yes-no": {"answer": "yes"},
    "plug-lead-last": {"answer": "yes"},
    "stop-time": FILMED_STOP,
    "tip-speed": {"speed": "2950 rpm", "blade": "460 mm"},
    "blade-bolt-torque": {"torque": "50 N·m"},
}


class Mechanic:
    """Ina at her bench: what she reads and what she taps."""

    def __init__(self, shop):
        self.shop = shop

    def sheet(self, number):
        return job_sheet(self.shop, number)

    def bench(self):
        return bench_sheet(self.shop)

    def step(self, number):
        """Give the step that is next, None when all is done."""
        return self.sheet(number).work.current

    def do_steps(self, number, direction):
        """Tick the steps of one direction one after the other and give what they said."""
        said = []
        while (step := self.step(number)) is not None and step.direction == direction:
            said.append(step)
            tick(self.shop, number, direction, step.operation, done=True, by="Ina")
        return said

    def prove(self, number, *, but=()):
        """Go through the release list with good answers, some items left out."""
        for line in self.sheet(number).release.lines:
            if line.id not in but and line.status != "passed":
                record_proof(self.shop, number, line.id, GOOD_ANSWERS[line.answer], "Ina")

    def cause(self, number, words):
        """Give the line of a cause by its words, None when it is not on the sheet."""
        return next((line for line in self.sheet(number).causes if words in line.words), None)


@pytest.fixture
def ina(tmp_path):
    """Give the mechanic of the demo shop."""
    morning = datetime(2026, 4, 14, 7, 30, tzinfo=UTC)
    looks = iter(range(10**6))
    shop = open_shop(tmp_path, now=lambda: morning + timedelta(seconds=20 * next(looks)))
    load_demo(shop)
    yield Mechanic(shop)
    shop.close()
