"""Cautions of a shop's own checks and repairs: never fewer than the pack's own with the same things open.

What is touched follows from what is open. An own check gets every caution, and everything that must be off first, of
every check of the pack that opens nothing but what it opens too, and runs the engine when it does. A repair gets those
of all such checks and repairs. Where nothing in the pack opens a thing, the plug lead comes off. Cautions can be added,
none can be left out.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.knowledge.model import Check, Pack, Repair

PLUG_LEAD, LEAD_OFF = "plug lead", "plug-lead-off"
RUNNING = ("run-outdoors", "moving-parts")  # with any running engine, whatever the pack says


@dataclass(frozen=True, slots=True)
class Cautions:
    """What is shown before an own step."""

    hazards: tuple[str, ...]
    off_first: tuple[str, ...]


def check_cautions(pack: Pack, access: Iterable[str], *, runs_engine: bool) -> Cautions:
    """Give the cautions of an own check."""
    opened = _with_needs(pack, access)
    alike = [
        one
        for one in pack.checks
        if one.runs_engine == runs_engine and not one.tries_to_start and _inside(pack, one, opened)
    ]
    if runs_engine:
        return _together(alike, RUNNING)
    seen = _all_opened(pack, alike)
    likewise = [one for one in pack.repairs if _inside(pack, one, opened) and not seen.issuperset(one.access)]
    unknown = opened - seen - _all_opened(pack, likewise)
    return _together([*alike, *likewise], (LEAD_OFF,) if unknown else ())


def repair_cautions(pack: Pack, access: Iterable[str]) -> Cautions:
    """Give the cautions of an own repair; hands go in, so the plug lead comes off."""
    opened = _with_needs(pack, access)
    checks = [
        one for one in pack.checks if not one.runs_engine and not one.tries_to_start and _inside(pack, one, opened)
    ]
    repairs = [one for one in pack.repairs if _inside(pack, one, opened)]
    return _together([*checks, *repairs], (LEAD_OFF,))


def touched_by(pack: Pack, access: Iterable[str], system: str) -> tuple[str, ...]:
    """Give what an own repair touches, for the release list.

    It is what the pack's repairs touch that open nothing but what it opens, and what most of those touch that mend
    causes of the same system.
    """
    opened = _with_needs(pack, access)
    near = [one for one in pack.repairs if _inside(pack, one, opened)]
    touched = {name for one in near for name in one.touches}
    of_system = {cause.id for cause in pack.causes if cause.system == system}
    alike = [one for one in pack.repairs if not of_system.isdisjoint(one.fixes)]
    for name in {name for one in alike for name in one.touches}:
        if sum(name in one.touches for one in alike) * 2 > len(alike):
            touched.add(name)
    return tuple(sorted(touched))


def _inside(pack: Pack, one: Check | Repair, opened: frozenset[str]) -> bool:
    """Whether it opens something, and nothing but this; a running check may open nothing at all."""
    runs = isinstance(one, Check) and one.runs_engine
    return (bool(one.access) or runs) and _with_needs(pack, one.access) <= opened


def _with_needs(pack: Pack, access: Iterable[str]) -> frozenset[str]:
    needs = {one.id: one.needs for one in pack.accesses}
    opened: set[str] = set()
    left = list(access)
    while left:
        name = left.pop()
        if name not in opened:
            opened.add(name)
            left.extend(needs.get(name, ()))
    return frozenset(opened)


def _all_opened(pack: Pack, steps: Iterable[Check | Repair]) -> frozenset[str]:
    return _with_needs(pack, (name for one in steps for name in one.access))


def _together(alike: Iterable[Check | Repair], more: tuple[str, ...]) -> Cautions:
    found = list(alike)
    hazards = dict.fromkeys((*more, *(name for one in found for name in one.hazards)))
    off = dict.fromkeys(name for one in found for name in one.off_first)
    if LEAD_OFF in hazards:
        off[PLUG_LEAD] = None
    return Cautions(tuple(hazards), tuple(off))
