"""The shop's own pack: "it was something else" and checks of one's own, used at once in this job and the next."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

from bellcrank.diagnosis.allowed import forbidding
from bellcrank.diagnosis.case import OUTCOMES, Case, Found
from bellcrank.diagnosis.findings import counting
from bellcrank.diagnosis.network import CompiledPack, compile_pack
from bellcrank.diagnosis.weighable import too_wide
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.knowledge.model import Pack
from bellcrank.knowledge.own import Own, OwnCause, names_of, own_name
from bellcrank.knowledge.pack_checks import table_gaps
from bellcrank.knowledge.with_own import YES, with_own
from bellcrank.shop.findings import refuse_a_start
from bellcrank.shop.own_entries import CAUSE, CHECK, body_of, cause_from, check_from, own_from
from bellcrank.shop.own_typed import CauseTyped, CheckTyped, cause_as_typed, check_as_typed, read_cause, read_check
from bellcrank.shop.packs import compiled_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import JobRecord, append, read_record, record_in, refuse_when_gone
from bellcrank.shop.storage.engine import OpenFile
from bellcrank.shop.storage.own_entries import (
    KeptEntry,
    NewEntry,
    add_own_entry,
    change_own_entry,
    mark_own_entry_taken_back,
    read_own_entries,
)

NOT_DONE = "not-done"  # what may be said of a repair that was not begun


@dataclass(frozen=True, slots=True)
class OddFinding:
    """A finding of a job that a sound machine would not show."""

    check: str
    result: str
    words: str


def odd_findings(shop: Shop, number: int) -> tuple[OddFinding, ...]:
    """Give the findings of a job that something must explain."""
    job = read_record(shop, number)
    return _odd(compiled_now(shop, job.job.machine.kind), job)


def usual_outcome(shop: Shop, number: int) -> str:
    """Give what a cause found is usually told with: that it works now, or is not tried while nothing may be started."""
    job = read_record(shop, number)
    return _usual(compiled_now(shop, job.job.machine.kind), job)


def _usual(compiled: CompiledPack, job: JobRecord) -> str:
    return "not-tried" if forbidding(compiled, job.case) else "cured"


def _odd(compiled: CompiledPack, job: JobRecord) -> tuple[OddFinding, ...]:
    found = dict.fromkeys(one.found for one in counting(compiled, job.case))
    odd = []
    for one in found:
        results = compiled.checks[one.check].results
        said = next((result.says for result in results[1:] if result.id == one.result), None)
        if said is not None and one.check not in compiled.pack.retired:
            odd.append(OddFinding(one.check, one.result, said))
    return tuple(odd)


def add_cause(
    shop: Shop,
    number: int,
    typed: CauseTyped,
    *,
    explains: Iterable[str] | None = None,
    outcome: str = "",
    by: str = "",
) -> str:
    """Put a cause the pack did not know into the shop's own pack and record it as found and put right; give its name.

    ``explains`` names checks of the job whose odd findings it explains, all of them when it is None. ``outcome`` is
    one of those of a repair, or "not-done", or "" for the usual. The same words typed twice on one job are one cause.
    """
    if outcome not in ("", *OUTCOMES, NOT_DONE):
        choice = ", ".join((*OUTCOMES, NOT_DONE))
        raise NotFound(f"“{outcome}” does not say what the repair did. It must be one of {choice}.", "outcome")
    now = shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        refuse_when_gone(job.job)
        if not job.complaints:
            raise NotAllowedNow("What did it come in with? Name the complaint first; a cause is counted by it.")
        kind, kept = job.job.machine.kind, read_own_entries(connection)
        own, pack = _own(shop, kept, kind), shop.library.packs[kind]
        new = read_cause(typed, with_own(pack, own), _free_name(shop, kept, typed.words), job.complaints, ())
        _refuse_known(pack, new)
        again = _same(own, kept, new, number)
        if again is not None:
            return again.id
        new = replace(new, explains=_explained(compile_pack(with_own(pack, own)), job, explains))
        compiled = _refuse_unfit(shop, pack, replace(own, causes=(*own.causes, new)))
        outcome = outcome or _usual(compiled, job)
        if outcome in ("cured", "not-cured"):
            found = Case(job.complaints, (*job.case.events, Found(new.look, YES)))
            refuse_a_start(compiled, found, new.mend)
        add_own_entry(connection, NewEntry(kind, CAUSE, new.id, body_of(new), job.job.id, by), now)
        append(connection, job.job, "found", {"check": new.look, "result": YES}, by=by, now=now)
        if outcome != NOT_DONE:
            append(connection, job.job, "repaired", {"repair": new.mend, "outcome": outcome}, by=by, now=now)
    return new.id


def add_check(shop: Shop, number: int, typed: CheckTyped, *, by: str = "") -> str:
    """Put a check the pack did not know into the shop's own pack, for the kind of machine of a job; give its name."""
    now = shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        kind, kept = job.job.machine.kind, read_own_entries(connection)
        own, pack = _own(shop, kept, kind), shop.library.packs[kind]
        name = _free_name(shop, kept, typed.words)
        new = read_check(typed, with_own(pack, own), shop.library.hazards, name)
        again = next((one for one in own.checks if replace(one, id=name) == new), None)
        if again is not None:  # one tap came in twice
            return again.id
        _refuse_unfit(shop, pack, replace(own, checks=(*own.checks, new)))
        add_own_entry(connection, NewEntry(kind, CHECK, new.id, body_of(new), job.job.id, by), now)
    return new.id


def change_cause(shop: Shop, name: str, typed: CauseTyped) -> None:
    """Change an own cause; its complaints and the findings it explains stay."""
    now = shop.now()
    with shop.storage.writing() as connection:
        entry, own, pack = _standing(shop, connection, name, CAUSE)
        before = cause_from(name, entry.body)
        new = read_cause(typed, pack, name, before.complaints, before.explains)
        causes = tuple(new if one.id == name else one for one in own.causes)
        _refuse_unfit(shop, pack, replace(own, causes=causes))
        change_own_entry(connection, entry.kind, name, body_of(new), now)


def change_check(shop: Shop, name: str, typed: CheckTyped) -> None:
    """Change an own check."""
    now = shop.now()
    with shop.storage.writing() as connection:
        entry, own, pack = _standing(shop, connection, name, CHECK)
        before = check_from(name, entry.body, shop.library.hazards)
        new = read_check(typed, with_own(pack, own), shop.library.hazards, name, before)
        checks = tuple(new if one.id == name else one for one in own.checks)
        _refuse_unfit(shop, pack, replace(own, checks=checks))
        change_own_entry(connection, entry.kind, name, body_of(new), now)


def change_entry(shop: Shop, name: str, given: Mapping[str, Any]) -> None:
    """Change some things of an own entry, named as in `CauseTyped` or `CheckTyped`; all others stay as they are."""
    entry = entry_named(shop, name)
    kept = cause_as_typed(entry.body) if entry.what == CAUSE else check_as_typed(entry.body)
    foreign = sorted(given.keys() - {field.name for field in fields(kept)})
    if foreign:
        raise NotUnderstood(f"“{name}” is a {entry.what}; it has no {foreign[0].replace('_', ' ')}. Leave that out.")
    if isinstance(kept, CauseTyped):
        change_cause(shop, name, replace(kept, **given))
    else:
        change_check(shop, name, replace(kept, **given))


def take_back_entry(shop: Shop, name: str, *, by: str = "") -> str:
    """Take an own entry back and give its words; jobs that used it keep it. Taken back before, it stays so."""
    now = shop.now()
    with shop.storage.writing() as connection:
        entry = _entry(connection, name)
        if entry.stands:
            mark_own_entry_taken_back(connection, entry.kind, name, by=by, now=now)
    return str(entry.body["words"])


def entry_named(shop: Shop, name: str) -> KeptEntry:
    """Give an own entry, or refuse with where to look."""
    with shop.storage.reading() as connection:
        return _entry(connection, name)


def _entry(connection: OpenFile, name: str) -> KeptEntry:
    found = next((one for one in read_own_entries(connection) if one.name == name), None)
    if found is None:
        raise NotFound(f"There is no own entry “{name}”. Look at the list of what this shop added.", "name")
    return found


def _standing(shop: Shop, connection: OpenFile, name: str, what: str) -> tuple[KeptEntry, Own, Pack]:
    entry = _entry(connection, name)
    if not entry.stands or entry.what != what:
        raise NotAllowedNow(f"“{entry.body['words']}” is no {what} that stands, so it cannot be changed. Make another.")
    own = _own(shop, read_own_entries(connection), entry.kind)
    return entry, own, shop.library.packs[entry.kind]


def _own(shop: Shop, kept: Iterable[KeptEntry], kind: str) -> Own:
    return own_from((one for one in kept if one.kind == kind), shop.library.hazards)


def _free_name(shop: Shop, kept: Iterable[KeptEntry], words: str) -> str:
    own = own_from(kept, shop.library.hazards)
    return own_name(words, names_of(own.causes, own.checks, own.old_causes, own.old_checks))


def _refuse_known(pack: Pack, new: OwnCause) -> None:
    """Refuse a cause that the pack has in the very same words."""
    for cause in pack.causes:
        if cause.words.casefold() == new.words.casefold():
            mend = next((one.words for one in pack.repairs if one.id == cause.repair), "")
            instead = f"Record “{mend}” on the job instead." if mend else "Record what shows it instead."
            raise OutOfRange(f"“{cause.words}” is on the list already. {instead}", "words")


def _same(own: Own, kept: Iterable[KeptEntry], new: OwnCause, number: int) -> OwnCause | None:
    """Give the cause this job has added in the same words; one that another job added is refused: it is known."""
    same = next((one for one in own.causes if one.words.casefold() == new.words.casefold()), None)
    if same is None:
        return None
    if any(one.name == same.id and one.job_number == number for one in kept):
        return same
    raise OutOfRange(
        f"“{same.words}” is in the shop's own pack already. Record “{same.repair_words}” on the job instead.", "words"
    )


def _explained(compiled: CompiledPack, job: JobRecord, explains: Iterable[str] | None) -> tuple[tuple[str, str], ...]:
    odd = {one.check: (one.check, one.result) for one in _odd(compiled, job)}
    chosen = tuple(odd if explains is None else dict.fromkeys(explains))
    for name in chosen:
        if name not in odd:
            there = f"It must be one of {', '.join(odd)}." if odd else "This job has none yet."
            raise NotFound(f"“{name}” is no odd finding of job {job.job.number}. {there}", "explains")
    return tuple(odd[name] for name in chosen)


def _refuse_unfit(shop: Shop, pack: Pack, own: Own) -> CompiledPack:
    """Refuse what would not fit into the pack, and give the pack with it compiled."""
    merged = with_own(pack, own)
    before = set(table_gaps(shop.library, pack))
    for table, name, words in table_gaps(shop.library, merged):
        if name.split(",")[0] not in merged.retired and (table, name, words) not in before:
            raise OutOfRange(f"That does not fit into what is known of this machine: {words} Nothing was kept.")
    for words in too_wide(merged):
        raise OutOfRange(f"That does not fit into what is known of this machine: {words} Nothing was kept.")
    return compile_pack(merged)
