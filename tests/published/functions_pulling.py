"""How the rows of pulling.csv call the puller and the hand; bolts of the strongest class, so that the hole strips."""

from functools import cache

from bellcrank.fastening.hand import preload_scatter
from bellcrank.fastening.pull import Pull
from bellcrank.fastening.pull_forces import heaviest_bolt_load, screw_torque
from bellcrank.fastening.puller import judge_pull
from bellcrank.fastening.strength import Material
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.pack import read_library
from bellcrank.sources import Basis
from bellcrank.stats.tolerance import tolerance_factor

from .printed import Published


@cache
def strongest():
    return read_library().strength_classes["12.9"]


def hole(thread, engaged, shear):
    read = parse_thread(thread)
    material = Material("tested", "tested aluminium", None, shear, None, 0.7, Basis.TABLE, "dabj")
    return judge_pull(Pull(1.0, 2.0, read, strongest(), material, engaged, engaged, parse_thread("M10"), 0.025))


FUNCTIONS = {
    "tolerance_factor": Published(tolerance_factor, ("tolerance_factor",)),
    "preload_scatter": Published(preload_scatter, ("preload_scatter",)),
    "screw_torque": Published(
        lambda force, thread, friction, tip_radius: screw_torque(
            force, parse_thread(thread), friction=friction, tip_radius=tip_radius
        ),
        ("screw_torque",),
    ),
    "heaviest_bolt_load": Published(heaviest_bolt_load, ("heaviest_bolt_load",)),
    "new_hole": Published(
        lambda thread, engaged, shear: hole(thread, engaged, shear).strip_geometric, ("judge_pull", "strip_force")
    ),
    "usable_hole": Published(
        lambda thread, engaged, shear: hole(thread, engaged, shear).strip_usable, ("judge_pull", "strip_force")
    ),
}
