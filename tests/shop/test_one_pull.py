"""One pull to look at: whose it is, and what happened in it in order."""

import subprocess
import sys

import numpy as np
import pytest

from bellcrank.bootstrap import open_library
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.many import Outcome, PullTrace
from bellcrank.engine.slip_table import State
from bellcrank.errors import BellcrankError
from bellcrank.shop.one_pull import PullAsked, one_pull, pull_asked, what_happened

ENGINE = "overhead-valve-160"


@pytest.fixture(scope="module")
def library():
    return open_library()


@pytest.fixture(scope="module")
def kick(library):
    """Give a pull with the flywheel 60° forward."""
    return one_pull(library, PullAsked(ENGINE, -60, State.SOUND, "module"))


def traced(burning, kept=()):
    """Give a trace of a tenth of a second a row, the crank turning half a turn in each, with what was kept of it."""
    rows = np.arange(len(burning), dtype=float)
    numbers = np.zeros(at.KEPT)
    for place, value in kept:
        numbers[place] = value
    none = np.zeros_like(rows)
    angle = np.pi * rows - np.pi / 9
    return PullTrace(rows / 10, angle, none, none, none + 200, np.array(burning, float), Outcome.NO_FIRE, numbers)


def test_the_equations_are_imported_only_for_a_pull():
    asked = "import sys, bellcrank.shop.one_pull, bellcrank.web.app; sys.exit('numba' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", asked], check=False).returncode == 0


def test_a_pull_is_the_same_however_its_slip_is_written(library):
    typed = {"engine": ENGINE, "slip": "-60 °"}
    assert pull_asked(library, typed) == pull_asked(library, typed | {"slip": "-60", "state": "sound"})


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        ({"engine": "rotary"}, "engine", "rotary"),
        ({"slip": "much"}, "slip", "much"),
        ({"slip": "1000 °"}, "slip", "it must be between -360° and 360°"),
        ({"state": "points"}, "state", "“points” is not known here"),
        ({"ignition": "coil"}, "ignition", "“coil” times no spark here"),
    ],
)
def test_refuses_what_it_cannot_read(library, typed, field, words):
    with pytest.raises(BellcrankError, match=words) as refused:
        pull_asked(library, {"engine": ENGINE, "slip": "-60 °"} | typed)
    assert refused.value.field == field


def test_a_spark_far_forward_throws_the_crank_back_after_it_lit(kick):
    words = [one for _, one in kick.events]
    assert kick.outcome == "kicks back"
    assert words[0].startswith("a spark lights it 8")
    assert words[0].endswith("before the top")
    assert "fire throws the crank back" in words[1:]


def test_the_crank_turns_forward_when_it_lights_and_stands_when_it_is_thrown_back(kick):
    lit, back = (np.searchsorted(kick.seconds, second) for second, _ in kick.events[:2])
    assert kick.speed_rpm[lit] > 100
    assert abs(kick.speed_rpm[back]) < 30
    assert min(kick.speed_rpm) < -30


def test_before_the_pull_the_cylinder_is_at_the_pressure_of_the_air(kick):
    assert kick.pressure_kpa[0] == pytest.approx(0, abs=1)


def test_the_cautions_come_with_it(kick):
    assert any("No further pulls" in one for one in kick.cautions)


def test_with_a_good_key_it_runs(library):
    pull = one_pull(library, PullAsked(ENGINE, 0, State.SOUND, "module"))
    assert pull.events[-1][1] == "it runs"
    assert pull.outcome == "catches and runs"


def test_of_many_fires_the_first_and_the_last_are_named():
    told = list(what_happened(traced([0, 1, 0, 1, 0, 1, 0, 1, 0])))
    assert [round(second, 1) for second, _ in told] == [0.1, 0.7]


def test_says_on_which_side_of_the_top_a_spark_lit():
    ((_, words),) = what_happened(traced([0, 0, 1]))
    assert words == "a spark lights it 20° before the top"


def test_a_torn_handle_is_named_after_the_crank_was_thrown_back():
    kept = ((at.REVERSED_AT, 0.3), (at.TORN, 1))
    told = list(what_happened(traced([0, 0, 1, 1, 1, 1], kept)))
    assert [words for _, words in told][1:] == ["fire throws the crank back", "the handle is torn away"]
    assert told[2][0] == pytest.approx(0.5)


def test_nothing_that_lit_leaves_nothing_to_name():
    assert list(what_happened(traced([0, 0, 0]))) == []
