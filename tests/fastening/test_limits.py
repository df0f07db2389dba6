"""Thread limits against the printed rows of ASME B1.1-2019 and B1.13M that screw_thread_lib carries."""

import pytest
from screw_thread_lib.data import ASME_M_6g6H_dict, ASME_UN_2A2B_dict

from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.thread_sizes import METRIC_PITCHES_MM, UNIFIED_THREADS_PER_INCH
from bellcrank.fastening.threads import parse_thread

INCH = 0.0254
PRINTED = {
    "dmax": "bolt_major_max",
    "dmin": "bolt_major_min",
    "d2max": "bolt_pitch_max",
    "d2min": "bolt_pitch_min",
    "D2min": "hole_pitch_min",
    "D2max": "hole_pitch_max",
    "D1min": "hole_minor_min",
    "D1max": "hole_minor_max",
}
UNIFIED = [name for name in ASME_UN_2A2B_dict if name != "1-14"]  # 1-14 is UNS, with another length of engagement
EVERY_THREAD = [f"M{size}x{pitch}" for size, pitches in METRIC_PITCHES_MM.items() for pitch in pitches] + [
    f"{size}-{count}" for size, counts in UNIFIED_THREADS_PER_INCH.items() for count in counts
]


@pytest.mark.parametrize("printed", PRINTED)
@pytest.mark.parametrize("name", UNIFIED)
def test_unified_limits_meet_the_printed_rows(name, printed):
    ours = getattr(thread_limits(parse_thread(name)), PRINTED[printed]) / INCH
    tolerance = 0.0006 if printed.startswith("D1") else 0.0001  # the standard rounds D1 to a thousandth and its steps
    assert ours == pytest.approx(ASME_UN_2A2B_dict[name][printed], abs=tolerance)


@pytest.mark.parametrize("printed", PRINTED)
@pytest.mark.parametrize("name", ASME_M_6g6H_dict)
def test_metric_limits_meet_the_printed_rows_before_rounding(name, printed):
    ours = getattr(thread_limits(parse_thread(name)), PRINTED[printed])
    assert ours == pytest.approx(ASME_M_6g6H_dict[name][printed] * INCH, abs=15e-6)


@pytest.mark.parametrize("name", EVERY_THREAD)
def test_the_bolt_always_goes_into_the_hole_and_still_holds(name):
    limits = thread_limits(parse_thread(name))
    assert limits.bolt_pitch_min < limits.bolt_pitch_max < limits.hole_pitch_min < limits.hole_pitch_max
    assert limits.hole_minor_min < limits.hole_minor_max < limits.bolt_major_min < limits.bolt_major_max
