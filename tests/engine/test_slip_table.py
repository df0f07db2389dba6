"""The tables of computed pulls that are kept with the engine cards."""

import math
from dataclasses import replace

import numpy as np
import pytest

from bellcrank.bootstrap import open_library
from bellcrank.engine.pull.build import MAP_PULLS, MAP_SLIPS, SEED, SLIPS, counted, healthy_engines
from bellcrank.engine.pull.draw import draw_pulls
from bellcrank.engine.pull.setting import Setting, middle
from bellcrank.engine.slip_table import CATCHES, JERKS, KICKS_BACK, POPS_INTAKE, PULLED_BY, STATES, State, fingerprint

LIBRARY = open_library()
CARDS = {card.id: card for card in LIBRARY.packs["walk-behind-mower"].engine_cards}
OPERATOR = LIBRARY.operators[PULLED_BY]


def slip_at(table, degrees):
    return int(np.argmin(np.abs(np.degrees(table.slips) - degrees)))


def share(table, state, degrees, what):
    return table.counts[:, STATES.index(state), slip_at(table, degrees), what].sum() / (
        table.counts.shape[0] * table.pulls
    )


@pytest.mark.parametrize("card", CARDS)
class TestTheTableOfACard:
    def test_belongs_to_the_card_as_it_is(self, card):
        assert LIBRARY.slip_tables[card].fingerprint == fingerprint(CARDS[card], OPERATOR)

    def test_counts_every_pull_once(self, card):
        table = LIBRARY.slip_tables[card]
        assert (table.counts[..., :5].sum(axis=-1) == table.pulls).all()
        assert (table.map_counts[..., :5].sum(axis=-1) == table.map_pulls).all()

    def test_holds_engines_that_behave_like_healthy_ones(self, card):
        # Garg, Funke and Janisch, Int. J. Industrial Ergonomics 3 (1989) 207, abstract: 90 to 97 % started in a few
        # pulls, the handle pulled back in 0 to 5 %
        table = LIBRARY.slip_tables[card]
        assert table.counts.shape[0] >= 12
        assert share(table, State.SOUND, 0, KICKS_BACK) < 0.05
        assert 1 - (1 - share(table, State.SOUND, 0, CATCHES)) ** 3 > 0.9

    def test_never_kicks_late_whatever_the_engine(self, card):
        # common practice, no source; the sturdiest finding of a trial model over 172 engines
        table = LIBRARY.slip_tables[card]
        late = table.slips >= math.radians(30)
        late &= table.slips < math.radians(170)  # half a turn late is half a turn early
        assert table.counts[:, STATES.index(State.SOUND), late, KICKS_BACK].sum() == 0

    def test_says_what_a_loose_blade_and_a_dead_release_do_with_a_good_key(self, card):
        # common practice, no source: both jerk the cord; a release matters where there is compression to release
        table = LIBRARY.slip_tables[card]
        sound, dead = (share(table, state, 0, JERKS) for state in (State.SOUND, State.RELEASE_DEAD))
        assert share(table, State.BLADE_LOOSE, 0, JERKS) > sound + 0.1
        assert share(table, State.BOTH, 0, JERKS) > sound + 0.3
        assert dead > sound + 0.05 or CARDS[card].compression.value < 7

    def test_pops_far_late_and_not_early(self, card):
        # valve and spark geometry
        table = LIBRARY.slip_tables[card]
        assert share(table, State.SOUND, 90, POPS_INTAKE) > 10 * share(table, State.SOUND, -60, POPS_INTAKE)


def test_a_row_of_the_map_is_made_by_the_equations_as_they_are():
    # a second run of the same draw: the kept counts are not those of older equations
    card, table = "overhead-valve-160", LIBRARY.slip_tables["overhead-valve-160"]
    drawn = draw_pulls(OPERATOR, MAP_PULLS, np.random.default_rng(SEED))
    row = list(MAP_SLIPS).index(-30)
    assert (counted(middle(CARDS[card]), Setting(math.radians(-30)), drawn, 2) == table.map_counts[row]).all()


def test_a_row_of_the_table_is_made_by_the_equations_as_they_are():
    table = LIBRARY.slip_tables["side-valve-100"]
    engines = healthy_engines(CARDS["side-valve-100"], OPERATOR, 2)
    assert len(engines) == table.counts.shape[0]
    drawn = draw_pulls(OPERATOR, table.pulls, np.random.default_rng(SEED + 1))
    for slip in (-60, 0, 90):
        found = counted(engines[0], Setting(math.radians(slip)), drawn, 2)
        assert (found == table.counts[0, STATES.index(State.SOUND), SLIPS.index(slip)]).all()


def test_a_changed_card_is_found_out():
    card = CARDS["side-valve-150"]
    higher = replace(card, leak=replace(card.leak, high=card.leak.high * 1.5))
    assert fingerprint(higher, OPERATOR) != fingerprint(card, OPERATOR)
