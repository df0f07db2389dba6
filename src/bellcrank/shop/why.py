"""The whole story of one cause of a job."""

from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.errors import NotAllowedNow, NotFound
from bellcrank.shop.because_sheet import CombinationLine
from bellcrank.shop.fill_because import combination_lines, verdict_line
from bellcrank.shop.fill_causes import is_event, lines_of
from bellcrank.shop.fill_sheet import machine_line
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import JobRecord, read_record
from bellcrank.shop.replay_sheet import WhySheet
from bellcrank.shop.weighed import belief_of, compiled_of

BESIDE = 5  # [-] the likeliest others a cause is seen together with


def why(shop: Shop, number: int, cause: str) -> WhySheet:
    """Tell all that speaks for and against a cause, what would change that, and what it goes together with."""
    job = read_record(shop, number)
    compiled = compiled_of(shop, job)
    if cause not in compiled.network.position:
        raise NotFound(
            f"There is no cause “{cause}”. Pick one by its ID: “bellcrank next {number} --all --json” lists them.",
            "cause",
        )
    refuse_without_complaint(job)
    return _why(compiled, belief_of(shop, job), job, cause)


def refuse_without_complaint(job: JobRecord) -> None:
    """Refuse to weigh causes before it is known what the machine came in with."""
    if not job.complaints:
        raise NotAllowedNow(
            f"Nothing is believed of job {job.job.number} before a known complaint is named. Name it on its sheet, or "
            f"with “bellcrank complaint {job.job.number}”."
        )


def _why(compiled: CompiledPack, belief: Belief, job: JobRecord, cause: str) -> WhySheet:
    order = _order(compiled, belief)
    return WhySheet(
        number=job.job.number,
        machine=machine_line(job.job.machine, compiled.pack).words,
        place=order.index(cause) + 1 if cause in order else 0,
        cause=lines_of(compiled, belief, (cause,))[0],
        on_arrival=belief.on_arrival[cause],
        surprise=belief.disagreement,
        verdict=verdict_line(compiled, belief, cause),
        combinations=_with(compiled, belief, cause, order),
    )


def _order(compiled: CompiledPack, belief: Belief) -> list[str]:
    """Give the causes that can be found in the machine, most likely first."""
    return sorted((name for name in belief.now if not is_event(compiled, name)), key=lambda name: -belief.now[name])


def _with(compiled: CompiledPack, belief: Belief, cause: str, order: list[str]) -> tuple[CombinationLine, ...]:
    """Give the likely combinations a cause is part of, among it and the likeliest others."""
    if belief.cured:
        return ()
    looked_at = (cause, *[name for name in order if name != cause][:BESIDE])
    return tuple(one for one in combination_lines(compiled, belief, looked_at) if cause in one.causes)
