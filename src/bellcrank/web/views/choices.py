"""The buttons that record something."""

from dataclasses import dataclass

OUTCOMES = (
    ("cured", "done: it works", "done"),
    ("not-cured", "done: still not right", "answer"),
    ("not-tried", "done, not tried yet", "unsure"),
)


@dataclass(frozen=True, slots=True)
class ChoiceView:
    """A button that records something."""

    action: str
    fields: tuple[tuple[str, str], ...]
    words: str
    expected: str
    tone: str  # answer, unsure, done, stop


def outcome_choices(repair: str, outcomes: tuple[str, ...], number: int) -> tuple[ChoiceView, ...]:
    """Give the buttons that record what a repair did, of the outcomes that can be told now."""
    return tuple(
        ChoiceView(f"/jobs/{number}/repaired", (("repair", repair), ("outcome", key)), words, "", tone)
        for key, words, tone in OUTCOMES
        if key in outcomes
    )
