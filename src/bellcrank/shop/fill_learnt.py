"""Filling in what was learnt: numbers that moved, numbers that are held, how right the tool was, who gave counts."""

from collections.abc import Iterable, Sequence
from typing import TypeVar

from bellcrank.diagnosis.counts import added
from bellcrank.diagnosis.learnt_pack import (
    LEAST_TOLD,
    ROW_WORTH,
    SHARES_WORTH,
    SOUND_WORTH,
    Learnt,
)
from bellcrank.errors import NotFound
from bellcrank.knowledge.model import Pack
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.shop.learning import learn, replay_from
from bellcrank.shop.learnt import FEWEST_FOR_GATE, Gate, Taught, taught_now
from bellcrank.shop.learnt_sheet import ImportLine, LearntSheet, MovedMinutes, MovedRow, MovedShare, Rightness
from bellcrank.shop.packs import usual_now
from bellcrank.shop.pooling import in_words, unknown_names, years_of
from bellcrank.shop.premises import Shop
from bellcrank.shop.rightness import LEARNT, PACK, rightness
from bellcrank.shop.storage.jobs import CLOSED
from bellcrank.shop.storage.lessons import KeptImport, KeptLesson, read_closed_jobs, read_imports, read_lessons
from bellcrank.stats.beta import beta_with

WORTH_A_LINE = 0.5  # [-] machines seen, below which a row is not shown


def learnt_sheet(shop: Shop, kind: str = "") -> LearntSheet:
    """Fill in all that was learnt of a kind of machine, the first kind when none is named."""
    kind = kind or next(iter(shop.library.packs))
    if kind not in shop.library.packs:
        raise NotFound(
            f"There is no kind of machine “{kind}”. It must be one of {', '.join(shop.library.packs)}.", "kind"
        )
    unread = learn(shop, kind)
    usual = usual_now(shop, kind)
    taught = taught_now(shop, usual)
    with shop.storage.reading() as connection:
        lessons = read_lessons(connection, kind, CLOSED)
        closed = len(read_closed_jobs(connection, kind, CLOSED))
        imports = read_imports(connection, kind)
    known = sum(len(replay_from(one.said).causes) == 1 for one in lessons if one.said)
    shares, rows = _shares(usual.pack, taught.learnt), _rows(usual.pack, taught.learnt)
    return LearntSheet(
        kind=kind,
        kind_words=usual.pack.words,
        closed_jobs=closed,
        known_jobs=known,
        unread_jobs=unread,
        used=taught.learnt is not None and not taught.gate.closed,
        says=_says(taught),
        gate_jobs=taught.gate.jobs,
        gate_pack=taught.gate.pack if taught.gate.jobs else None,
        gate_learnt=taught.gate.learnt if taught.gate.jobs else None,
        rightness=_rightness(lessons),
        shares=_moved_most(one for one in shares if not one.held),
        rows=_moved_most(one for one in rows if not one.held),
        minutes=_minutes(usual.pack, taught.learnt),
        held=(*_moved_most(one for one in shares if one.held), *_moved_most(one for one in rows if one.held)),
        imports=tuple(_import_line(usual.pack, one) for one in imports),
    )


def _says(taught: Taught) -> str:
    if taught.learnt is None:
        return "No job has closed yet, so the pack's own numbers stand. Each machine handed back teaches something."
    gate = taught.gate
    if gate.closed:
        return (
            f"Not used now: on the last {gate.jobs} closed jobs the pack's own numbers told better {_scores(gate)}. "
            "It is held against each job that closes, and used again when it tells better."
        )
    if gate.jobs < FEWEST_FOR_GATE:
        return (
            "It is used. So few jobs move the pack's numbers only a little, and are too few to say whether they help."
        )
    return f"It is used: on the last {gate.jobs} closed jobs it told no worse than the pack alone {_scores(gate)}."


def _scores(gate: Gate) -> str:
    return f"(log score {gate.pack:.3f} by the pack, {gate.learnt:.3f} by what had been learnt; less is better)"


def _rightness(lessons: Sequence[KeptLesson]) -> tuple[Rightness, ...]:
    pack = [replay_from(one.said) for one in lessons if one.said]
    learnt = [replay_from(one.learnt_said) for one in lessons if one.learnt_said]
    return (*rightness(pack, PACK), *rightness(learnt, LEARNT))


Moved = TypeVar("Moved", MovedShare, MovedRow)


def _moved_most(moved: Iterable[Moved]) -> tuple[Moved, ...]:
    """Give numbers in the order of how far the jobs move them."""
    return tuple(sorted(moved, key=lambda one: -abs(one.learnt - one.before)))


def _shares(pack: Pack, learnt: Learnt | None) -> tuple[MovedShare, ...]:
    complaints = {one.id: one.words for one in pack.complaints}
    causes = {one.id: one.words for one in pack.causes}
    moved = []
    for one in learnt.shares if learnt else ():
        if one.seen < LEAST_TOLD:
            continue
        low, high = beta_with(one.learnt, SHARES_WORTH + one.of).interval()
        words = f"{complaints[one.complaint]}: {causes[one.cause]}"
        moved.append(
            MovedShare(one.complaint, one.cause, words, one.before, one.learnt, low, high, one.seen, one.of, one.held)
        )
    return tuple(moved)


def _rows(pack: Pack, learnt: Learnt | None) -> tuple[MovedRow, ...]:
    checks = {one.id: one for one in pack.checks}
    causes = {one.id: one.words for one in pack.causes}
    moved = []
    for one in learnt.rows if learnt else ():
        if sum(one.seen) < WORTH_A_LINE:
            continue
        place = max(range(len(one.before)), key=lambda level: abs(one.learnt[level] - one.before[level]))
        check, of = checks[one.check], sum(one.seen)
        worth = (SOUND_WORTH if one.cause == LEAK_ROW else ROW_WORTH) + of
        low, high = beta_with(one.learnt[place], worth).interval()
        with_what = "a sound machine" if one.cause == LEAK_ROW else causes[one.cause]
        asked = check.story_words if check.story else check.words
        moved.append(
            MovedRow(
                check=one.check,
                cause=one.cause,
                result=check.results[place].id,
                words=f"{asked}; {with_what}: {check.results[place].words}",
                before=one.before[place],
                learnt=one.learnt[place],
                low=low,
                high=high,
                seen=one.seen[place],
                of=of,
                held=one.held,
            )
        )
    return tuple(moved)


def _minutes(pack: Pack, learnt: Learnt | None) -> tuple[MovedMinutes, ...]:
    words = {one.id: one.words for one in pack.repairs}
    return tuple(
        MovedMinutes(
            repair=one.repair,
            words=words[one.repair],
            before_minutes=one.before.typical,
            low_minutes=one.learnt.low,
            minutes=one.learnt.typical,
            high_minutes=one.learnt.high,
            seen=one.seen.count,
        )
        for one in sorted(learnt.minutes if learnt else (), key=lambda one: -one.seen.count)
    )


def _import_line(pack: Pack, kept: KeptImport) -> ImportLine:
    years = years_of(kept)
    return ImportLine(
        id=kept.id,
        file_name=kept.file_name,
        words=in_words(years),
        unknown=unknown_names(pack, added((counts, 1.0) for counts in years.values())),
        imported_at=kept.imported_at.isoformat(),
        taken_back=not kept.stands,
    )
