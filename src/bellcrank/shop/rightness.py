"""How right the tool was on the shop's closed jobs whose cause is known."""

from collections.abc import Iterable, Sequence

from bellcrank.diagnosis.told_again import Blame, Replay
from bellcrank.shop.learnt_sheet import Rightness
from bellcrank.shop.words import counted
from bellcrank.stats.scores import binned, brier, murphy, spiegelhalter_z, surprise

FEWEST = 20  # [-] jobs below which nothing is said: chance alone moves every figure too far
LEAST = 0.01  # [-] chances below are left out: there are dozens a job, and nearly all are right
ODD = 2.0  # [-] standard deviations, once in twenty by chance alone
STORY, END = "after the story", "before the repair"
PACK, LEARNT = "by the pack", "with what was learnt"


def rightness(said: Sequence[Replay], numbers: str) -> tuple[Rightness, ...]:
    """Score both moments of the jobs of which one cause is known."""
    known = [one for one in said if len(one.causes) == 1]
    if not known:
        return ()
    return (
        _scored([(one.story, one.causes[0]) for one in known], STORY, numbers),
        _scored([(one.end, one.causes[0]) for one in known], END, numbers),
    )


def _scored(told: Sequence[tuple[Blame, str]], moment: str, numbers: str) -> Rightness:
    pairs = [(chance, name == cause) for blame, cause in told for name, chance in blame.items() if chance >= LEAST]
    said, came = [one for one, _ in pairs], [one for _, one in pairs]
    tops = [max(blame.items(), key=lambda pair: pair[1]) for blame, _ in told]
    parts, honest = murphy(said, came), spiegelhalter_z(said, came)
    return Rightness(
        moment=moment,
        numbers=numbers,
        jobs=len(told),
        top_right=sum(name == cause for (name, _), (_, cause) in zip(tops, told, strict=True)),
        top_said=_mean(chance for _, chance in tops),
        log_score=_mean(surprise(blame.get(cause, 0.0)) for blame, cause in told),
        brier=brier(said, came),
        reliability=parts.reliability,
        resolution=parts.resolution,
        uncertainty=parts.uncertainty,
        honest_z=honest,
        bins=binned(said, came),
        says=_says(len(told), honest),
    )


def _mean(values: Iterable[float]) -> float:
    every = list(values)
    return sum(every) / len(every)


def _says(jobs: int, honest: float) -> str:
    if jobs < FEWEST:
        return f"{counted(jobs, 'closed job', 'closed jobs')}: too few to say."
    if honest > ODD:
        return "It was surer than it should be: what it called likely came less often than it said."
    if honest < -ODD:
        return "It was less sure than it could be: what it called likely came more often than it said."
    return "What it said came about as often as it said, as far as so many jobs can tell."
