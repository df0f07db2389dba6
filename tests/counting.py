"""A shop whose machines are asked how many pulls jerked, whether or not its pack asks for it by itself."""

from dataclasses import replace

from bellcrank.knowledge.model import Check, Likelihood, Result
from bellcrank.shop.cords import COUNTED_CHECK
from bellcrank.shop.last_answers import LastAnswers

NONE, SELDOM, OFTEN, MOSTLY = ("none", "seldom", "often", "mostly")
KIND = "walk-behind-mower"


def counting(shop):
    """Give the shop with the check that counts jerks."""
    pack = shop.library.packs[KIND]
    if any(one.id == COUNTED_CHECK for one in pack.checks):
        return shop
    pack = replace(pack, checks=(*pack.checks, _check(pack.checks[0])))
    library = replace(shop.library, packs={**shop.library.packs, KIND: pack})
    return replace(shop, library=library, answers=LastAnswers())


def without_counting(shop):
    """Give the shop without the check that counts jerks."""
    pack = shop.library.packs[KIND]
    pack = replace(pack, checks=tuple(one for one in pack.checks if one.id != COUNTED_CHECK))
    library = replace(shop.library, packs={**shop.library.packs, KIND: pack})
    return replace(shop, library=library, answers=LastAnswers())


def _check(like: Check) -> Check:
    results = [
        Result(one, one, f"the cord jerks: {one}", forbids_running=False) for one in (NONE, SELDOM, OFTEN, MOSTLY)
    ]
    jerks = Likelihood(COUNTED_CHECK, "key-sheared", (0.4, 0.3, 0.2, 0.1), like.origin)
    return replace(
        like,
        id=COUNTED_CHECK,
        words="Count the pulls that jerked the cord back",
        story=False,
        story_words="",
        results=tuple(results),
        leak=(0.94, 0.03, 0.02, 0.01),
        likelihoods=(jerks,),
    )
