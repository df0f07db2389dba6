"""The view of the release list: what is open, why, and the way to answer it."""

from dataclasses import dataclass, replace

from bellcrank.shop.sheet import JobSheet, ProofLine, ReleaseSheet
from bellcrank.shop.words import counted
from bellcrank.web.views.plain import NO_PROBLEM, Problem

PASSED = "passed"


@dataclass(frozen=True, slots=True)
class ReleaseView:
    """The release list on the sheet."""

    ready: bool
    summary: str
    lines: tuple[ProofLine, ...]
    blocking: tuple[str, ...]
    notes: tuple[str, ...]
    triggers: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HandbackPage:
    """The release list as a page of its own, to be gone through with a thumb."""

    title: str
    number: int
    machine: str
    state: str
    release: ReleaseView
    next_item: str
    problem: Problem


def release_view(release: ReleaseSheet) -> ReleaseView:
    """Lay out the release list."""
    passed = sum(line.status == PASSED for line in release.lines)
    failed = sum(line.hard and line.status == "failed" for line in release.lines)
    hard_open = sum(line.hard and line.status != PASSED for line in release.lines) - failed
    if release.ready:
        summary = "Every hard item is proven: it may go back as ready."
    else:
        told = f"{failed} failed, " if failed else ""
        summary = f"Not ready: {told}{counted(hard_open, 'hard item', 'hard items')} open, {passed} proven."
    return ReleaseView(
        ready=release.ready,
        summary=summary,
        lines=release.lines,
        blocking=release.blocking,
        notes=release.notes,
        triggers=release.triggers,
    )


def handback_page(sheet: JobSheet, problem: Problem = NO_PROBLEM) -> HandbackPage:
    """Lay out the page of the release list; the first open item is the next one."""
    release = release_view(sheet.release)
    lines = sorted(release.lines, key=lambda line: line.status == PASSED)  # what is still to do stands first
    open_items = [line.id for line in lines if line.status in ("open", "undecided")]
    return HandbackPage(
        title=f"#{sheet.number} hand back",
        number=sheet.number,
        machine=sheet.machine.words,
        state=sheet.state,
        release=replace(release, lines=tuple(lines)),
        next_item=open_items[0] if open_items else "",
        problem=problem,
    )
