"""Figures of the engine, ordinary ones and the extremes."""

import math

from bellcrank.engine.piston import CrankDrive
from bellcrank.engine.timing import ValveTiming, sparks
from bellcrank.figures.timing_dial import timing_dial

DRIVE = CrankDrive(bore=0.065, stroke=0.057, rod=0.1, compression=8.5)
VALVES = ValveTiming(*map(math.radians, (10, 50, 50, 10)))


def dialled(slip, advance=20, belief=()):
    """The sparks of a flywheel that slipped so many degrees, below zero early."""
    slipped, before = math.radians(slip), math.radians(advance)
    return timing_dial(sparks(before, slipped, VALVES, DRIVE, 0.75e-3), VALVES, slipped, before, belief=belief)


def believed(degrees, wide, step=5):
    """A belief round so many degrees."""
    away = ((one, (one - degrees + 180) % 360 - 180) for one in range(-180, 180, step))
    return [(math.radians(one), math.exp(-((far / wide) ** 2) / 2)) for one, far in away]


ENGINES = {
    "timing, 60° early": dialled(-60),
    "timing, where it belongs": dialled(0),
    "timing, a little late": dialled(3),
    "timing, 90° late": dialled(90),
    "timing, 270° early": dialled(-270),
    "timing, nearly a turn late": dialled(355, 35),
    "timing, believed early": dialled(-60, 20, believed(-60, 25)),
    "timing, believed anywhere": dialled(0, 20, believed(0, 1e6, 1)),
    "timing, believed half a turn round": dialled(180, 20, believed(-180, 1)),
}
