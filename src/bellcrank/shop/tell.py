"""Telling an event of a job in words."""

from collections.abc import Mapping
from typing import Any

from bellcrank.diagnosis.case import NOT_SURE
from bellcrank.diagnosis.network import NOT_LISTED_WORDS
from bellcrank.knowledge.assembly import Operation
from bellcrank.knowledge.model import Check, Pack
from bellcrank.shop.records import CAPTURED, MODELLED, RECORDED
from bellcrank.shop.storage.events import KeptEvent, targets_of
from bellcrank.shop.words import part_words

OUTCOME_WORDS = {"cured": "it works", "not-cured": "still not right", "not-tried": "not tried yet"}


def tell(event: KeptEvent, pack: Pack) -> str:
    """Tell an event as one line of history."""
    body = event.body
    if event.kind in ("told", "found"):
        counted = body.get("counted", {})
        pulls = f": {counted['jerks']} of {counted['of']} pulls" if {"jerks", "of"} <= counted.keys() else ""
        thought = ", only thought so" if body.get("unsure") else ""
        read = f" ({body['typed']})" if body.get("typed") else ""
        return f"{_finding(pack, body['check'], body['result'])}{pulls}{thought}{read}"
    if event.kind == "complaint":
        words = next((one.words for one in pack.complaints if one.id == body["complaint"]), body["complaint"])
        return f"complaint: {words}"
    if event.kind == "repaired":
        words = next((one.words for one in pack.repairs if one.id == body["repair"]), body["repair"])
        return f"{words}: {OUTCOME_WORDS.get(body['outcome'], body['outcome'])}"
    if event.kind == "lesson":
        return _lesson(pack, body)
    return _of_the_work(event, pack)


def _lesson(pack: Pack, body: Mapping[str, Any]) -> str:
    words = {one.id: one.words for one in pack.causes}
    cause = f"it was: {words.get(body['cause'], NOT_LISTED_WORDS)}" if "cause" in body else ""
    took = f"the repair took {body['minutes']:g} min" if "minutes" in body else ""
    return ", ".join(part for part in (cause, took) if part)


def _of_the_work(event: KeptEvent, pack: Pack) -> str:
    body = event.body
    if event.kind == "target":
        return f"way in planned to the {part_words(targets_of(body))}"
    if event.kind == "step":
        return _step(pack, body["direction"], body["operation"], bool(body["done"]))
    if event.kind == "torque":
        return f"torque of the {body['fastener'].replace('-', ' ')}: {body['typed']}, {body['basis']}"
    if event.kind == "reckoned":
        return f"worked out for {_do(pack, body['operation'])}: {body['said']}, {body['basis']}"
    if event.kind in (CAPTURED, RECORDED, MODELLED):
        return str(body["said"])
    if event.kind == "proof":
        return f"proof of {body['item'].replace('-', ' ')}: {', '.join(body['values'].values())}"
    if event.kind in ("price", "agreed", "worth", "invoice"):
        return _of_money(event)
    if event.kind == "state":
        return f"{body['state']}: {body['reason']}" if body["reason"] else str(body["state"])
    return f"photo added at {_do(pack, body['operation'])}" if body.get("operation") else "photo added"


def _of_money(event: KeptEvent) -> str:
    body = event.body
    if event.kind == "price":
        return f"price line: {body['words']}"
    if event.kind == "agreed":
        return f"agreed to spend {body['limit']} {body['currency']}: {body['how']}"
    if event.kind == "worth":
        return f"the machine is worth {body['worth']} {body['currency']}"
    return f"invoice {body['number']} written"


def _finding(pack: Pack, check: str, result: str) -> str:
    found = next((one for one in pack.checks if one.id == check), None)
    if found is None:
        return f"{check}: {result}"
    words = "not sure" if result == NOT_SURE else _says(found, result)
    if found.story:
        return f"{found.story_words}: {words}"
    return f"{found.words}: {words}" if result == NOT_SURE else words


def _says(check: Check, result: str) -> str:
    found = next((one for one in check.results if one.id == result), None)
    if found is None:
        return result
    return found.words if check.story else found.says


def _do(pack: Pack, operation: str) -> str:
    found = _operation(pack, operation)
    return f"“{found.do}”" if found else operation


def _operation(pack: Pack, operation: str) -> Operation | None:
    return next((one for a in pack.assemblies for one in a.operations if one.id == operation), None)


def _step(pack: Pack, direction: str, operation: str, done: bool) -> str:
    found = _operation(pack, operation)
    words = operation if found is None else found.do if direction == "in" else found.undo
    return f"done: {words}" if done else f"tick taken off: {words}"
