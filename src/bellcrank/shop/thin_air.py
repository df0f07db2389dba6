"""What an engine's compression gauge should read at other heights than the shop's."""

from dataclasses import dataclass

import numpy as np

from bellcrank.engine.air import standard_air
from bellcrank.shop.engines import Gauge

HIGHEST, STEP = 3000.0, 100.0  # [m] shown at least, from the sea on, and about how finely


@dataclass(frozen=True, slots=True)
class GaugeByHeight:
    """The least and the most a gauge should read over rising heights; m and Pa over the air around."""

    heights: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]


def gauge_by_height(gauge: Gauge, here: float) -> GaugeByHeight:
    """Give the readings of the same engine from the sea to 3000 m, ``here`` [m] among them or beyond."""
    lowest, highest = min(0.0, here), max(HIGHEST, here)
    heights = np.unique([*np.linspace(lowest, highest, round((highest - lowest) / STEP) + 1), here])
    thinner = standard_air(heights).pressure / gauge.ambient  # a reading is in proportion to the air
    return GaugeByHeight(*(tuple(one.tolist()) for one in (heights, thinner * gauge.low, thinner * gauge.high)))
