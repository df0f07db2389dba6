"""A job's case weighed: what is believed, what comes next, and the cure, as lines for the sheet."""

from dataclasses import dataclass

from bellcrank.diagnosis.belief import Belief, believe
from bellcrank.diagnosis.network import CompiledPack, compile_pack, pack_given
from bellcrank.shop.because_sheet import CombinationLine, VerdictLine
from bellcrank.shop.fill_because import combination_lines, verdict_line
from bellcrank.shop.fill_causes import cause_lines, cure_line, next_lines
from bellcrank.shop.packs import compiled_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import JobRecord
from bellcrank.shop.sheet import CauseLine, CureLine, NextLine

NOTHING_YET = CureLine("open", "", ())


@dataclass(frozen=True, slots=True, eq=False)
class Weighed:
    """All that follows from the complaints, findings and repairs of a job."""

    belief: Belief
    causes: tuple[CauseLine, ...]
    next: tuple[NextLine, ...]
    cure: CureLine
    verdict: VerdictLine | None
    combinations: tuple[CombinationLine, ...]


def belief_of(shop: Shop, job: JobRecord) -> Belief:
    """Weigh the case of a job; without a complaint the findings alone are weighed."""
    compiled, case = compiled_of(shop, job), job.case
    return shop.answers.answer(("belief", compiled, case), lambda: believe(compiled, case))


def weighed(shop: Shop, job: JobRecord) -> Weighed | None:
    """Weigh the case of a job and say what follows; None while no complaint is known."""
    if not job.complaints:
        return None
    return shop.answers.answer(("sheet", compiled_of(shop, job), job.case), lambda: _weigh(shop, job))


def compiled_of(shop: Shop, job: JobRecord) -> CompiledPack:
    """Give the pack of a job's machine, with the rows that hold while its complaints stand."""
    usual = compiled_now(shop, job.job.machine.kind)
    told = frozenset(job.case.complaints) & {one.complaint for one in usual.pack.given}
    if not told:
        return usual
    question = ("given", usual, told)
    return shop.answers.answer(question, lambda: compile_pack(pack_given(usual.pack, sorted(told))))


def _weigh(shop: Shop, job: JobRecord) -> Weighed:
    compiled, belief = compiled_of(shop, job), belief_of(shop, job)
    return Weighed(
        belief=belief,
        causes=cause_lines(compiled, belief),
        next=next_lines(compiled, belief, shop.library),
        cure=cure_line(compiled, belief),
        verdict=verdict_line(compiled, belief),
        combinations=() if belief.cured else combination_lines(compiled, belief),
    )
