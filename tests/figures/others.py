"""Figures of the numbers bench beside the torque's, ordinary ones and the extremes."""

from bellcrank.fastening.pull_out import pull_out
from bellcrank.fastening.strength import Material
from bellcrank.fastening.threads import parse_thread
from bellcrank.figures.stripped import strip_figure
from bellcrank.sources import Basis
from tests.fastening.joints import CAST, STEEL

STRONG = Material("strong", "strong steel", 2000e6, 1200e6, 2000e6, 1.0, Basis.GUESS, "test")


def stripped(name, engaged, material=CAST, tensile=800e6):
    thread = parse_thread(name)
    return strip_figure(thread, engaged, material.words, pull_out(thread, engaged, material, bolt_tensile=tensile))


OTHERS = {
    "strip, hole": stripped("M6", 0.012),
    "strip, bolt": stripped("M6", 0.012, STRONG, 300e6),
    "strip, bolt not known": stripped("M6", 0.012, tensile=None),
    "strip, long": stripped("M2", 0.05),
    "strip, two threads": stripped("M24x1.5", 0.003),
    "strip, inch": stripped("5/8-18", 0.016, STEEL),
}
