"""Figures of the engine, ordinary ones and the extremes."""

import math

import numpy as np

from bellcrank.engine.piston import CrankDrive
from bellcrank.engine.timing import ValveTiming, sparks
from bellcrank.figures.altitude import compression_altitude
from bellcrank.figures.kick_map import kick_map
from bellcrank.figures.pull_trace import pull_trace
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


KICK = ((0.3, "over the top"), (0.12, "cord tight"), (0.55, "main spark, 82° before the top"), (0.6, "kicks back"))


def pulled_through(events=KICK, number=1801, *, kicks=True, start=0.0, long=0.9):
    """A pull made up of straight pieces: cord tight, over the top, and thrown back or not."""
    knots = [0, 0.1, 0.29, 0.3, 0.31, 0.55, 0.6, 0.62, 0.9]
    speed = [0, 120, 300, 280, 300, 330, 60, -290 if kicks else 310, 0]
    pressure = [0, 0, 60, 640, 60, 900, 1600, 0, -8]
    cord = [0, 180, 180, 280, 180, 180, 400, 700, 0]
    shares = [0.9 * one / (number - 1) for one in range(number)]
    drawn = (np.interp(shares, knots, values).tolist() for values in (speed, pressure, cord))
    return pull_trace([start + long * share / 0.9 for share in shares], *drawn, events, "pull-trace")


def bell(slip, middle, wide):
    return math.exp(-(((slip - middle) / wide) ** 2))


def shares_of_pulls(slips, most=0.6):
    """Made-up shares: kicks most 70° early, none late."""
    kicks = [most * bell(one, -70, 30) for one in slips]
    solid = [(1 - kick) * 0.3 * bell(one, -40, 40) for one, kick in zip(slips, kicks, strict=True)]
    left = [1 - kick - one for kick, one in zip(kicks, solid, strict=True)]
    catches = [0.8 * bell(one, 5, 25) * rest for one, rest in zip(slips, left, strict=True)]
    dies = [(rest - one) * bell(slip, 30, 60) / 2 for slip, rest, one in zip(slips, left, catches, strict=True)]
    no_fire = [rest - one - other for rest, one, other in zip(left, catches, dies, strict=True)]
    pops = [0.5 * bell(one, -150, 25) + 0.4 * bell(one, 100, 40) for one in slips]
    names = ("kicks_back", "goes_solid", "catches", "fires_and_dies", "no_fire", "pops_intake")
    return dict(zip(names, (kicks, solid, catches, dies, no_fire, pops), strict=True))


def thinner(here=None, lowest=0.0, highest=3000.0, *, low=1.0e6, high=1.3e6):
    """Readings that fall by a tenth with every 1000 m from the sea on."""
    heights = [lowest + (highest - lowest) * one / 10 for one in range(11)]
    less = [1 - one / 10_000 for one in heights]
    return compression_altitude(heights, [low * one for one in less], [high * one for one in less], here=here)


def mapped(measured=None, step=10, most=0.6):
    slips = list(range(-180, 181, step))
    return kick_map(slips, shares_of_pulls(slips, most), measured=measured)


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
    "pull trace, kicks back": pulled_through(),
    "pull trace, nothing happened": pulled_through((), kicks=False),
    "pull trace, ten points": pulled_through(number=10),
    "pull trace, long words at both ends": pulled_through(
        ((0.0, "m" * 12 + " starts"), (0.9, "ends, all is still again"))
    ),
    "pull trace, all at once": pulled_through([(0.5, f"the {one}th") for one in range(8)]),
    "pull trace, cut out of a longer one": pulled_through(((3.05, "fires"),), start=3.0, long=0.07),
    "pull trace, hardly anything": pull_trace([0.0, 0.1], [0.0, 0.0], [0.0, 0.0], [0.0, 0.0], ()),
    "kick map": mapped(),
    "kick map, felt": mapped((0.25, 0.33)),
    "kick map, felt more than any slip gives": mapped((0.8, 0.9)),
    "kick map, felt anything": mapped((0.0, 1.0), 30),
    "kick map, never kicks": mapped(most=0.0),
    "altitude": thinner(),
    "altitude, at 500 m": thinner(500.0),
    "altitude, at the sea": thinner(0.0),
    "altitude, under the sea": thinner(-400.0, -400.0),
    "altitude, as high as it goes": thinner(5000.0, 0.0, 5000.0),
    "altitude, little compression": thinner(2999.0, low=6e4, high=6.1e4),
}
