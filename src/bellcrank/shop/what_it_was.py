"""What the mechanic says of a cured job for those to come: which cause it was, and how long the repair took.

The times of a job's entries do not know it: between two of them lie the telephone, the tea and the next machine.
"""

import re

from bellcrank.diagnosis.closed_case import cures_of, known_to
from bellcrank.diagnosis.network import NOT_LISTED, NOT_LISTED_WORDS, CompiledPack
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.closed_jobs import closed_case
from bellcrank.shop.learning import learn_from
from bellcrank.shop.packs import usual_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import LESSON, JobRecord, read_record, record
from bellcrank.shop.sheet import WasLine

LONGEST = 24 * 60.0  # [min]
MINUTES = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(?:min|minutes|m)?")


def record_what_it_was(shop: Shop, number: int, cause: str = "", minutes: str = "", by: str = "") -> int:
    """Record which cause it was, or how long the curing repair took, or both; give the entry."""
    job = read_record(shop, number)
    compiled = usual_now(shop, job.job.machine.kind, job.names_used)
    body: dict[str, object] = {}
    if cause:
        body["cause"] = _known_cause(compiled, cause)
    if minutes:
        body["minutes"] = read_minutes(minutes)
    if not body:
        raise NotUnderstood("Say which cause it was, or how many minutes the repair took.", "cause")
    if not job.complaints:
        raise NotAllowedNow(f"Job {number} has no known complaint yet. Say that first.", "cause")
    if minutes and not any(cure.repairs for cure in cures_of(compiled, known_to(compiled, closed_case(job)))):
        raise NotAllowedNow(f"No repair cured job {number} yet, so none took that long. Record the repair.", "minutes")
    entry = record(shop, number, LESSON, body, by=by)
    learn_from(shop, number)
    return entry


def read_minutes(text: str) -> float:
    """Read minutes of work: ``25``, ``25 min`` or ``2.5``."""
    match = MINUTES.fullmatch(text.strip().lower())
    if match is None:
        raise NotUnderstood(f"“{text}” is no time of work. Type whole minutes, like 25.", "minutes")
    value = float(match[1].replace(",", "."))
    if not 0 < value <= LONGEST:
        raise OutOfRange(
            f"The repair took {text}; it must be above 0 and at most {LONGEST:.0f} min. Type the minutes.", "minutes"
        )
    return value


def was_line(compiled: CompiledPack, job: JobRecord) -> WasLine | None:
    """Give what is asked and known of a cured job for those to come; None while it is not cured."""
    closed = known_to(compiled, closed_case(job))
    cures = cures_of(compiled, closed)
    if not cures or not cures[-1].repairs:
        return None
    last = cures[-1]
    words = {cause.id: cause.words for cause in compiled.pack.causes} | {NOT_LISTED: NOT_LISTED_WORDS}
    asked = () if last.cause else (*last.causes, NOT_LISTED)
    return WasLine(
        choices=tuple((one, words[one]) for one in asked),
        cause=words[last.cause] if last.cause else "",
        named=bool(closed.named),
        repair=compiled.repairs[last.repairs[-1]].words,
        minutes=closed.minutes,
    )


def _known_cause(compiled: CompiledPack, cause: str) -> str:
    if cause != NOT_LISTED and cause not in compiled.causes:
        raise NotFound(
            f"There is no cause “{cause}”. Pick one from the job's causes, or {NOT_LISTED} for something else.", "cause"
        )
    return cause
