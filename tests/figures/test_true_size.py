"""Fasteners drawn to true size."""

import pytest

from bellcrank.figures.tray_spots import spots_figure, spots_within
from bellcrank.figures.true_size import Piece, true_size

from .drawn import SVG, paths, read_svg

BOLT = Piece("flange", "hex", 6.0, 1.0, 10.0, 28.0, nut=False)


def svg_of(drawn):
    return f'<svg xmlns="http://www.w3.org/2000/svg">{drawn.marks}</svg>'


def marks_of(drawn, name):
    return list(read_svg(svg_of(drawn)).iter(f"{SVG}{name}"))


def extent(line):
    return tuple(max(numbers) - min(numbers) for numbers in zip(*line, strict=True))


def shank_of(drawn):
    """Give length and thickness of what is under the head: the closed line that ends farthest from it."""
    closed = [line for line in paths(svg_of(drawn)) if line[0] == line[-1]]
    return extent(max(closed, key=lambda line: max(x for x, _ in line)))


@pytest.mark.parametrize("head", ["flange", "hex"])
@pytest.mark.parametrize("length", [5.0, 14.0, 28.0, 110.0])
def test_the_shank_is_as_long_and_thick_as_the_screw(head, length):
    drawn = true_size(Piece(head, "hex", 8.0, 1.25, 13.0, length, nut=False))
    assert drawn.true
    assert shank_of(drawn) == pytest.approx((length, 8.0), abs=0.002)


def test_a_screw_without_a_thread_is_true_in_length_and_ends_in_a_point():
    drawn = true_size(Piece("pan", "slot", 0.0, 0.0, 0.0, 10.0, nut=False))
    assert drawn.true
    assert shank_of(drawn)[0] == pytest.approx(10.0, abs=0.002)


@pytest.mark.parametrize(("head", "widest"), [("nut", 24.0 * 2 / 3**0.5), ("flange", 2.3 * 16.0)])
def test_a_nut_lies_flat_with_its_hole_and_flats_true(head, widest):
    drawn = true_size(Piece(head, "hex", 16.0, 1.5, 24.0, None, nut=True))
    (hole,) = [one for one in marks_of(drawn, "circle") if float(one.get("r")) < 10]
    assert float(hole.get("r")) * 2 == pytest.approx(16.0)
    (hexagon,) = paths(svg_of(drawn))
    assert extent(hexagon)[1] == pytest.approx(24.0, abs=0.002)
    assert drawn.width == pytest.approx(widest, abs=0.01)


@pytest.mark.parametrize("drive", ["clip", "key", "pin", "spring pin", "strap"])
def test_what_is_no_screw_is_a_sign_in_a_broken_line(drive):
    drawn = true_size(Piece("hex", drive, 0.0, 0.0, 0.0, None, nut=False))
    assert not drawn.true
    assert all(one.get("stroke-dasharray") for one in marks_of(drawn, "path"))


def test_the_signs_differ():
    pieces = [Piece("hex", drive, 0.0, 0.0, 0.0, None, nut=False) for drive in ("clip", "key", "pin")]
    assert len({true_size(one).marks for one in pieces}) == 3


def test_a_length_nobody_knows_is_not_drawn_as_if_known():
    drawn = true_size(Piece("hex", "hex", 6.0, 1.0, 10.0, None, nut=False))
    assert not drawn.true


def test_a_screw_longer_than_its_room_is_cut_short():
    drawn = true_size(Piece("hex", "hex", 12.0, 1.75, 19.0, 300.0, nut=False), longest=160.0)
    assert not drawn.true
    assert drawn.width <= 163


@pytest.mark.parametrize("count", [1, 2, 3, 7, 20])
@pytest.mark.parametrize("width", [51.0, 80.0, 169.0])
def test_spots_do_not_touch_and_stay_in_their_tray(count, width):
    drawn = true_size(BOLT)
    letters = tuple(f"{one}" for one in range(count)) if count > 1 else ("",)
    spots = spots_within(drawn, letters, width)
    assert spots.width <= width
    places = [spots.at(number) for number in range(count)]
    for number, (left, top) in enumerate(places):
        assert 0 <= left <= left + drawn.width <= spots.width
        assert 0 <= top <= top + drawn.height <= spots.height + 0.001
        for other_left, other_top in places[:number]:
            assert abs(left - other_left) >= drawn.width or abs(top - other_top) >= drawn.height


def test_a_millimetre_of_the_drawing_is_a_millimetre_of_the_paper():
    drawn = read_svg(spots_figure(spots_within(true_size(BOLT), ("a", "b"), 80.0), "Tray 1"))
    wide, high = drawn.get("viewBox").split()[2:]
    assert (drawn.get("width"), drawn.get("height")) == (f"{wide}mm", f"{high}mm")
    assert [one.text for one in drawn.iter(f"{SVG}text")] == ["a", "b"]
