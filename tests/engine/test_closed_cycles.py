"""The energy equation of a pull on cycles a textbook knows: a gas of constant heats, an infinite rod, a given fire."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from bellcrank.engine.pull import places as at
from bellcrank.engine.pull import rates
from tests.engine.bare_engine import HUGE, NO_HAND, NO_LOSS, bare_engine, begun

GAS, SPEED, START = 287.0, 300.0, 300.0  # [J/(kg·K)], [rad/s], [K]
VERY_LONG = 1e4  # [m] a rod
BURNT_OUT = 1.3  # [-] progress, e⁻¹¹ left
COARSE, FINE = math.radians(5), 1 / 400  # [rad] of a step; of the burning's length


class Cycle:
    """A closed cycle by our equation ``change``, its plain text, with the gas and the fire put in their places."""

    def __init__(self, monkeypatch, ratio, heats, begins, lasts):
        self.begins, self.lasts, self.heat = math.radians(begins), math.radians(lasts), GAS / (heats - 1)
        bare = bare_engine(inertia=HUGE, rod=VERY_LONG, **NO_LOSS)
        self.swept = 2 * bare.radius * bare.piston_area
        self.engine = bare._replace(clearance=self.swept / (ratio - 1))
        for name in ("fresh_energy", "burned_energy"):
            monkeypatch.setattr(rates, name, lambda temperature: self.heat * temperature)
        for name in ("fresh_heat", "burned_heat"):
            monkeypatch.setattr(rates, name, lambda _: self.heat)
        monkeypatch.setattr(rates, "gas_constant", lambda state: state[at.MASS] * GAS)
        monkeypatch.setattr(rates, "burning", self.burning)
        self.change = getattr(rates.change, "py_func", rates.change)

    def burning(self, pressure, state, flags, engine):
        """Burn by Wiebe's law over crank angle, a = 5, n = 3."""
        progress = (state[at.ANGLE] - self.begins) / self.lasts
        pace = SPEED / self.lasts if 0 < progress < BURNT_OUT else 0.0
        return pace, 15 * progress**2 * pace

    def run(self, heat_over):
        """Run from bottom to bottom, heat given over p₁V₁: efficiency, highest pressure over the first, its angle."""
        state, flags = begun(self.engine, SPEED)
        state[at.TEMPERATURE] = START
        first = state[at.MASS] * GAS * START  # p V at the bottom
        flags[at.HEAT] = heat_over * first / state[at.MASS]
        ends = self.begins + BURNT_OUT * self.lasts
        pressures, angles = [], []
        for until, step in ((self.begins, COARSE), (ends, self.lasts * FINE), (math.pi, COARSE)):
            states = self.turned(state, flags, until, step)
            volumes = self.engine.clearance + self.swept / 2 * (1 - np.cos(states[at.ANGLE]))
            pressures.extend(states[at.MASS] * GAS * states[at.TEMPERATURE] / volumes)
            angles.extend(states[at.ANGLE])
            state = states[:, -1].copy()
        gained = self.heat * state[at.MASS] * (state[at.TEMPERATURE] - START)
        top = int(np.argmax(pressures))
        over = pressures[top] * (self.engine.clearance + self.swept) / first
        return 1 - gained / state[at.RELEASED], over, math.degrees(angles[top])

    def turned(self, state, flags, until, step):
        def right_hand(time, now):
            out = np.zeros(at.STATES)
            self.change(time, now, flags, self.engine, NO_HAND, out)
            return out

        time = (until - state[at.ANGLE]) / SPEED
        return solve_ivp(right_hand, (0, time), state, rtol=1e-8, atol=1e-12, max_step=step / SPEED).y


@pytest.mark.parametrize(("ratio", "heats"), [(10, 1.4), (8.5, 1.3)])
def test_a_fire_all_at_the_top_has_the_efficiency_of_otto_s_cycle(monkeypatch, ratio, heats):
    # any textbook: 1 − r^(1 − γ); burning takes 0.2°
    efficiency, _, _ = Cycle(monkeypatch, ratio, heats, -0.1, 0.2).run(20)
    assert efficiency == pytest.approx(1 - ratio ** (1 - heats), rel=1e-5)


def test_a_fire_that_takes_its_time_is_that_of_ferguson_and_kirkpatrick(monkeypatch):
    # Ferguson and Kirkpatrick, Internal Combustion Engines, chapter 2 (from memory): r 10, γ 1.4, Q/(p₁V₁) 20, from
    # 20° before the top over 40°: highest pressure 87.77 at 11° after it; .990 of Otto's efficiency
    efficiency, highest, angle = Cycle(monkeypatch, 10, 1.4, -20, 40).run(20)
    assert efficiency / (1 - 10**-0.4) == pytest.approx(0.990, abs=0.001)
    assert highest == pytest.approx(87.77, rel=1e-3)
    assert angle == pytest.approx(11, abs=0.5)
