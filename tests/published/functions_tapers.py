"""How the rows of tapers.csv call the package; keys are read from the packs, so that they are checked too."""

import math
from functools import cache

from bellcrank.fastening.drive_materials import DriveMaterial
from bellcrank.fastening.hub_stress import (
    Hub,
    hub_compliance,
    hub_equivalent_stress,
    hub_hoop_stress,
    interference,
    shaft_compliance,
)
from bellcrank.fastening.keys import SizeUnit, chord, find_parallel, find_woodruff, key_torque
from bellcrank.fastening.run_on import bar_inertia, ring_inertia, run_on_angle, stop_angle, stop_torque
from bellcrank.fastening.taper import nut_force_for_torque, taper_hold_loose, taper_release, taper_seat
from bellcrank.fastening.taper_forces import (
    FLATTEST,
    Taper,
    half_angle,
    measured_taper,
    normal_force_for_torque,
    nut_force,
    parse_taper,
    seating_normal_force,
    slip_torque,
)
from bellcrank.knowledge.pack import read_library

from .printed import Published


@cache
def library():
    return read_library()


def taper(ratio, mean_diameter, length):
    return Taper(parse_taper(ratio), mean_diameter, length)


def on_taper(function, of):
    """Call a formula with a taper given by its sizes."""
    return lambda ratio, mean_diameter, length, **given: function(
        given.pop(of), taper(ratio, mean_diameter, length), **given
    )


def least_pressure(torque, ratio, mean_diameter, length, friction, margin):
    seat = taper(ratio, mean_diameter, length)
    return normal_force_for_torque(torque, seat, friction, margin=margin) / seat.contact_area


def seat_pressure(large_diameter, small_diameter, length, force, friction):
    return taper_seat(force, measured_taper(large_diameter, small_diameter, length), friction).pressure


def seat_slip_torque(large_diameter, small_diameter, length, force, friction):
    return taper_seat(force, measured_taper(large_diameter, small_diameter, length), friction).slip_torque_low


def cylinder_slip_torque(pressure, diameter, length, friction):
    """A press fit is a taper without slope; the slope does not enter the torque."""
    return slip_torque(pressure * math.pi * diameter * length, Taper(FLATTEST, diameter, length), friction)


def interference_of_one_material(pressure, bore_diameter, outside_diameter, modulus, poisson):
    material = DriveMaterial("tested", "tested steel", 1.0, 1.0, None, modulus, poisson)
    return interference(pressure, bore_diameter, Hub(outside_diameter, material, material))


def woodruff(size):
    """Read a size of one of the program's own Woodruff keys."""
    return Published(lambda key: getattr(find_woodruff(key, library().woodruff_keys), size), ())


def woodruff_by_chord(key):
    found = find_woodruff(key, library().woodruff_keys)
    return chord(found.disc_diameter, found.height)


def parallel(size):
    """Read a size of one of the program's own parallel keys."""
    return Published(
        lambda shaft, unit: getattr(find_parallel(shaft, library().parallel_keys, SizeUnit(unit)), size), ()
    )


FUNCTIONS = {
    "parse_taper": Published(parse_taper, ("parse_taper",)),
    "half_angle": Published(lambda ratio: half_angle(parse_taper(ratio)), ("half_angle",)),
    "measured_half_angle": Published(
        lambda large_diameter, small_diameter, length: half_angle(
            measured_taper(large_diameter, small_diameter, length).ratio
        ),
        ("half_angle",),
    ),
    "contact_area": Published(lambda **sizes: taper(**sizes).contact_area, ()),
    "normal_force_for_torque": Published(on_taper(normal_force_for_torque, "torque"), ("normal_force_for_torque",)),
    "least_pressure": Published(least_pressure, ("normal_force_for_torque",)),
    "seat_pressure": Published(seat_pressure, ()),
    "seat_slip_torque": Published(seat_slip_torque, ()),
    "slip_torque": Published(on_taper(slip_torque, "force"), ("slip_torque",)),
    "cylinder_slip_torque": Published(cylinder_slip_torque, ("slip_torque",)),
    "seating_normal_force": Published(on_taper(seating_normal_force, "force"), ("seating_normal_force",)),
    "taper_release": Published(on_taper(taper_release, "force"), ("taper_release",)),
    "taper_hold_loose": Published(on_taper(taper_hold_loose, "force"), ("taper_hold_loose",)),
    "nut_force_for_torque": Published(on_taper(nut_force_for_torque, "torque"), ("nut_force_for_torque",)),
    "nut_force": Published(nut_force, ("nut_force",)),
    "hub_hoop_stress": Published(hub_hoop_stress, ("hub_hoop_stress",)),
    "hub_equivalent_stress": Published(hub_equivalent_stress, ("hub_equivalent_stress",)),
    "hub_compliance": Published(hub_compliance, ("hub_compliance",)),
    "shaft_compliance": Published(shaft_compliance, ("shaft_compliance",)),
    "interference": Published(interference_of_one_material, ("interference",)),
    "woodruff_width": woodruff("width"),
    "woodruff_height": woodruff("height"),
    "woodruff_length": Published(woodruff_by_chord, ("chord",)),
    "woodruff_shaft_seat": woodruff("shaft_seat"),
    "woodruff_hub_seat": woodruff("hub_seat"),
    "parallel_width": parallel("width"),
    "parallel_height": parallel("height"),
    "parallel_shaft_seat": parallel("shaft_seat"),
    "parallel_hub_seat": parallel("hub_seat"),
    "key_torque": Published(
        lambda width, length, stress, shaft_diameter: key_torque(width * length, stress, shaft_diameter),
        ("key_torque",),
    ),
    "stop_torque": Published(stop_torque, ("stop_torque",)),
    "stop_angle": Published(stop_angle, ("stop_angle",)),
    "bar_inertia": Published(bar_inertia, ("bar_inertia",)),
    "ring_inertia": Published(ring_inertia, ("ring_inertia",)),
    "run_on_angle": Published(run_on_angle, ("run_on_angle",)),
}
