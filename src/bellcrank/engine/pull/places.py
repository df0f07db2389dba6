"""What the equations of a pull are given and what they keep: plain numbers in SI, each with its place."""

import math
from typing import NamedTuple


class EngineNumbers(NamedTuple):
    """An engine with a flywheel somewhere on its taper, as the equations take it. SI, angles from firing top."""

    bore: float
    radius: float  # of the crank
    rod: float
    piston_area: float
    clearance: float  # volume at the top
    inertia: float  # of all that turns with the crank
    intake_opens: float  # crank angles, in the cycle from -π to 3π; the intake closes beyond 3π
    intake_closes: float
    exhaust_opens: float
    exhaust_closes: float
    intake_curtain: float  # effective area at full lift, were the port wide
    intake_port: float  # effective area at most
    exhaust_curtain: float
    exhaust_port: float
    carburettor: float  # effective area in front of the intake valve
    release: float  # effective area held open by the compression release; none when it is zero
    release_until: float  # crank angle at which it lets the valve shut
    release_below: float  # crank speed from which it is out of work
    leak: float  # effective area
    ambient: float  # pressure outside
    air: float  # temperature outside
    wall: float  # temperature of head, bore and piston
    spark: float  # crank angle of the main spark, slip counted
    voltage_per_speed: float
    gap: float
    burn_length: float  # share of the bore a flame has to cross
    burn_swirl: float  # share of the swirl that helps it
    swirl: float  # at rest
    efficiency: float  # of burning
    heat_factor: float  # on the heat lost to the walls
    dry_friction: float  # torque
    gas_friction: float  # torque per pressure
    oil_friction: float  # torque per speed
    air_friction: float  # torque per speed squared
    pulley: float  # radius
    least_fresh: float  # share of the charge a spark lights
    stiffness: float  # of cord and hand
    damping: float
    catches_at: float  # crank speed
    blunt: float  # share of pressure below which the flow is taken as linear
    slope: float  # of that linear flow


class PullNumbers(NamedTuple):
    """One pull: the hand, the charge and where the crank stood."""

    start: float  # crank angle
    force: float  # of the hand at rest
    quickest: float  # speed of the hand at which it pulls no more
    stroke: float
    hand: float  # mass
    torn_at: float  # force that tears the handle out of the hand
    mixture: float  # fuel over what the air can burn
    fresh: float  # share of the charge in the cylinder before the pull
    friction: float  # factor


# what changes with time
ANGLE, SPEED, MASS, TEMPERATURE, FRESH, PROGRESS = 0, 1, 2, 3, 4, 5
HAND_PLACE, HAND_SPEED, STRETCH, RETURNED, RETURNED_FRESH = 6, 7, 8, 9, 10
HEAT_LOST, RUBBED, BLOWN_IN, RELEASED, PULLED, CORD_LOST = 11, 12, 13, 14, 15, 16  # the energy books
STATES = 17

# what changes at once
BURNING, HEAT, FLAME, FLAME_POWER, SPARK_TEMPERATURE, SPARK_PRESSURE, HAND_MODE, HELD_SINCE = 0, 1, 2, 3, 4, 5, 6, 7
FLAGS = 8
PULLING, HOLDING, GONE = 0.0, 1.0, 2.0

# what is kept of a pull
SPARKS, FIRES, CAUGHT, KICKED, WENT_SOLID, TORN, POPPED, BANGED = 0, 1, 2, 3, 4, 5, 6, 7
MOST_FORCE, REVERSE_FORCE, IMPULSE, BACK_WORK, DRAGGED_FROM, REVERSE_SPEED, MOST_SPEED = 8, 9, 10, 11, 12, 13, 14
FIRE_SPEED, RESIDUAL, ENDED, CALLS, OWN_FORCE, REVERSED_AT, BLOWN_BACK = 15, 16, 17, 18, 19, 20, 21
MOST_PRESSURE, LAST_FIRE, FARTHEST, BOUNCED = 22, 23, 24, 25
KEPT = 26

SPARKS_DRAWN = 24  # scatter of angle and mixture is drawn for so many sparks of a pull
TRACED = 6  # time, angle, speed, pressure, cord force, whether it burns

CYCLE, TURN, HALF = 4 * math.pi, 2 * math.pi, math.pi  # [rad]
