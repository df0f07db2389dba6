"""Why a line of the release list is asked: what happened to the machine and what was touched on it."""

from dataclasses import dataclass

from bellcrank.errors import NotUnderstood
from bellcrank.knowledge.closed_lists import ALWAYS, STRIKE, TOUCHED
from bellcrank.knowledge.model import ReleaseItem

WORDS = {
    ALWAYS: "every machine",
    STRIKE: "hit something",
    "blade": "blade, auger or tines touched",
    "tool": "chain, head or clutch touched",
    "engine": "engine opened",
    "fuel": "fuel side opened",
    "governor": "governor or carburettor touched",
    "flywheel": "flywheel off",
    "controls": "switch, throttle or brake touched",
}


@dataclass(frozen=True, slots=True)
class Asked:
    """One line of the release list that this machine must answer, and why."""

    item: ReleaseItem
    because: tuple[str, ...]  # triggers in the order of WORDS


def triggers_of(struck: bool, touched: frozenset[str]) -> tuple[str, ...]:
    """Give the triggers of a job from the plain facts.

    >>> triggers_of(True, frozenset({"blade"}))
    ('always', 'strike', 'blade')
    """
    strange = sorted(touched - set(TOUCHED))
    if strange:
        raise NotUnderstood(
            f"Touched: “{strange[0]}” is not one of {', '.join(TOUCHED)}. Name the repair's touched things with these."
        )
    on_the_job = ((STRIKE,) if struck else ()) + tuple(name for name in TOUCHED if name in touched)
    return (ALWAYS, *on_the_job)


def in_words(triggers: tuple[str, ...]) -> tuple[str, ...]:
    """Say what brought the list about, without the lines that are asked of every machine."""
    return tuple(WORDS[trigger] for trigger in triggers if trigger != ALWAYS)


def of_kind(items: tuple[ReleaseItem, ...], kind: str) -> tuple[ReleaseItem, ...]:
    """Pick the lines of the release list that are about this kind of machine."""
    return tuple(item for item in items if not item.kinds or kind in item.kinds)


def asked(items: tuple[ReleaseItem, ...], triggers: tuple[str, ...]) -> tuple[Asked, ...]:
    """Pick the lines of the release list these triggers ask for, in the order of the list."""
    picked = []
    for item in items:
        because = tuple(trigger for trigger in triggers if trigger in item.triggers)
        if because:
            picked.append(Asked(item=item, because=because))
    return tuple(picked)
