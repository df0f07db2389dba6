"""What the cord told, in words."""

from collections.abc import Mapping

from bellcrank.engine.slip import slip_words
from bellcrank.knowledge.model import Library
from bellcrank.shop.answers import Answered
from bellcrank.shop.cords import CORD_CAUTIONS, CORD_NOTES, CordTold, cord_from_words
from bellcrank.shop.engines import spark_place

WORTH_TELLING = 0.02  # [-] belief below which an explanation is left out


def cord_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say what jerks, pops and starts tell of flywheel, blade and release, and what to look at next."""
    del unit  # counts have none
    return told_by_cord(cord_from_words(library, typed))


def told_by_cord(found: CordTold) -> Answered:
    """Say what the cord told."""
    low, high = found.computed_jerks()
    likely, chance = found.likeliest
    return Answered(
        lead=f"{chance:.0%}:",
        figure=str(likely),
        sentences=(f"Next: {found.next_look}", *_fit(found)),
        lines=(
            *explained_lines(found),
            ("flywheel", found.ranges_words),
            ("likeliest", slip_words(found.belief.likeliest)),
            ("main spark there", spark_place(found.sparks[0])),
            ("then it jerks in", f"{low:.0%} to {high:.0%} of pulls, by the engine"),
            *_jerks(found),
        ),
        cautions=CORD_CAUTIONS,
        notes=(f"Engine: {found.card.words}.", *CORD_NOTES),
        found=found,
    )


def explained_lines(found: CordTold) -> tuple[tuple[str, str], ...]:
    """Give what may explain it, likeliest first, each with how likely it is."""
    told = [(words, chance) for words, chance in found.belief.explained if chance >= WORTH_TELLING]
    return tuple((f"{chance:.0%}", str(words)) for words, chance in told)


def _fit(found: CordTold) -> tuple[str, ...]:
    if found.fits:
        return ()
    return ("What was felt fits nothing computed here well: ask again what happened, and look instead of pulling.",)


def _jerks(found: CordTold) -> tuple[tuple[str, str], ...]:
    jerks = found.jerks
    if jerks is None:
        return ()
    return (("jerks", f"{jerks.count} of {jerks.of}: {jerks.low:.0%} to {jerks.high:.0%} of many pulls"),)
