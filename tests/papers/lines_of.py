"""Reading a PDF back: every line drawn on a page, and where letters stand, in millimetres from its left and top."""

import io
from dataclasses import dataclass, field

from pypdf import PdfReader
from pypdf.generic import ContentStream

MM = 25.4 / 72  # [mm/pt] by the definition of the PDF point


@dataclass
class Box:
    left: float
    top: float
    right: float
    foot: float

    @property
    def size(self):
        return self.right - self.left, self.foot - self.top

    def meets(self, other, least=0.0):
        return (
            self.left + least < other.right
            and other.left + least < self.right
            and self.top + least < other.foot
            and other.top + least < self.foot
        )

    def holds(self, other):
        return (
            self.left <= other.left and self.top <= other.top and other.right <= self.right and other.foot <= self.foot
        )


@dataclass
class Page:
    lines: list = field(default_factory=list)  # boxes round every stroked path, whole
    letters: list = field(default_factory=list)  # boxes round runs of letters, about so


def times(one, other):
    a, b, c, d, e, f = one
    p, q, r, s, t, u = other
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)


def pages_of(document):
    """Give the pages of a PDF as what is drawn on them."""
    reader = PdfReader(io.BytesIO(document))
    found = []
    for page in reader.pages:
        drawn, height = Page(), float(page.mediabox.height)
        walk(page.get_contents(), page["/Resources"], reader, (MM, 0, 0, -MM, 0, height * MM), drawn)
        found.append(drawn)
    return found


def walk(content, resources, reader, outer, drawn):  # noqa: C901 (a line an operator)
    matrix, kept, path, font, text = outer, [], [], 0.0, (1, 0, 0, 1, 0, 0)
    for operands, operator in ContentStream(content, reader).operations:
        match operator.decode():
            case "m" | "l" | "c" | "re" as name:
                path += corners(name, [float(one) for one in operands], matrix)
            case "S" | "s" | "B" | "b" | "f" | "f*" | "n" as name:
                drawn.lines += [around(path)] if path and name in "SsBb" else []
                path = []
            case "q":
                kept.append(matrix)
            case "Q":
                matrix = kept.pop()
            case "cm":
                matrix = times([float(one) for one in operands], matrix)
            case "Do":
                walk_form(resources["/XObject"][operands[0]], resources, reader, matrix, drawn)
            case "Tf":
                font = float(operands[1])
            case "Tm":
                text = [float(one) for one in operands]
            case "Tj" | "TJ":
                drawn.letters.append(written(operands[0], font, times(text, matrix)))


def walk_form(form, resources, reader, matrix, drawn):
    if form["/Subtype"] == "/Form":
        own = times([float(one) for one in form.get("/Matrix", (1, 0, 0, 1, 0, 0))], matrix)
        walk(form, form.get("/Resources", resources), reader, own, drawn)


def corners(name, numbers, matrix):
    if name == "re":
        x, y, wide, high = numbers
        points = [(x, y), (x + wide, y + high)]
    else:  # of a curve only its end: what we measure has straight sides or is a whole circle of four curves
        points = [tuple(numbers[-2:])]
    return [times((1, 0, 0, 1, *one), matrix)[4:] for one in points]


def around(points):
    across, down = [x for x, _ in points], [y for _, y in points]
    return Box(min(across), min(down), max(across), max(down))


def written(run, font, matrix):
    """About what letters cover: half their size wide each, which is less than they are."""
    parts = run if isinstance(run, list) else [run]
    count = sum(len(one.original_bytes) for one in parts if hasattr(one, "original_bytes")) / 2
    return around([times((1, 0, 0, 1, *one), matrix)[4:] for one in ((0, 0), (0.45 * font * count, 0.5 * font))])
