"""Closed jobs as diagnosis learns from them."""

from bellcrank.diagnosis.closed_case import ClosedCase
from bellcrank.shop.records import LESSON, JobRecord


def closed_case(job: JobRecord) -> ClosedCase:
    """Give a job as a closed case; what was said last of cause and minutes counts."""
    events = list(job.standing("told", "found", "repaired"))
    told = next((place for place, event in enumerate(events) if event.kind != "told"), len(events))
    said: dict[str, object] = {}
    for event in job.standing(LESSON):
        said |= event.body
    minutes = said.get("minutes")
    return ClosedCase(
        job.case, told, str(said.get("cause", "")), float(minutes) if isinstance(minutes, int | float) else None
    )
