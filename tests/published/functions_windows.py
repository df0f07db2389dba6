"""How the rows of windows.csv call the package: scatter, the bolt in a window, a share of yield on a measured face."""

from bellcrank.fastening.clamp_limits import Part
from bellcrank.fastening.heads import Face
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.threads import parse_thread
from bellcrank.fastening.to_yield import torque_to_yield
from bellcrank.fastening.ways import SCATTER, tightening_factor
from bellcrank.fastening.window import recommend_torque
from bellcrank.knowledge.pack import read_library

from .functions_fastening import strength_classes
from .printed import Published


def with_a_nut(thread, strength, **changes):
    """A screw with a nut on steel that bears more than the bolt."""
    steel = read_library().materials["medium-steel"]
    return Joint(parse_thread(thread), strength_classes()[strength], None, steel, **changes)


def bolt_in_the_window(thread, strength):
    limits = recommend_torque(with_a_nut(thread, strength, friction=0.1, head="nut")).limits
    return next(limit.preload for limit in limits if limit.part is Part.BOLT)


def to_yield(thread, strength, friction, face, hole, scatter=None):
    return torque_to_yield(with_a_nut(thread, strength, friction=friction, face=Face(face, hole), scatter=scatter))


def nut_factor_mil60_apart(thread, thread_friction, head_friction):
    """The handbook's own face, 1.5 d outside over a hole of d, with the friction under the head apart."""
    diameter = parse_thread(thread).diameter
    frictions = {"friction": thread_friction, "head_friction": head_friction}
    found = torque_to_yield(with_a_nut(thread, "4.6", face=Face(1.5 * diameter, diameter), **frictions))
    return found.torque / found.preload / diameter


def neck_over_thread(thread, neck):
    """What a shoulder screw's neck bears over what its thread does, where the pull and not the twist counts."""
    limits = recommend_torque(with_a_nut(thread, "12.9", friction=0.03, neck=neck)).limits
    preload = {limit.part: limit.preload for limit in limits}
    return preload[Part.NECK] / preload[Part.BOLT]


FUNCTIONS = {
    "scatter": Published(lambda way: SCATTER[way].scatter, ()),
    "tightening_factor": Published(tightening_factor, ("tightening_factor",)),
    "bolt_in_the_window": Published(bolt_in_the_window, ("stress_area",)),
    "torque_to_yield_share": Published(lambda **typed: to_yield(**typed).torque, ("torque_for_preload",)),
    "preload_to_yield_share": Published(lambda **typed: to_yield(**typed).preload, ("preload_at_yield",)),
    "least_preload_to_yield_share": Published(
        lambda **typed: to_yield(**typed).preload_low, ("preload_at_yield", "tightening_factor")
    ),
    "nut_factor_mil60_apart": Published(nut_factor_mil60_apart, ("nut_factor",)),
    "neck_over_thread": Published(neck_over_thread, ()),
}
