"""Scales of measured checks, read from the packs."""

from collections.abc import Callable
from pathlib import Path

import pytest

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.checks import problems
from bellcrank.knowledge.pack import read_library

FILE = "systems/engine/scales.csv"
LINE = "compression-gauge,kPa,low;275;normal;620;high,5,15"
Spoil = Callable[[str, str, str], None]


def test_a_scale_is_kept_in_si_with_the_error_of_its_instrument():
    checks = {one.id: one for one in read_library().packs["walk-behind-mower"].checks}
    scale = checks["compression-gauge"].scale
    assert scale.limits == (275e3, 620e3)
    # By hand: 5 % of 400 kPa and 15 kPa together.
    assert scale.error(400e3) == pytest.approx(25e3)


@pytest.mark.parametrize(
    ("new", "words"),
    [
        ("compression-gauge,kPaa,low;275;normal;620;high,5,15", "must be a unit of the shop"),
        ("compression-gauge,kPa,low;275;normal;620,5,15", "must be results and limits by turns"),
        ("compression-gauge,kPa,low;275;normal;much;high,5,15", "limits that are no numbers: 275, much"),
        ("compression-gauge,kPa,low;620;normal;275;high,5,15", "the limits 620, 275 must rise"),
        ("compression-gauge,kPa,low;275;normal;620;high,5,0", "every instrument errs"),
    ],
)
def test_refuses_a_scale_that_cannot_be(packs: Path, spoil: Spoil, new: str, words: str):
    spoil(FILE, LINE, new)
    with pytest.raises(KnowledgeFault, match=rf"{FILE}, line 2: .*{words}"):
        read_library(packs)


@pytest.mark.parametrize(
    ("new", "words"),
    [
        ("compression-gauge,kPa,low;275;fine;620;high,5,15", "there is no result “fine”"),
        ("compression-gauge,kPa,low;275;normal,5,15", "there is no reading for “high”"),
    ],
)
def test_tells_of_a_scale_that_misses_the_results_of_its_check(packs: Path, spoil: Spoil, new: str, words: str):
    spoil(FILE, LINE, new)
    assert any(words in one.words for one in problems(read_library(packs)))


@pytest.mark.parametrize(
    ("check", "words"),
    [
        ("compression-gauge", "limits 275 and 620 kPa; errs by about 5 %, at least 15 kPa"),
        ("stop-time", "limit 3 s; errs by about 0.15 s"),
        ("coil-gap", "limits 0.02, 0.15 and 0.36 mm; errs by about 0.03 mm"),
    ],
)
def test_says_its_limits_and_how_far_the_instrument_errs(check: str, words: str):
    # By hand from scales.csv.
    checks = {one.id: one for one in read_library().packs["walk-behind-mower"].checks}
    assert checks[check].scale.words() == words
