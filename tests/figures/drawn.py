"""Reading a figure back: its texts and bars with where they are."""

import re
from dataclasses import dataclass
from itertools import pairwise
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
# [-] mean width of a letter over its size, measured on DejaVu Sans, the widest common fallback
PLAIN_LETTER, BOLD_LETTER = 0.59, 0.67


@dataclass(frozen=True)
class Box:
    """What a mark covers. [px]"""

    words: str
    left: float
    right: float
    top: float
    bottom: float

    def meets(self, other):
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )


def read_svg(figure):
    return ElementTree.fromstring(figure)  # noqa: S314 (our own text)


def texts(figure):
    return [_text_box(one) for one in read_svg(figure).iter(f"{SVG}text")]


def bars(figure):
    return [_bar_box(one) for one in read_svg(figure).iter(f"{SVG}rect")]


def size(figure):
    return tuple(float(one) for one in read_svg(figure).get("viewBox").split()[2:])


def _text_box(one):
    letter = BOLD_LETTER if one.get("font-weight") == "bold" else PLAIN_LETTER
    width = letter * float(one.get("font-size")) * len(one.text)
    x, y, high = float(one.get("x")), float(one.get("y")), float(one.get("font-size"))
    left = x - {"end": 1.0, "middle": 0.5}.get(one.get("text-anchor"), 0.0) * width
    return Box(one.text, left, left + width, y - 0.8 * high, y + 0.25 * high)


def _bar_box(one):
    x, y = float(one.get("x")), float(one.get("y"))
    return Box(one.get("class"), x, x + float(one.get("width")), y, y + float(one.get("height")))


def paths(figure, *names):
    """Give the lines of the paths with one of these class names, of all without: each a list of points. [px]"""
    wanted = [one for one in read_svg(figure).iter(f"{SVG}path") if not names or one.get("class") in names]
    return [line for one in wanted for line in _lines(one.get("d"))]


def segments(lines):
    return [segment for line in lines for segment in pairwise(line)]


def _lines(drawn):
    assert not re.search(r"[a-z]", drawn), "only absolute commands can be read back"
    lines = []
    for command, numbers in re.findall(r"([A-Z])([^A-Z]*)", drawn):
        found = [float(one) for one in re.findall(r"-?[0-9.]+", numbers)]
        if command == "M":
            lines.append([tuple(found)])
        elif command == "Z":
            lines[-1].append(lines[-1][0])
        else:
            x, y = lines[-1][-1]
            lines[-1].append({"H": (found[0], y), "V": (x, found[0])}.get(command, tuple(found[-2:])))
    return lines


def meets_box(segment, box):
    """Whether a line runs through a box, looked at in small steps."""
    (x1, y1), (x2, y2) = segment
    steps = max(1, int(max(abs(x2 - x1), abs(y2 - y1))))
    places = ((x1 + (x2 - x1) * one / steps, y1 + (y2 - y1) * one / steps) for one in range(steps + 1))
    return any(box.left < x < box.right and box.top < y < box.bottom for x, y in places)


def cross(one, other):
    """Whether two lines cross, ends that only touch left out."""

    def side(line, point):
        (x1, y1), (x2, y2) = line
        return (x2 - x1) * (point[1] - y1) - (y2 - y1) * (point[0] - x1)

    return side(one, other[0]) * side(one, other[1]) < 0 and side(other, one[0]) * side(other, one[1]) < 0


def inked(figure):
    return [one for one in read_svg(figure).iter(f"{SVG}path") if one.get("fill") == "currentColor"]


def bold(figure):
    """Give the strong words beside the drawing, the title left out."""
    root = read_svg(figure)
    strong = [one for one in root.iter(f"{SVG}text") if one.get("font-weight") == "bold" and one.get("x") == "238"]
    return " ".join(one.text for one in strong).replace("\u00a0", " ")


def told(figure):
    """Give the title and the text twin."""
    root = read_svg(figure)
    return root[0].text.replace("\u00a0", " "), root[1].text.replace("\u00a0", " ")


def refuse_a_muddle(figure):
    """Fail when words, lines or leads lie over each other, or stick out."""
    width, height = size(figure)
    words, leads = texts(figure), segments(paths(figure, "drawn-lead"))
    for number, one in enumerate(words):
        assert one.left >= 0, one
        assert one.right <= width, one
        assert one.bottom <= height, one
        assert not any(one.meets(other) for other in (*words[:number], *bars(figure))), one
        assert not any(meets_box(segment, one) for segment in segments(paths(figure))), one
    for line in paths(figure):
        assert all(0 <= x <= width and 0 <= y <= height for x, y in line), line
    for number, one in enumerate(leads):
        assert not any(cross(one, other) for other in leads[:number]), one
