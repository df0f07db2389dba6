"""How the rows of fastening.csv call the package; strengths are read from the packs, so that they are checked too."""

import math
from functools import cache

from bellcrank.fastening.galvanised import hot_dip, zinc_undersize
from bellcrank.fastening.heads import face_under
from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.short_form import torque_by_nut_factor
from bellcrank.fastening.strength import Material, strength_at
from bellcrank.fastening.stripping import external_strip_area, internal_strip_area, strip_area, strip_force
from bellcrank.fastening.tapping import percent_thread
from bellcrank.fastening.threads import (
    minor_diameter,
    parse_thread,
    pitch_diameter,
    root_diameter,
    stress_area,
)
from bellcrank.fastening.tightening import (
    nut_factor,
    preload_at_yield,
    preload_for_torque,
    torque_for_preload,
)
from bellcrank.knowledge.pack import read_library
from bellcrank.sources import Basis

from .printed import Published


@cache
def strength_classes():
    return read_library().strength_classes


def strengths(thread, key):
    return strength_at(strength_classes()[key], parse_thread(thread).diameter)


def proof_load(thread, strength):
    return strengths(thread, strength).proof * stress_area(parse_thread(thread))


def ultimate_load(thread, strength):
    return strengths(thread, strength).tensile * stress_area(parse_thread(thread))


def torque_at_75_percent_proof(thread, strength, factor):
    return torque_by_nut_factor(0.75 * proof_load(thread, strength), parse_thread(thread).diameter, factor)


def galvanised(size):
    return Published(lambda thread: size(thread_limits(hot_dip(parse_thread(thread)))), ("zinc_undersize",))


def hex_joint(thread, friction):
    face = face_under("hex", parse_thread(thread))
    return {
        "thread_friction": friction,
        "head_friction": friction,
        "bearing_diameter": face.bearing_diameter,
        "hole_diameter": face.hole_diameter,
    }


def yield_preload(thread, strength, friction):
    return preload_at_yield(parse_thread(thread), strengths(thread, strength).yield_, thread_friction=friction)


def torque_at_yield(thread, strength, friction):
    preload = yield_preload(thread, strength, friction)
    return torque_for_preload(preload, parse_thread(thread), **hex_joint(thread, friction))


def nut_factor_mil60(thread, friction):
    """The handbook's own face: 1.5 d outside over a hole of d."""
    read = parse_thread(thread)
    face = {"bearing_diameter": 1.5 * read.diameter, "hole_diameter": read.diameter}
    return nut_factor(read, thread_friction=friction, head_friction=friction, **face)


def engagement_by_formula_14(stress_area, bore, pitch, hole_minor_max, bolt_pitch_min):
    area = stress_area - math.pi / 4 * bore**2
    return 2 * area / external_strip_area(1.0, pitch, hole_minor_max=hole_minor_max, bolt_pitch_min=bolt_pitch_min)


def engagement_by_formula_15(thread):
    read = parse_thread(thread)
    return 2 * stress_area(read) / (0.75 * math.pi * minor_diameter(read)) / read.diameter


def engagement_by_formula_16(stress_area, strength_ratio, pitch, bolt_major_min, hole_pitch_max):
    per_length = internal_strip_area(1.0, pitch, bolt_major_min=bolt_major_min, hole_pitch_max=hole_pitch_max)
    return 2 * stress_area / per_length / strength_ratio


def shear_area_ratio(pitch, minor_diameter, bolt_major_min, hole_pitch_max):
    per_length = internal_strip_area(1.0, pitch, bolt_major_min=bolt_major_min, hole_pitch_max=hole_pitch_max)
    return 0.75 * math.pi * minor_diameter / per_length


def strip_force_nominal(thread, engagement, shear):
    material = Material("tested", "tested aluminium", None, shear, None, 0.7, Basis.TABLE, "dabj")
    return strip_force(parse_thread(thread), engagement, material).nominal


def pull_out_ratio(thread):
    """NASA's pull-out load over the shear load on the area under test; the strength cancels."""
    read = parse_thread(thread)
    return math.pi * pitch_diameter(read) / 3 / strip_area(read, 1.0)


FUNCTIONS = {
    "stress_area": Published(lambda thread: stress_area(parse_thread(thread)), ("stress_area",)),
    "pitch_diameter": Published(lambda thread: pitch_diameter(parse_thread(thread)), ("pitch_diameter",)),
    "minor_diameter": Published(lambda thread: minor_diameter(parse_thread(thread)), ("minor_diameter",)),
    "root_diameter": Published(lambda thread: root_diameter(parse_thread(thread)), ("root_diameter",)),
    "zinc_undersize": Published(lambda thread: zinc_undersize(parse_thread(thread).pitch), ("zinc_undersize",)),
    "galvanised_area": Published(lambda thread: stress_area(hot_dip(parse_thread(thread))), ("stress_area",)),
    "galvanised_major_max": galvanised(lambda limits: limits.bolt_major_max),
    "galvanised_major_min": galvanised(lambda limits: limits.bolt_major_min),
    "galvanised_pitch_max": galvanised(lambda limits: limits.bolt_pitch_max),
    "galvanised_pitch_min": galvanised(lambda limits: limits.bolt_pitch_min),
    "galvanised_root": Published(
        lambda thread: root_diameter(parse_thread(thread)) - hot_dip(parse_thread(thread)).undersize,
        ("zinc_undersize",),
    ),
    "percent_thread": Published(
        lambda thread, hole_diameter: percent_thread(parse_thread(thread), hole_diameter), ("percent_thread",)
    ),
    "hole_pitch_max": Published(lambda thread: thread_limits(parse_thread(thread)).hole_pitch_max, ("thread_limits",)),
    "hole_minor_max": Published(lambda thread: thread_limits(parse_thread(thread)).hole_minor_max, ("thread_limits",)),
    "proof_load": Published(proof_load, ("stress_area", "strength_at")),
    "ultimate_load": Published(ultimate_load, ("stress_area", "strength_at")),
    "clamp_at_75_percent_proof": Published(
        lambda thread, strength: 0.75 * proof_load(thread, strength), ("stress_area", "strength_at")
    ),
    "torque_at_75_percent_proof": Published(torque_at_75_percent_proof, ("torque_by_nut_factor",)),
    "preload_at_yield": Published(yield_preload, ("preload_at_yield",)),
    "least_preload": Published(
        lambda thread, strength, friction, tightening_factor: (
            yield_preload(thread, strength, friction) / tightening_factor
        ),
        ("preload_at_yield",),
    ),
    "torque_at_yield": Published(torque_at_yield, ("torque_for_preload", "nut_factor")),
    "preload_for_torque": Published(
        lambda thread, torque, friction: preload_for_torque(
            torque, parse_thread(thread), **hex_joint(thread, friction)
        ),
        ("preload_for_torque",),
    ),
    "nut_factor_mil60": Published(nut_factor_mil60, ("nut_factor",)),
    "engagement_by_formula_14": Published(engagement_by_formula_14, ("external_strip_area",)),
    "engagement_by_formula_15": Published(engagement_by_formula_15, ("minor_diameter", "stress_area")),
    "engagement_by_formula_16": Published(engagement_by_formula_16, ("internal_strip_area",)),
    "shear_area_ratio": Published(shear_area_ratio, ("internal_strip_area",)),
    "strip_area": Published(
        lambda thread, engagement: strip_area(parse_thread(thread), engagement), ("strip_area", "thread_limits")
    ),
    "strip_force_nominal": Published(strip_force_nominal, ("strip_force",)),
    "pull_out_ratio": Published(pull_out_ratio, ("strip_area", "pitch_diameter")),
}
