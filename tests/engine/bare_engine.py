"""The usual card's engine with parts of its physics taken away, and its crank turned evenly: for tests of the rest."""

import math

import numpy as np

from bellcrank.bootstrap import open_library
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.places import PullNumbers
from bellcrank.engine.pull.run import advance, begin
from bellcrank.engine.pull.setting import Setting, engine_numbers, middle

CARD = "overhead-valve-190"
LIBRARY = open_library()
CARDS = {card.id: card for card in LIBRARY.packs["walk-behind-mower"].engine_cards}
NEVER = 100.0  # [rad] a place the crank never comes to
HUGE = 1e9  # [kg·m²] a crank that nothing holds up
SHUT = {
    "intake_opens": NEVER, "intake_closes": NEVER + 4 * math.pi, "exhaust_opens": NEVER, "exhaust_closes": NEVER,
    "release_until": -NEVER, "leak": 0.0,
}  # fmt: skip
NO_FRICTION = {"dry_friction": 0.0, "gas_friction": 0.0, "oil_friction": 0.0, "air_friction": 0.0}
NO_LOSS = {**SHUT, **NO_FRICTION, "heat_factor": 0.0}
NO_HAND = PullNumbers(-math.pi, 0.0, 1.0, 1.0, 1.0, HUGE, 1.0, 1.0, 0.0)  # from the bottom, all that is in it fresh


def bare_engine(values=None, **replaced):
    """Set the card's engine up with some of its values changed, and some of its numbers replaced."""
    return engine_numbers(middle(CARDS[CARD]) | (values or {}), Setting())._replace(**replaced)


def begun(engine, speed, pull=NO_HAND):
    """Give state and flags of a crank that turns with nobody at the cord."""
    state, flags = np.zeros(at.STATES), np.zeros(at.FLAGS)
    begin(engine, pull, state)
    state[at.SPEED], flags[at.HAND_MODE] = speed, at.GONE
    return state, flags


def turn_evenly(state, flags, engine, pull, end, steps):
    """Turn the crank to an angle in so many equal steps."""
    room = np.zeros((5, at.STATES))
    step = (end - state[at.ANGLE]) / state[at.SPEED] / steps
    for i in range(steps):
        advance(i * step, step, state, flags, engine, pull, room)
