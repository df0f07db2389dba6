"""What a shop added to the pack of a kind, read from its file into the records of `knowledge.own`, and back."""

from collections.abc import Iterable, Mapping
from dataclasses import asdict
from typing import Any

from bellcrank.knowledge.own import Own, OwnCause, OwnCheck, OwnResult, Shows
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.own_entries import KeptEntry, read_own_entries

CAUSE, CHECK = "cause", "check"


def own_of(shop: Shop, kind: str) -> Own:
    """Give what the shop added to a kind of machine; the file is asked once for each time somebody wrote into it."""
    return shop.answers.answer(("own", kind, shop.storage.mark()), lambda: _read(shop, kind))


def _read(shop: Shop, kind: str) -> Own:
    with shop.storage.reading() as connection:
        kept = read_own_entries(connection, kind)
    return own_from(kept, shop.library.hazards)


def own_from(kept: Iterable[KeptEntry], hazards: Mapping[str, object]) -> Own:
    """Make the records; a caution there is no more is passed over."""
    entries = tuple(kept)
    return Own(
        causes=tuple(cause_from(one.name, one.body) for one in entries if one.what == CAUSE and one.stands),
        checks=tuple(check_from(one.name, one.body, hazards) for one in entries if one.what == CHECK and one.stands),
        old_causes=tuple(cause_from(one.name, one.body) for one in entries if one.what == CAUSE and not one.stands),
        old_checks=tuple(
            check_from(one.name, one.body, hazards) for one in entries if one.what == CHECK and not one.stands
        ),
    )


def cause_from(name: str, body: Mapping[str, Any]) -> OwnCause:
    """Make a cause of what is kept."""
    return OwnCause(
        id=name,
        words=body["words"],
        system=body["system"],
        complaints=tuple(body["complaints"]),
        explains=tuple((check, result) for check, result in body["explains"]),
        access=tuple(body["access"]),
        repair_words=body["repair_words"],
        minutes=float(body["minutes"]),
        price=body["price"],
    )


def check_from(name: str, body: Mapping[str, Any], hazards: Mapping[str, object]) -> OwnCheck:
    """Make a check of what is kept."""
    return OwnCheck(
        id=name,
        words=body["words"],
        minutes=float(body["minutes"]),
        results=tuple(OwnResult(**one) for one in body["results"]),
        tools=tuple(body["tools"]),
        access=tuple(body["access"]),
        shows=tuple(Shows(**one) for one in body["shows"]),
        runs_engine=bool(body["runs_engine"]),
        hazards=tuple(one for one in body["hazards"] if one in hazards),
    )


def body_of(one: OwnCause | OwnCheck) -> dict[str, Any]:
    """Give what is kept of a record; its name stands beside it."""
    return {field: value for field, value in asdict(one).items() if field != "id"}
