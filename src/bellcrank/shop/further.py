"""A look two steps ahead on a job, for as many seconds as the person will wait."""

import math
from dataclasses import dataclass
from datetime import timedelta

from bellcrank.diagnosis.further import Further, look_further
from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.shop.fill_causes import lines_of_steps
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import read_record
from bellcrank.shop.settings import read_settings
from bellcrank.shop.sheet import NextLine
from bellcrank.shop.weighed import belief_of, compiled_of, counting_of
from bellcrank.shop.words import counted, minutes

USUAL_SECONDS, MOST_SECONDS = 2.0, 60.0
NO_COMPLAINT = "Name the complaint first; then there is something to look into."
NOTHING = "Nothing is left to look further into."


@dataclass(frozen=True, slots=True)
class FurtherLine:
    """What a look two steps ahead says of the next step."""

    words: str  # one or two sentences
    changed: bool
    before: str  # id of what stood first; "" when nothing is next
    after: str  # id of what stands first now
    worth_minutes: float  # what the change saves [min]
    looked_at: int  # steps looked at
    to_look_at: int
    next: tuple[NextLine, ...]  # ranked anew


def further_line(shop: Shop, number: int, seconds: str = "") -> FurtherLine:
    """Look further ahead on a job and say whether that changes what to do first."""
    until = shop.now() + timedelta(seconds=_seconds(seconds))
    job, settings = read_record(shop, number), read_settings(shop)
    if not job.complaints:
        return FurtherLine(NO_COMPLAINT, False, "", "", 0.0, 0, 0, ())
    compiled, belief, counting = compiled_of(shop, job), belief_of(shop, job), counting_of(shop, job, settings)
    looked = look_further(compiled, belief, lambda: shop.now() < until, counting.terms)
    return FurtherLine(
        words=_words(looked),
        changed=looked.changed,
        before=looked.before.id if looked.before else "",
        after=looked.after.id if looked.after else "",
        worth_minutes=looked.worth_minutes,
        looked_at=looked.looked_at,
        to_look_at=looked.to_look_at,
        next=lines_of_steps(compiled, belief, shop.library, looked.steps, counting),
    )


def _seconds(typed: str) -> float:
    text = typed.strip() or str(USUAL_SECONDS)
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        raise NotUnderstood(f"“{typed}” is no number of seconds. Type one like 2.", "seconds") from None
    if not (math.isfinite(value) and 0 < value <= MOST_SECONDS):
        raise OutOfRange(
            f"Looking ahead for {text} s cannot be; it must be above 0 and at most {MOST_SECONDS:.0f}. Type 2, say.",
            "seconds",
        )
    return value


def _words(looked: Further) -> str:
    if looked.before is None or looked.after is None:
        return NOTHING
    how_far = "" if looked.looked_at == looked.to_look_at else _how_far(looked)
    if not looked.changed:
        return f"Two steps ahead it stays the same: “{looked.after.words}”.{how_far}"
    return (
        f"Two steps ahead, “{looked.after.words}” comes before “{looked.before.words}”; that saves about "
        f"{minutes(looked.worth_minutes)}.{how_far}"
    )


def _how_far(looked: Further) -> str:
    steps = counted(looked.looked_at, "step", "steps")
    return f" The time was up after {steps} of {looked.to_look_at}; give it more for the rest."
