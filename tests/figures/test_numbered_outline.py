"""The outline of a machine with numbered places."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.figures.numbered_outline import Mark, Part, Side, numbered_outline

from .drawn import SVG, read_svg, refuse_a_muddle, texts, told

DECK = Part("deck", ((10, 10), (490, 10), (490, 400), (300, 590), (200, 590), (10, 400)), 0)
SHROUD = Part("shroud", ((250, 280),), 120)
TANK = Part("tank", ((150, 60), (350, 60), (350, 150), (150, 150)), 0)
SIDE = Side("top", "from above, handle below", 500, 600, (DECK, SHROUD, TANK))


def marks_at(*places):
    return [Mark(f"{number}a", place) for number, place in enumerate(places, start=1)]


@given(
    st.lists(
        st.tuples(st.integers(0, 50), st.integers(0, 60)).map(lambda at: (at[0] * 10.0, at[1] * 10.0)),
        max_size=16,
        unique=True,
    )
)
@settings(max_examples=25, deadline=None)
def test_no_number_lies_over_anything_wherever_the_places_are(places):
    drawn = numbered_outline(SIDE, marks_at(*places))
    refuse_a_muddle(drawn)
    assert {f"{number}a" for number in range(1, len(places) + 1)} <= {one.words for one in texts(drawn)}


@pytest.mark.parametrize(("wide", "high"), [(500, 600), (1800, 600), (300, 1500)])
def test_a_dot_sits_where_the_fastener_does(wide, high):
    corners = ((0, 0), (wide, 0), (wide, high), (0, high))
    side = Side("s", "from the left", wide, high, (Part("", corners, 0),))
    drawn = read_svg(numbered_outline(side, [Mark("1", (wide / 4, high / 2))]))
    (outline,) = [one for one in drawn.iter(f"{SVG}path") if one.get("class") == "drawn-line"]
    points = [tuple(map(float, one.split())) for one in outline.get("d")[1:-1].split("L")]
    (left, top), (right, foot) = points[0], points[2]
    (dot,) = [one for one in drawn.iter(f"{SVG}circle") if one.get("class") == "drawn-lead"]
    assert float(dot.get("cx")) == pytest.approx(left + (right - left) / 4, abs=0.2)
    assert float(dot.get("cy")) == pytest.approx((top + foot) / 2, abs=0.2)
    assert (right - left) / (foot - top) == pytest.approx(wide / high, rel=0.01)


def test_a_part_is_named_inside_it_and_not_inside_a_smaller_one():
    words = {one.words: one for one in texts(numbered_outline(SIDE, []))}
    assert set(words) == {"deck", "shroud", "tank"}
    assert words["tank"].bottom < words["shroud"].top < words["deck"].top


def test_a_name_without_room_is_left_out():
    small = Part("a very long name", ((0, 0), (50, 0), (50, 50), (0, 50)), 0)
    assert texts(numbered_outline(Side("s", "below", 500, 600, (small,)), [])) == []


def test_the_text_twin_names_side_and_numbers():
    title, twin = told(numbered_outline(SIDE, marks_at((100, 100), (400, 300))))
    assert title == "Where they sit, from above, handle below"
    assert "1a, 2a" in twin
