"""The buttons that record something."""

from dataclasses import dataclass

from bellcrank.shop.tell import OUTCOME_WORDS

TONES = {"cured": "done", "not-cured": "answer", "not-tried": "unsure"}


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
        ChoiceView(
            f"/jobs/{number}/repaired", (("repair", repair), ("outcome", key)), f"done: {OUTCOME_WORDS[key]}", "", tone
        )
        for key, tone in TONES.items()
        if key in outcomes
    )
