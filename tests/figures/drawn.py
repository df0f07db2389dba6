"""Reading a figure back: its texts and bars with where they are."""

from dataclasses import dataclass
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
    left = x - width if one.get("text-anchor") == "end" else x
    return Box(one.text, left, left + width, y - 0.8 * high, y + 0.25 * high)


def _bar_box(one):
    x, y = float(one.get("x")), float(one.get("y"))
    return Box(one.get("class"), x, x + float(one.get("width")), y, y + float(one.get("height")))
