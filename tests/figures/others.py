"""Figures of the numbers bench beside the torque's, ordinary ones and the extremes."""

import math
from dataclasses import replace

from bellcrank.fastening.key_joint import KeyCapacity, Withstood
from bellcrank.fastening.keys import FittedKey
from bellcrank.fastening.pull_out import pull_out
from bellcrank.fastening.puller import judge_pull
from bellcrank.fastening.strength import Material
from bellcrank.fastening.strike import Blow, Likely, judge_strike
from bellcrank.fastening.taper import taper_seat
from bellcrank.fastening.taper_forces import Taper
from bellcrank.fastening.threads import parse_thread
from bellcrank.figures.belief_steps import Path, belief_steps
from bellcrank.figures.keyway import key_figure
from bellcrank.figures.numbered_outline import Mark, Part, Side, numbered_outline
from bellcrank.figures.pulled import pull_figure
from bellcrank.figures.seat import taper_figure
from bellcrank.figures.stripped import strip_figure
from bellcrank.figures.struck import strike_figure
from bellcrank.sources import Basis
from tests.fastening.joints import CAST, STEEL
from tests.fastening.test_puller import pull
from tests.fastening.test_strike import FIT, KEY, SHARP, SPEED

STRONG = Material("strong", "strong steel", 2000e6, 1200e6, 2000e6, 1.0, Basis.GUESS, "test")


def stripped(name, engaged, material=CAST, tensile=800e6):
    thread = parse_thread(name)
    return strip_figure(thread, engaged, material.words, pull_out(thread, engaged, material, bolt_tensile=tensile))


def seated(ratio=0.125, diameter=0.022, length=0.025, push=25e3, friction=0.15, unit="N·m"):
    taper = Taper(ratio, diameter, length)
    return taper_figure(taper, push, taper_seat(push, taper, friction), unit=unit)


MOWER = Side(
    "top",
    "from above",
    500,
    600,
    (Part("deck", ((10, 10), (490, 10), (490, 590), (10, 590)), 0), Part("shroud", ((250, 280),), 120)),
)


def keyed(
    width=0.005, shaft=0.02, seats=(0.003, 0.0023), *, above=0.0021, shear=143.0, bearing=180.0, crush=900.0, unit="N·m"
):
    """A 20 mm long key that stands so far out of the shaft, and what it carries; its parts give way from there on."""
    fitted = FittedKey("606", width, width * 0.02, above * 0.02)
    shears, crushes, breaks = (Withstood(0.6 * one, one, 1.2 * one) for one in (shear, crush, bearing))
    return key_figure(fitted, shaft, *seats, KeyCapacity(1.1 * shear, shears, crushes, breaks), unit=unit)


def pulled(unit="N·m", **changes):
    asked = pull(**changes)
    return pull_figure(asked, judge_pull(asked), unit=unit)


SHARP_STRIKE = judge_strike(SHARP, FIT, KEY)
SOFT_STRIKE = judge_strike(Blow(0.010, SPEED, math.pi), FIT, KEY)


def struck(low, high, unit="N·m", **changes):
    """A sharp strike that left the flywheel so many degrees ahead."""
    run_on = {"run_on_low": math.radians(low), "run_on_high": math.radians(high)}
    return strike_figure(replace(SHARP_STRIKE, **run_on, **changes), unit=unit)


PULLS = {
    "enough thread": {"release_low": 2e3, "release_high": 8e3},
    "enough for a clean taper only": {},
    "enough for the least force only": {"clean_to_fretted": False},
    "screw in deeper": {"release_high": 13e3},
    "tap deeper": {"release_high": 13e3, "tapped_depth": 0.006},
    "use another way": {"release_low": 60e3, "release_high": 90e3},
}
BELIEVED = (
    ("flywheel key sheared", (0.2, 0.4, 0.35, 0.8, 0.97)),
    ("blade loose or adapter broken", (0.1, 0.2, 0.25, 0.22, 0.2)),
    ("stale or gummed fuel", (0.3, 0.28, 0.25, 0.05, 0.02)),
    ("ignition coil dead", (0.25, 0.2, 0.3, 0.1, 0.01)),
    ("fuel filter or tank outlet blocked", (0.15, 0.1, 0.05, 0.02, 0.001)),
)


def believed(steps=5, paths=5, rest=0.1):
    """The first steps of some causes; more steps than there are go on as they end."""
    shown = [Path(words, [row[min(at, 4)] for at in range(steps)]) for words, row in BELIEVED[:paths]]
    return belief_steps(shown, [rest] * steps)


OTHERS = {
    "belief, five steps": believed(),
    "belief, two steps": believed(2),
    "belief, the door alone": believed(1),
    "belief, thirty steps": believed(30),
    "belief, one cause": believed(3, 1),
    "belief, all crowd at the top": belief_steps([Path(words, (0.99, 1.0)) for words, _ in BELIEVED], (0.98, 0.99)),
    "belief, all crowd at the foot": belief_steps([Path(words, (0.01, 0.0)) for words, _ in BELIEVED], (0.0, 0.0)),
    "strip, hole": stripped("M6", 0.012),
    "strip, bolt": stripped("M6", 0.012, STRONG, 300e6),
    "strip, bolt not known": stripped("M6", 0.012, tensile=None),
    "strip, long": stripped("M2", 0.05),
    "strip, two threads": stripped("M24x1.5", 0.003),
    "strip, inch": stripped("5/8-18", 0.016, STEEL),
    "taper, 1:8": seated(),
    "taper, 1:50 and short": seated(0.02, 0.03, 0.015),
    "taper, 1:5 and long, in inch pounds": seated(0.2, 0.02, 0.05, 250e3, unit="in·lb"),
    "taper, comes off by itself": seated(0.4, push=500, friction=0.08),
    "key, shears": keyed(),
    "key, keyway breaks": keyed(bearing=110.0),
    "key, either": keyed(bearing=150.0),
    "key, sheared or crushed": keyed(crush=150.0, bearing=300.0),
    "key, thin": keyed(0.0016, 0.1),
    "key, deep, on a thin shaft": keyed(0.0048, 0.0096, (0.0068, 0.0025), above=0.0022, unit="in·lb"),
    **{f"pull, {verdict}": pulled(**changes) for verdict, changes in PULLS.items()},
    "pull, no room": pulled(tapped_depth=0.006, hub_depth=0.006, release_low=12e3, release_high=14e3),
    "pull, three bolts, off the middle": pulled(bolts=3, off_centre=0.01, hub_depth=0.03, unit="in·lb"),
    "pull, the bolt": pulled(engaged=0.02, tapped_depth=0.025, release_high=12e3),
    "pull, tiny": pulled(thread=parse_thread("M4"), engaged=0.0015, tapped_depth=0.002, release_low=9, release_high=90),
    "strike, sharp": strike_figure(SHARP_STRIKE),
    "strike, the taper holds": strike_figure(SOFT_STRIKE),
    "strike, the key holds": struck(0, 0, key_gives_way=Likely.NO),
    "strike, up to 30°": struck(0, 30),
    "strike, a little": struck(0, 0.4),
    "strike, 500°": struck(500, 500, "in·lb"),
    "places, four": numbered_outline(MOWER, [Mark(f"1{one}", (150 + 40 * at, 300)) for at, one in enumerate("abcd")]),
    "places, none": numbered_outline(MOWER, []),
    "strike, anywhere": struck(100, 600),
}
