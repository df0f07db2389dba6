"""Taking a machine in: half a story makes a numbered job at once."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from bellcrank.errors import NotFound, NotUnderstood
from bellcrank.knowledge.model import Pack
from bellcrank.shop.packs import pack_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import WAITING
from bellcrank.shop.settings import settings_from
from bellcrank.shop.storage.events import add_event
from bellcrank.shop.storage.jobs import KeptMachine, Owner, add_job
from bellcrank.shop.storage.things import read_setting_rows
from bellcrank.shop.texts import LONG, amount, clean, clean_line

NOT_KEPT_YET = 0
SHORT_WORD = 2  # letters; so short a word has no endings
LONGEST_STEM = 4  # letters of a word that must agree
REFUSALS = ("does not", "doesn't", "will not", "do not", "don't")  # all said as "won't"
SKIPPED = {"the", "a", "it", "then", "when", "is", "let", "go", "back", "on"}


@dataclass(frozen=True, slots=True)
class Story:
    """What was typed and tapped at the door; only the complaint is needed."""

    complaint_words: str = ""
    complaints: tuple[str, ...] = ()
    facts: Mapping[str, str] = field(default_factory=dict)  # check -> result
    name: str = ""
    phone: str = ""
    email: str = ""
    address: str = ""
    kind: str = ""
    maker: str = ""
    model: str = ""
    serial: str = ""
    engine_card: str = ""
    agreed_limit: str = ""  # to spend before asking, tax included


def take_in(shop: Shop, story: Story) -> int:
    """Make a job of a story and give its number."""
    pack = pack_at_the_door(shop, story.kind)
    words = clean(story.complaint_words, "The complaint", longest=LONG, field="complaint_words")
    complaints = tuple(dict.fromkeys(_known_complaint(pack, one) for one in story.complaints))
    if not words and not complaints:
        raise NotUnderstood(
            "The complaint is missing. Write what the customer says, or tap one of the complaints.", "complaint_words"
        )
    owner, machine = _owner(story), _machine(story, pack)
    facts = {check: _known_fact(pack, check, result) for check, result in story.facts.items() if result}
    typed = story.agreed_limit.strip()
    limit = amount(typed, "What may be spent", field="agreed_limit") if typed else None
    now = shop.now()
    with shop.storage.writing() as connection:
        settings = settings_from(read_setting_rows(connection))
        by = settings.mechanic
        job_id, number = add_job(connection, owner, machine, words, WAITING, now)
        for complaint in complaints or suggest_complaints(pack, words):
            add_event(connection, job_id, "complaint", {"complaint": complaint}, by=by, now=now)
        for check, result in facts.items():
            add_event(connection, job_id, "told", {"check": check, "result": result}, by=by, now=now)
        if limit is not None:
            agreed = {"limit": str(limit), "how": "at the door", "currency": settings.currency}
            add_event(connection, job_id, "agreed", agreed, by=by, now=now)
    return number


def _owner(story: Story) -> Owner:
    return Owner(
        name=clean_line(story.name, "The name", field="name"),
        phone=clean_line(story.phone, "The phone number", field="phone"),
        email=clean_line(story.email, "The e-mail address", field="email"),
        address=clean(story.address, "The address", longest=LONG, field="address"),
    )


def _machine(story: Story, pack: Pack) -> KeptMachine:
    return KeptMachine(
        id=NOT_KEPT_YET,
        kind=pack.kind,
        maker=clean_line(story.maker, "The maker", field="maker"),
        model=clean_line(story.model, "The model", field="model"),
        serial=clean_line(story.serial, "The serial number", field="serial"),
        engine_card=_known_engine(pack, story.engine_card),
    )


def suggest_complaints(pack: Pack, words: str) -> tuple[str, ...]:
    """Find the complaint of this kind of machine whose own words stand in the customer's; nothing is guessed beyond.

    The words of "won't start" must all stand in the text, small endings aside; what stands after a colon is another
    way to say it, and of "chain or head" one is enough.
    """
    said = _plain(words)
    own = {one.id: [_needed(re.split(" on ", way)[0]) for way in one.words.split(":")] for one in pack.complaints}
    return tuple(name for name, ways in own.items() if any(_all_said(way, said) for way in ways))[:2]


def _all_said(way: Sequence[frozenset[str]], said: Sequence[str]) -> bool:
    return bool(way) and all(any(_is_form_of(word, stem) for stem in stems for word in said) for stems in way)


def _is_form_of(word: str, stem: str) -> bool:
    """Whether a word is the stem with an ending; "no" is not the start of "noise"."""
    return word.startswith(stem) if len(stem) > SHORT_WORD else word == stem


def _needed(words: str) -> list[frozenset[str]]:
    """Give the stems of which one each must be said; words joined by "or" are one choice."""
    needed: list[frozenset[str]] = []
    joined = False
    for word in _plain(words):
        if word in SKIPPED:
            continue
        if word != "or":
            stem = frozenset([(word.removesuffix("s") if len(word) > SHORT_WORD + 1 else word)[:LONGEST_STEM]])
            needed = [*needed[:-1], needed[-1] | stem] if joined and needed else [*needed, stem]
        joined = word == "or"
    return needed


def _plain(text: str) -> list[str]:
    plain = text.casefold().replace("’", "'").replace(",", " ").replace(".", " ")
    for refusal in REFUSALS:
        plain = plain.replace(refusal, "won't")
    return plain.split()


def pack_at_the_door(shop: Shop, kind: str) -> Pack:
    """Give the pack of the kind of machine that is taken in, of the first kind when none is said."""
    kind = kind or next(iter(shop.library.packs))
    if kind not in shop.library.packs:
        known = ", ".join(shop.library.packs)
        raise NotFound(f"There is no kind of machine “{kind}”. It must be one of {known}.", "kind")
    return pack_now(shop, kind)


def _known_complaint(pack: Pack, complaint: str) -> str:
    if complaint not in {one.id for one in pack.complaints}:
        known = ", ".join(one.id for one in pack.complaints)
        raise NotFound(f"There is no complaint “{complaint}”. It must be one of {known}.", "complaint")
    return complaint


def _known_fact(pack: Pack, check: str, result: str) -> str:
    facts = {one.id: one for one in pack.checks if one.story}
    if check not in facts:
        known = ", ".join(facts)
        raise NotFound(f"There is no fact “{check}”. It must be one of {known}.", "facts")
    results = [one.id for one in facts[check].results]
    if result not in results:
        raise NotFound(f"“{result}” does not answer “{check}”. It must be one of {', '.join(results)}.", "facts")
    return result


def _known_engine(pack: Pack, card: str) -> str:
    if card and card not in {one.id for one in pack.engine_cards}:
        known = ", ".join(one.id for one in pack.engine_cards)
        raise NotFound(f"There is no engine card “{card}”. It must be one of {known}.", "engine_card")
    return card
