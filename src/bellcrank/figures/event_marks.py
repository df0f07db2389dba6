"""Upright lines across traces, each under the words of what happened there, broken wherever words stand."""

from collections.abc import Sequence
from dataclasses import dataclass

from bellcrank.figures.theme import LETTER, LINE, MARGIN, TEXT_SIZE, WIDTH, stroke, text_at, wrapped

BESIDE = 6  # [px] from a line to its words
CLEAR = 3  # [px] between a line of another event and words


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened, and where its line stands. [px]"""

    x: float
    words: str

    @property
    def to_the_right(self) -> bool:
        """Whether its words stand right of its line, where there is more room in the left half."""
        return self.x < WIDTH / 2

    @property
    def lines(self) -> tuple[str, ...]:
        """The words on the lines they need."""
        room = WIDTH - MARGIN - self.x if self.to_the_right else self.x - MARGIN
        return wrapped(self.words, width=room - BESIDE)


@dataclass(frozen=True, slots=True)
class Words:
    """A place where words stand, which lines leave out. [px]"""

    left: float
    right: float
    top: float
    bottom: float


def event_marks(events: Sequence[Event], top: float, foot: float, words: Sequence[Words]) -> str:
    """Write events under each other from the top on, and draw their lines down to the foot, broken where words stand.

    ``words`` are those of the traces, from the top down.
    """
    marks, ends = "", []
    said: list[Words] = []
    for event in events:
        marks += "".join(_line(event, line, top + LINE * number) for number, line in enumerate(event.lines))
        ends.append(top)
        top += LINE * len(event.lines)
        said.append(_covered(event, ends[-1], top))
    for number, (event, begins) in enumerate(zip(events, ends, strict=True)):
        marks += stroke("drawn-event", _broken(event.x, begins + 4, foot, [*said[number + 1 :], *words]))
    return marks


def _broken(x: float, top: float, foot: float, words: Sequence[Words]) -> str:
    """Give an upright line that leaves words out."""
    path = ""
    for one in words:
        if one.left < x < one.right:
            path += f"M{x:.1f} {top:.1f}V{one.top:.1f}" if one.top > top else ""
            top = one.bottom
    return f"{path}M{x:.1f} {top:.1f}V{foot:.1f}"


def _covered(event: Event, top: float, bottom: float) -> Words:
    wide = LETTER * TEXT_SIZE * max(map(len, event.lines)) + BESIDE + CLEAR
    left, right = (CLEAR, wide) if event.to_the_right else (wide, CLEAR)
    return Words(event.x - left, event.x + right, top, bottom)


def _line(event: Event, words: str, top: float) -> str:
    x, anchor = (event.x + BESIDE, "start") if event.to_the_right else (event.x - BESIDE, "end")
    return text_at(words, x, top + 0.78 * LINE, anchor=anchor)
