"""What a job already knows of cord, key and blade, and keeping in it what so many pulls did."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood
from bellcrank.knowledge.model import Pack
from bellcrank.shop.cords import COUNTED_CHECK, cord_from_words, counted_result
from bellcrank.shop.engine_rooms import CORD, ENGINE_ROOMS
from bellcrank.shop.findings import record_finding
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import pack_of, read_record
from bellcrank.shop.storage.events import KeptEvent
from bellcrank.shop.tell import tell

SEEN: Mapping[tuple[str, str], tuple[str, str]] = {  # check and result of a job, what it says of the cord's questions
    ("hit-something", "yes"): ("struck", "yes"),
    ("hit-something", "no"): ("struck", "no"),
    ("key-look", "lined-up"): ("key", "whole"),
    ("key-look", "bruised"): ("key", "bruised"),
    ("key-look", "offset"): ("key", "sheared"),
    ("blade-look", "sound"): ("blade", "tight"),
    ("blade-look", "loose"): ("blade", "loose"),
    ("blade-against-flywheel", "together"): ("blade", "tight"),
    ("blade-against-flywheel", "alone"): ("blade", "loose"),
}
MENDED: Mapping[str, tuple[str, str]] = {  # by a repair
    "new-key": ("key", "whole"),
    "new-blade": ("blade", "tight"),
    "blade-adapter": ("blade", "tight"),
    "compression-release": ("release", "works"),
}


@dataclass(frozen=True, slots=True)
class CordOfJob:
    """What a job says of the cord's questions by itself."""

    typed: Mapping[str, str]
    known: tuple[str, ...]  # how the job says it
    keeps: bool  # whether its machine's pack asks how often it jerks


def cord_of_job(shop: Shop, number: int) -> CordOfJob:
    """Give what a job knows: its engine, what was seen, and what was counted last and is not mended since.

    A kind of machine without engine cards is refused: the engines of other kinds say nothing of its cord.
    """
    job = read_record(shop, number)
    pack = pack_of(shop, job.job)
    if not pack.engine_cards:
        raise NotFound(f"No pulls are worked out for this kind of machine ({pack.words}): it has no engine card.")
    typed, known = _known(pack, job.standing("told", "found", "repaired"))
    card = job.job.machine.engine_card
    engine = {"engine": card} if card else {}
    keeps = any(one.id == COUNTED_CHECK for one in pack.checks)
    return CordOfJob({**engine, **typed}, tuple(dict.fromkeys(known.values())), keeps)


def keep_cord(shop: Shop, number: int, typed: Mapping[str, str], by: str = "") -> int:
    """Keep in a job how often it jerked, as the result of its check, with all that was typed."""
    found = cord_from_words(shop.library, typed)
    result = counted_result(found.felt) if found.felt else None
    if result is None:
        raise NotUnderstood("Say how many pulls jerked the cord back, like “3”; none is “0”.", "jerks")
    if not cord_of_job(shop, number).keeps:
        raise NotAllowedNow(
            f"The machine of job {number} has no check that counts jerks, so nothing was kept. Record “jerks back” as "
            "how the cord feels."
        )
    return record_finding(shop, number, COUNTED_CHECK, result, by, counted=ENGINE_ROOMS[CORD].told(typed))


def _known(pack: Pack, events: Iterable[KeptEvent]) -> tuple[dict[str, str], dict[str, str]]:
    """Go through what happened: what was seen last holds, and what was counted only until something is mended."""
    seen: dict[str, str] = {}
    words: dict[str, str] = {}
    counted: dict[str, str] = {}
    for event in events:
        body, told = event.body, None
        if event.kind == "repaired":
            told = MENDED.get(body["repair"])
            counted = {name: value for name, value in counted.items() if name == "engine"}
            words.pop(COUNTED_CHECK, None)
        elif body["check"] == COUNTED_CHECK:
            counted = dict(body.get("counted", {}))
            words[COUNTED_CHECK] = tell(event, pack)
        else:
            told = SEEN.get((body["check"], body["result"]))
        if told:
            seen[told[0]], words[told[0]] = told[1], tell(event, pack)
    return {**counted, **seen}, words
