"""Making the table of an engine card: engines from all over its ranges, pulled at every slip, and counted."""

import math
from collections.abc import Callable, Mapping

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.card import QUANTITIES, EngineCard, OperatorCard
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.draw import DrawnPulls, draw_pulls
from bellcrank.engine.pull.many import Outcome, jerked, outcome_of, run_pulls
from bellcrank.engine.pull.places import EngineNumbers
from bellcrank.engine.pull.setting import Ignition, Setting, at_shares, engine_numbers, middle
from bellcrank.engine.slip_table import COUNTED, STATES, SlipTable, State, fingerprint

Counts = NDArray[np.uint16]

SLIPS = (*range(-180, -45, 10), *range(-45, 50, 5), *range(50, 190, 10))  # [°] close together where much changes
MAP_SLIPS = range(-180, 185, 5)  # [°]
TRIED, KEPT = 48, 16  # engines drawn from the ranges, and kept of those that behave like healthy ones
HEALTHY_PULLS, PULLS, MAP_PULLS = 60, 25, 400
STARTS, KICKS = 0.7, 0.05  # [-] healthy: of pulls that can light; Garg, Funke and Janisch 1989
SEED = 20_260
SETTINGS: Mapping[State, Mapping[str, object]] = {
    State.SOUND: {},
    State.BLADE_LOOSE: {"blade_tight": False},
    State.RELEASE_DEAD: {"release_works": False},
    State.BOTH: {"blade_tight": False, "release_works": False},
    State.POINTS: {"ignition": Ignition.POINTS},
}


def shares_of_ranges(count: int, rng: np.random.Generator) -> list[dict[str, float]]:
    """Draw places in all of a card's ranges so that each range is covered evenly (a Latin square of many sides)."""
    columns = {name: (rng.permutation(count) + rng.uniform(0, 1, count)) / count for name in QUANTITIES}
    return [{name: float(columns[name][i]) for name in QUANTITIES} for i in range(count)]


def healthy_engines(card: EngineCard, operator: OperatorCard, workers: int) -> list[dict[str, float]]:
    """Give engines from all over a card's ranges that start and do not kick while all is well."""
    rng = np.random.default_rng(SEED)
    kept = []
    for shares in shares_of_ranges(TRIED, rng):
        values, drawn = at_shares(card, shares), draw_pulls(operator, HEALTHY_PULLS, rng)
        counts = counted(values, Setting(), drawn, workers)
        lights = max(1, int(drawn.ignitable.sum()))
        if (
            counts[COUNTED.index("catches")] >= STARTS * lights
            and counts[COUNTED.index("kicks_back")] <= KICKS * lights
        ):
            kept.append(values)
    return kept[:KEPT]


def counted(values: Mapping[str, float], setting: Setting, drawn: DrawnPulls, workers: int) -> Counts:
    """Pull, and count what :data:`COUNTED` names."""
    kept = run_pulls(engine_numbers(values, setting), drawn, workers)
    outcomes = [outcome_of(row) for row in kept]
    found = [sum(one is outcome for one in outcomes) for outcome in Outcome]
    return np.array(
        [*found, (kept[:, at.POPPED] > 0).sum(), (kept[:, at.BANGED] > 0).sum(), jerked(kept).sum()], dtype=np.uint16
    )


def build_map(card: EngineCard, operator: OperatorCard, workers: int) -> Counts:
    """Count pulls of the card's middle values at every fifth degree of slip."""
    drawn = draw_pulls(operator, MAP_PULLS, np.random.default_rng(SEED))
    rows = [counted(middle(card), Setting(slip=math.radians(slip)), drawn, workers) for slip in MAP_SLIPS]
    return np.array(rows)


def build_table(
    card: EngineCard, operator: OperatorCard, workers: int, go_on: Callable[[int], bool] = lambda _: True
) -> SlipTable | None:
    """Make a card's table; ``go_on`` is told how many engines are done and may say no: then there is none."""
    engines = healthy_engines(card, operator, workers)
    counts = np.zeros((len(engines), len(STATES), len(SLIPS), len(COUNTED)), dtype=np.uint16)
    for i, values in enumerate(engines):
        drawn = draw_pulls(operator, PULLS, np.random.default_rng(SEED + 1 + i))
        known: dict[EngineNumbers, Counts] = {}  # points that have lost their spark are the same wherever it sits
        for j, state in enumerate(STATES):
            for k, slip in enumerate(SLIPS):
                setting = Setting(slip=math.radians(slip), **SETTINGS[state])  # type: ignore[arg-type]
                engine = engine_numbers(values, setting)
                if engine not in known:
                    known[engine] = counted(values, setting, drawn, workers)
                counts[i, j, k] = known[engine]
        if not go_on(i + 1):
            return None
    return SlipTable(
        card=card.id,
        slips=np.radians(np.array(SLIPS, dtype=np.float64)),
        counts=counts,
        pulls=PULLS,
        map_slips=np.radians(np.array(MAP_SLIPS, dtype=np.float64)),
        map_counts=build_map(card, operator, workers),
        map_pulls=MAP_PULLS,
        fingerprint=fingerprint(card, operator),
    )
