"""What a compression gauge reads on engines of a card."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import lognorm

from bellcrank.engine.card import Ranged
from bellcrank.engine.compression import cranking_pressure, trapped_ratio
from bellcrank.engine.gauge import HOSE, GaugeReadings, Release, gauge_readings
from bellcrank.knowledge.pack import read_library

CARDS = {card.id: card for card in read_library().packs["walk-behind-mower"].engine_cards}
CARD = CARDS["overhead-valve-190"]
SEA = 101_325.0  # [Pa] standard atmosphere, ISO 2533


def sure(ranged, value=None):
    value = ranged.value if value is None else value
    return Ranged(value, value, value, ranged.basis, ranged.source)


def test_a_tight_engine_without_a_release_reads_what_the_polytropic_says():
    # By hand: p = 101.325 kPa (r^n - 1), n spread evenly over 1.20 to 1.33, nothing else varied.
    tight = replace(
        CARD, leak=sure(CARD.leak, 0.0), compression=sure(CARD.compression), intake_closes=sure(CARD.intake_closes)
    )
    ratio = trapped_ratio(CARD.drive, CARD.intake_closes.value - np.pi, HOSE)
    by_hand = [np.log(cranking_pressure(SEA, ratio, n)) for n in np.linspace(1.20, 1.33, 2001)]
    readings = gauge_readings(tight, Release.DEAD)
    assert readings.median == pytest.approx(np.exp(np.mean(by_hand)), rel=0.02)
    assert readings.spread == pytest.approx(np.std(by_hand), rel=0.15)


def test_a_dead_release_reads_higher_and_a_stuck_one_lower_than_a_working_one():
    works, dead, stays = (gauge_readings(CARD, one).median for one in Release)
    assert stays < works < dead


def test_readings_are_a_log_normal_distribution():
    # Oracle: scipy.stats.lognorm, per unit of the logarithm.
    readings = GaugeReadings(400e3, 0.3)
    spread = lognorm(0.3, scale=400e3)
    ratio = readings.density(300e3) / readings.density(500e3)
    assert ratio == pytest.approx(300e3 * spread.pdf(300e3) / (500e3 * spread.pdf(500e3)))
    assert readings.nine_in_ten() == pytest.approx(spread.interval(0.90), rel=1e-3)


def test_the_table_kept_with_the_pack_is_what_is_worked_out():
    # Guards against a stale table; it proves nothing about engines.
    kept = read_library().packs["walk-behind-mower"].gauge.readings["side-valve-150", Release.WORKS]
    anew = gauge_readings(CARDS["side-valve-150"], Release.WORKS)
    assert (kept.median, kept.spread) == pytest.approx((anew.median, anew.spread), rel=2e-3)
