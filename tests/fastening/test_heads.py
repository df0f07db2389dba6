"""Faces under heads."""

import pytest

from bellcrank.errors import NotUnderstood
from bellcrank.fastening.heads import HEADS, face_under
from bellcrank.fastening.thread_sizes import METRIC_PITCHES_MM, UNIFIED_THREADS_PER_INCH
from bellcrank.fastening.threads import parse_thread

SIZES = [f"M{size}x{pitches[0]}" for size, pitches in METRIC_PITCHES_MM.items()] + [
    f"{size}-{n[0]}" for size, n in UNIFIED_THREADS_PER_INCH.items()
]


@pytest.mark.parametrize("head", HEADS)
@pytest.mark.parametrize("size", SIZES)
def test_every_head_is_wider_than_its_hole(head, size):
    face = face_under(head, parse_thread(size))
    assert face.bearing_diameter > face.hole_diameter > parse_thread(size).diameter


@pytest.mark.parametrize("size", ["M6", "M8", "M10", "1/4-20", "5/16-18", "3/8-24"])
def test_a_flange_presses_on_more_than_a_plain_head(size):
    thread = parse_thread(size)
    assert face_under("flange", thread).area > 1.2 * face_under("hex", thread).area


@pytest.mark.parametrize(
    ("size", "face_mm"), [("1/4-20", 10.557), ("5/16-18", 12.065), ("3/8-24", 13.573), ("1/2-13", 18.098)]
)
def test_inch_washer_faces_meet_an_open_table_of_fastener_sizes(size, face_mm):
    assert face_under("hex", parse_thread(size)).bearing_diameter * 1e3 == pytest.approx(face_mm, abs=0.001)


def test_a_size_in_no_table_says_that_it_is_assumed():
    assert "in no table" in face_under("hex", parse_thread("M7")).assumed
    assert face_under("hex", parse_thread("M8")).assumed == ""


def test_refuses_a_head_nobody_knows():
    with pytest.raises(NotUnderstood, match="hex, nut, flange, pan"):
        face_under("round", parse_thread("M6"))
