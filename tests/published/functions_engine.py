"""How the rows of engine.csv call the engine."""

from bellcrank.engine.air import air_density, standard_air
from bellcrank.engine.compression import cranking_pressure, trapped_ratio
from bellcrank.engine.cranking import Cranked, cranking_reading
from bellcrank.engine.flow import critical_ratio, curtain_area, flow_number, mass_flow
from bellcrank.engine.governor import (
    DroopOf,
    droop,
    friction_band,
    least_spring_rate,
    no_load_speed,
    speed_per_travel,
)
from bellcrank.engine.jets import jet_area_factor, jet_diameter, richness_factor
from bellcrank.engine.leak_down import USUAL_ORIFICE, leak_area, leak_down_reading
from bellcrank.engine.piston import CrankDrive, piston_travel, piston_travel_rate
from bellcrank.engine.slip import same_place, shortest, slip_from_key, slip_from_rim
from bellcrank.engine.spark_voltage import breakdown_voltage, gap_for_voltage, lowest_firing_speed

from .printed import Published

AMBIENT = 101_325.0


def equal_leak(supply):
    """Absolute pressure inside over before, with a leak as large as the orifice."""
    return (leak_down_reading(USUAL_ORIFICE, supply=supply) + AMBIENT) / (supply + AMBIENT)


def cranking_reading_of(drive, intake_closes, exponent):
    """Reading of a tight cylinder at the sea."""
    return cranking_reading(Cranked(CrankDrive(*drive), intake_closes, speed=40.0), AMBIENT, exponent)


FUNCTIONS = {
    "piston_travel": Published(piston_travel, ("piston_travel",)),
    "piston_travel_rate": Published(piston_travel_rate, ("piston_travel_rate",)),
    "swept_volume": Published(lambda bore, stroke: CrankDrive(bore, stroke, 0.1, 8.5).swept_volume, ()),
    "standard_pressure": Published(lambda height: standard_air(height).pressure, ("standard_air",)),
    "standard_density": Published(lambda height: standard_air(height).density, ("standard_air",)),
    "standard_temperature": Published(lambda height: standard_air(height).temperature, ("standard_air",)),
    "air_density": Published(air_density, ("air_density",)),
    "critical_ratio": Published(critical_ratio, ("critical_ratio",)),
    "flow_number": Published(flow_number, ("flow_number",)),
    "curtain_area": Published(curtain_area, ("curtain_area",)),
    "mass_flow": Published(mass_flow, ("mass_flow",)),
    "equal_leak": Published(equal_leak, ("leak_down_reading",)),
    "leak_area": Published(leak_area, ("leak_area",)),
    "richness_factor": Published(richness_factor, ("richness_factor",)),
    "jet_area_factor": Published(jet_area_factor, ("jet_area_factor",)),
    "jet_diameter": Published(jet_diameter, ("jet_diameter",)),
    "droop": Published(droop, ("droop",)),
    "droop_no_load": Published(lambda no_load, rated: droop(no_load, rated, DroopOf.NO_LOAD), ("droop",)),
    "speed_per_travel": Published(speed_per_travel, ("speed_per_travel",)),
    "no_load_speed": Published(no_load_speed, ("no_load_speed",)),
    "no_load_speed_of_no_load": Published(
        lambda rated, share: no_load_speed(rated, share, DroopOf.NO_LOAD), ("no_load_speed",)
    ),
    "least_spring_rate": Published(least_spring_rate, ("least_spring_rate",)),
    "friction_band": Published(friction_band, ("friction_band",)),
    "gap_for_voltage": Published(gap_for_voltage, ("gap_for_voltage",)),
    "breakdown_voltage": Published(breakdown_voltage, ("breakdown_voltage",)),
    "lowest_firing_speed": Published(lowest_firing_speed, ("lowest_firing_speed",)),
    "trapped_ratio": Published(
        lambda drive, intake_closes: trapped_ratio(CrankDrive(*drive), intake_closes), ("trapped_ratio",)
    ),
    "cranking_pressure": Published(cranking_pressure, ("cranking_pressure",)),
    "cranking_reading": Published(cranking_reading_of, ("cranking_reading",)),
    "slip_from_rim": Published(slip_from_rim, ("slip_from_rim",)),
    "same_place": Published(same_place, ("same_place",)),
    "shortest": Published(shortest, ("shortest",)),
    "slip_from_key": Published(slip_from_key, ("slip_from_key",)),
}
