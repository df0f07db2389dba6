"""A pull of the cord: its books, its repeatability, and how engines behave by what the trade and others report."""

import math
from dataclasses import replace

import numpy as np
import pytest

from bellcrank.bootstrap import open_library
from bellcrank.engine.air import standard_air
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.draw import draw_pulls
from bellcrank.engine.pull.many import Outcome, rates_of, run_pulls, trace_pull
from bellcrank.engine.pull.setting import Ignition, Setting, at_shares, engine_numbers, middle

LIBRARY = open_library()
CARDS = {card.id: card for card in LIBRARY.packs["walk-behind-mower"].engine_cards}
PULLS, ROOM = 200, 293.15


def drawn(pulls=PULLS, operator="usual", seed=1):
    return draw_pulls(LIBRARY.operators[operator], pulls, np.random.default_rng(seed))


def pulled(slip=0.0, card="overhead-valve-190", values=None, pulls=None, workers=2, **setting):
    """Rates of pulls at a slip in degrees."""
    told = middle(CARDS[card]) | (values or {})
    engine = engine_numbers(told, Setting(math.radians(slip), **setting))
    by = pulls or drawn()
    return rates_of(run_pulls(engine, by, workers), by, engine.inertia)


def kicks(rates):
    return rates.shares[Outcome.KICKS_BACK].value


def starts(rates):
    return rates.shares[Outcome.CATCHES].value


@pytest.mark.parametrize("card", CARDS)
def test_a_healthy_engine_starts_in_three_pulls_and_hardly_ever_kicks(card):
    # Garg, Funke and Janisch, Int. J. Industrial Ergonomics 3 (1989) 207, abstract: ten mowers, 99 people, four starts
    # each: 90 to 97 % started, the handle was pulled back in 0 to 5 % of cases
    rates = pulled(card=card)
    assert 1 - (1 - starts(rates)) ** 3 >= 0.90
    assert kicks(rates) <= 0.05


@pytest.mark.parametrize("card", CARDS)
@pytest.mark.parametrize("slip", [30, 60, 90, 150])
def test_a_late_spark_never_kicks(card, slip):
    # common practice, no source: burning after the top pushes the crank the way it turns
    assert kicks(pulled(slip, card)) == 0


@pytest.mark.parametrize("card", ["side-valve-190", "overhead-valve-160", "overhead-valve-190", "overhead-valve-210"])
def test_sixty_degrees_early_throws_nearly_every_charge_that_lights_back(card):
    # an own trial model in which the burning was built anew; no measurement behind it
    assert pulled(-60, card).kicks_back_if_ignitable.value > 0.9


def test_ninety_degrees_early_kicks_now_and_then():
    # common practice, no source: a cord that jerks on every third or fourth pull
    assert 0.05 < kicks(pulled(-90)) < 0.8
    ends = [
        kicks(pulled(-90, values=at_shares(CARDS["overhead-valve-190"], {"heat_factor": share}))) for share in (0, 1)
    ]
    assert min(ends) < 0.25
    assert max(ends) > 0.33


def test_a_loose_blade_kicks_with_a_good_key():
    # common practice, no source: the blade is the balance that carries the engine over the top
    assert kicks(pulled(blade_tight=False)) >= kicks(pulled()) + 0.2


def test_a_dead_release_kicks_with_a_good_key_the_more_the_lighter_the_hand():
    # common practice, no source: a bad compression release jerks the cord
    tight, dead = pulled(), pulled(release_works=False)
    light = pulled(release_works=False, pulls=drawn(operator="light"))
    assert tight.jerks.value < 0.01
    assert tight.jerks.value + 0.02 < dead.jerks.value < light.jerks.value
    assert light.bounces.value > kicks(light)


@pytest.mark.parametrize("slip", [-60, 90])
def test_it_does_not_start_far_early_or_far_late(slip):
    # valve and spark geometry
    assert starts(pulled(slip)) < 0.02


def test_a_far_late_spark_pops_through_the_carburettor_and_an_early_one_does_not():
    # valve and spark geometry: the wasted spark falls while fresh charge is drawn in
    assert pulled(90).pops_intake.value > 0.5
    assert pulled(90).pops_intake.value > 10 * pulled(-60).pops_intake.value


def test_breaker_points_do_not_kick_but_lose_their_spark():
    # common practice, no source: points stay timed to the crank, five degrees of flywheel are enough to lose the spark
    rates = pulled(-10, ignition=Ignition.POINTS)
    assert kicks(rates) == 0
    assert rates.shares[Outcome.NO_FIRE].value > 0.9


def test_all_outcomes_together_are_all_pulls():
    rates = pulled(-30)
    assert sum(share.value for share in rates.shares.values()) == pytest.approx(1)
    assert rates.ignitable.value == pytest.approx(0.73, abs=0.1)  # of the draw: 0.65 < N(1, 0.45) < 1.75 by its table


@pytest.mark.parametrize("slip", range(-180, 180, 30))
@pytest.mark.parametrize("card", ["side-valve-100", "overhead-valve-210"])
def test_the_energy_books_of_every_pull_close(card, slip):
    assert pulled(slip, card).unbooked < 1e-4


def test_the_same_seed_gives_the_same_answer_on_any_number_of_workers():
    engine, by = engine_numbers(middle(CARDS["overhead-valve-160"]), Setting(math.radians(-30))), drawn()
    alone = run_pulls(engine, by, workers=1)
    assert all(np.array_equal(alone, run_pulls(engine, by, workers)) for workers in (2, 3, 5))
    assert not np.array_equal(alone, run_pulls(engine, drawn(seed=2), workers=2))


def test_a_run_that_is_stopped_keeps_what_is_done():
    engine, by = engine_numbers(middle(CARDS["overhead-valve-160"]), Setting()), drawn()
    some = run_pulls(engine, by, 1, lambda done: done < 50)
    assert np.array_equal(some, run_pulls(engine, by, 1)[:50])


def test_cranking_pressure_falls_with_height_in_proportion_to_the_air():
    # by hand: all pressures scale with the one outside, within 2 % (heat, leak and the lighter pull do not quite)
    def most(height):
        values = middle(CARDS["overhead-valve-190"]) | {"voltage_per_speed": 10.0}  # no spark
        air = replace(standard_air(height), temperature=ROOM)
        engine = engine_numbers(values, Setting(release_works=False, air=air))
        kept = run_pulls(engine, drawn(60), 2)
        return np.median(kept[:, at.MOST_PRESSURE]), engine.ambient

    (low, ambient_low), (high, ambient_high) = most(0.0), most(2000.0)
    assert high / low == pytest.approx(ambient_high / ambient_low, rel=0.02)


def test_the_cord_is_pulled_no_faster_than_people_pull():
    # common practice, no source: 300 to 700 rpm by cord; Garg and Beller, Int. J. Industrial Ergonomics 6 (1990) 231,
    # abstract: men's peak pull 320 to 600 N at 1.1 to 0.7 m/s
    values = middle(CARDS["overhead-valve-190"]) | {"voltage_per_speed": 10.0}
    kept = run_pulls(engine_numbers(values, Setting()), drawn(), 2)
    assert 300 < np.median(kept[:, at.MOST_SPEED]) * 60 / (2 * math.pi) < 700
    assert 250 < np.median(kept[:, at.MOST_FORCE]) < 600


def test_one_pull_written_down_shows_what_was_counted():
    engine, by = engine_numbers(middle(CARDS["overhead-valve-190"]), Setting(math.radians(-60))), drawn()
    kept = run_pulls(engine, by, 2)
    which = int(np.argmax(kept[:, at.KICKED] > 0))
    trace = trace_pull(engine, by, which)
    assert trace.outcome is Outcome.KICKS_BACK
    assert trace.cord_force.max() == pytest.approx(kept[which, at.MOST_FORCE])
    assert trace.speed.min() < 0
    assert (np.diff(trace.time) > 0).all()
