"""How the rows of joints.csv call the package: holes to tap, loosening, stripping, and the tables of the packs."""

from functools import cache

from bellcrank.fastening.engagement import required_engagement
from bellcrank.fastening.head_pressure import face_pressure
from bellcrank.fastening.heads import face_under
from bellcrank.fastening.inserts import wire_insert_area
from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.locking_nuts import locking_nut
from bellcrank.fastening.loosening import breakloose_torque
from bellcrank.fastening.plastics import plastic_target
from bellcrank.fastening.shoulder_screws import neck_share
from bellcrank.fastening.strength import Material, strength_at
from bellcrank.fastening.strip_factors import (
    bolt_bending_factor,
    hole_bending_factor,
    spreading_factor,
    strength_ratio,
)
from bellcrank.fastening.strip_rules import pull_out_bound, short_strip_area
from bellcrank.fastening.stripping import strip_area
from bellcrank.fastening.tapping import hole_for_depth, hole_for_percent
from bellcrank.fastening.thermal import bar_stiffness, thermal_preload_change
from bellcrank.fastening.threads import lead_angle, parse_thread, stress_area
from bellcrank.fastening.tightening import preload_at_yield
from bellcrank.fastening.twist_off import torque_cap, twist_off_torque
from bellcrank.knowledge.pack import read_library
from bellcrank.sources import Basis

from .printed import Published


@cache
def library():
    return read_library()


def tables():
    return library().screw_tables


def limit(name):
    return lambda thread: getattr(thread_limits(parse_thread(thread)), name)


def hole(end):
    def found(thread, diameters):
        read = parse_thread(thread)
        return getattr(hole_for_depth(read, diameters * read.diameter), end)

    return found


def loosened(thread, preload, friction):
    read = parse_thread(thread)
    face = face_under("hex", read)
    return breakloose_torque(
        preload,
        read,
        thread_friction=friction,
        head_friction=friction,
        bearing_diameter=face.bearing_diameter,
        hole_diameter=face.hole_diameter,
    )


def elastic_ratio(thread, friction):
    """Stress of pull alone over the stress with twist, the core yielding outside only."""
    read, strength = parse_thread(thread), 400e6
    clamp = preload_at_yield(read, strength, thread_friction=friction, utilisation=1.0, twist="elastic")
    return strength * stress_area(read) / clamp


def twisted_off(thread, strength):
    read = parse_thread(thread)
    tensile = strength_at(library().strength_classes[strength], read.diameter).tensile
    return twist_off_torque(read, tensile, shear_share=tables().twist_shares[strength].share)


def engagement_by_basic_area(thread):
    """Formula (15) by the short rule, over the diameter."""
    read = parse_thread(thread)
    return 2 * stress_area(read) / short_strip_area(read, 1.0, "bolt, basic") / read.diameter


def pull_out_bound_ratio(thread):
    read = parse_thread(thread)
    return pull_out_bound(read, 1.0, 190e6) / (190e6 * strip_area(read, 1.0))


def engagement_of_equals(thread):
    """A hole of half the bolt's tensile strength in shear: twice the stress area over the hole's area per length."""
    equal = Material("equal", "the bolt's own steel", 800e6, 400e6, None, 1.0, Basis.COMPUTED, "h28")
    return required_engagement(parse_thread(thread), 800e6, equal, "h28")


def nut_drag(thread, of):
    return getattr(locking_nut(parse_thread(thread), tables().locking_nuts), of)


def by_thread(rows, thread):
    return next(row for row in rows if row.thread == parse_thread(thread))


def neck_over_bolt(thread):
    screw = by_thread(tables().shoulder_screws, thread)
    return neck_share(screw.neck, screw.thread)


def class_strength(strength, diameter, of):
    return getattr(strength_at(library().strength_classes[strength], diameter), of)


FUNCTIONS = {
    "bolt_major_max": Published(limit("bolt_major_max"), ("thread_limits",)),
    "bolt_major_min": Published(limit("bolt_major_min"), ("thread_limits",)),
    "hole_minor_min": Published(limit("hole_minor_min"), ("thread_limits",)),
    "hole_for_depth_low": Published(hole("low"), ("hole_for_depth",)),
    "hole_for_depth_high": Published(hole("high"), ("hole_for_depth",)),
    "hole_for_percent": Published(
        lambda thread, share: hole_for_percent(parse_thread(thread), share), ("hole_for_percent",)
    ),
    "lead_angle": Published(lambda thread: lead_angle(parse_thread(thread)), ("lead_angle",)),
    "elastic_ratio": Published(elastic_ratio, ("preload_at_yield",)),
    "breakloose_torque": Published(loosened, ("breakloose_torque",)),
    "twist_off_torque": Published(twisted_off, ("twist_off_torque",)),
    "torque_cap": Published(torque_cap, ("torque_cap",)),
    "short_strip_area": Published(
        lambda thread, engagement, which: short_strip_area(parse_thread(thread), engagement, which),
        ("short_strip_area",),
    ),
    "engagement_by_basic_area": Published(engagement_by_basic_area, ("short_strip_area",)),
    "pull_out_bound_ratio": Published(pull_out_bound_ratio, ("pull_out_bound",)),
    "engagement_of_equals": Published(engagement_of_equals, ("required_engagement",)),
    "strength_ratio": Published(strength_ratio, ("strength_ratio",)),
    "spreading_factor": Published(spreading_factor, ("spreading_factor",)),
    "bolt_bending_factor": Published(bolt_bending_factor, ("bolt_bending_factor",)),
    "hole_bending_factor": Published(hole_bending_factor, ("hole_bending_factor",)),
    "face_pressure": Published(face_pressure, ("face_pressure",)),
    "plastic_target": Published(plastic_target, ("plastic_target",)),
    "neck_share": Published(neck_over_bolt, ("neck_share",)),
    "bar_stiffness": Published(bar_stiffness, ("bar_stiffness",)),
    "thermal_preload_change": Published(thermal_preload_change, ("thermal_preload_change",)),
    "wire_insert_area": Published(
        lambda thread, insert_length: wire_insert_area(parse_thread(thread), insert_length), ("wire_insert_area",)
    ),
    "nut_drag": Published(nut_drag, ()),
    "neck_diameter": Published(lambda thread: by_thread(tables().shoulder_screws, thread).neck, ()),
    "forming_screw": Published(lambda thread, of: getattr(by_thread(tables().forming_screws, thread), of), ()),
    "sheet_screw": Published(lambda size, of: getattr(tables().sheet_screws[size], of), ()),
    "boss_rule": Published(lambda plastic, of: getattr(tables().boss_rules[plastic], of), ()),
    "plastic_screw": Published(lambda size: tables().plastic_screws[size].tensile_load, ()),
    "keyed_insert": Published(lambda thread: by_thread(tables().keyed_inserts, thread).pull_out, ()),
    "engagement_rule": Published(lambda into, of: getattr(tables().engagement_rules[into], of), ()),
    "friction": Published(lambda key, of: getattr(tables().frictions[key], of), ()),
    "middle_friction": Published(lambda key: (tables().frictions[key].low + tables().frictions[key].high) / 2, ()),
    "tabled_nut_factor": Published(lambda key: tables().nut_factors[key].high, ()),
    "material": Published(lambda key, of: getattr(library().materials[key], of), ()),
    "class_strength": Published(class_strength, ("strength_at",)),
}
