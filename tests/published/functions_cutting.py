"""How the rows of cutting.csv call cutting, measuring and the units."""

from bellcrank.cutting.blade import bar_energy, highest_speed, measured_tip_speed, tip_speed
from bellcrank.cutting.stopping import (
    stop_limit,
    stopping_torque,
    thumb_uncertainty,
    turns_to_stop,
    video_uncertainty,
)
from bellcrank.measuring.conformity import Verdict, judge_at_most
from bellcrank.measuring.measured import Measured
from bellcrank.units import to_si

from .printed import Published

VERDICTS = {Verdict.PASSES: 1.0, Verdict.UNDECIDED: 0.0, Verdict.FAILS: -1.0}


def uncertainty_of_tip_speed(diameter, diameter_uncertainty, speed, speed_uncertainty):
    return measured_tip_speed(Measured(diameter, diameter_uncertainty), Measured(speed, speed_uncertainty)).uncertainty


FUNCTIONS = {
    "to_si": Published(to_si, ("to_si",)),
    "tip_speed": Published(tip_speed, ("tip_speed",)),
    "highest_speed": Published(highest_speed, ("highest_speed",)),
    "measured_tip_speed": Published(uncertainty_of_tip_speed, ("measured_tip_speed",)),
    "bar_energy": Published(bar_energy, ("bar_energy",)),
    "stop_limit": Published(stop_limit, ("stop_limit",)),
    "stopping_torque": Published(stopping_torque, ("stopping_torque",)),
    "turns_to_stop": Published(turns_to_stop, ("turns_to_stop",)),
    "video_uncertainty": Published(video_uncertainty, ("video_uncertainty",)),
    "thumb_uncertainty": Published(thumb_uncertainty, ("thumb_uncertainty",)),
    "judge_at_most": Published(
        lambda value, uncertainty, limit: VERDICTS[judge_at_most(Measured(value, uncertainty), limit)],
        ("judge_at_most",),
    ),
}
