"""A job's case weighed: what is believed, what comes next, and the cure, as lines for the sheet."""

from dataclasses import dataclass

from bellcrank.diagnosis.belief import Belief, believe
from bellcrank.diagnosis.network import CompiledPack, compile_pack, pack_given
from bellcrank.quote.currency import places_of
from bellcrank.shop.because_sheet import CombinationLine, VerdictLine
from bellcrank.shop.billing import terms_of
from bellcrank.shop.fill_because import combination_lines, verdict_line
from bellcrank.shop.fill_causes import Counting, cause_lines, cure_line, next_lines
from bellcrank.shop.fill_price import plan_terms, rates_of
from bellcrank.shop.packs import compiled_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import JobRecord
from bellcrank.shop.settings import Settings
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


def weighed(shop: Shop, job: JobRecord, settings: Settings) -> Weighed | None:
    """Weigh the case of a job and say what follows; None while no complaint is known."""
    if not job.complaints:
        return None
    counting = counting_of(shop, job, settings)
    return shop.answers.answer(
        ("sheet", compiled_of(shop, job), job.case, counting), lambda: _weigh(shop, job, counting)
    )


def counting_of(shop: Shop, job: JobRecord, settings: Settings) -> Counting:
    """Give what the plan of a job counts with."""
    terms = terms_of(job, settings)
    return Counting(plan_terms(job, settings, compiled_of(shop, job)), rates_of(terms), places_of(terms.currency))


def compiled_of(shop: Shop, job: JobRecord) -> CompiledPack:
    """Give the pack of a job's machine, with the rows that hold while its complaints stand."""
    usual = compiled_now(shop, job.job.machine.kind)
    told = frozenset(job.case.complaints) & {one.complaint for one in usual.pack.given}
    if not told:
        return usual
    question = ("given", usual, told)
    return shop.answers.answer(question, lambda: compile_pack(pack_given(usual.pack, sorted(told))))


def _weigh(shop: Shop, job: JobRecord, counting: Counting) -> Weighed:
    compiled, belief = compiled_of(shop, job), belief_of(shop, job)
    return Weighed(
        belief=belief,
        causes=cause_lines(compiled, belief),
        next=next_lines(compiled, belief, shop.library, counting),
        cure=cure_line(compiled, belief),
        verdict=verdict_line(compiled, belief),
        combinations=() if belief.cured else combination_lines(compiled, belief),
    )
