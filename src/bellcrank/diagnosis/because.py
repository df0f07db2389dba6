"""Why a cause is likely or not, in shop words, with the weight of each finding and of each repair that failed.

A finding weighs twice: on its own, from the belief given the complaint alone, and with all else kept, by leaving it out
of what is known now. The two differ when findings say the same, or when one takes weight off the other or lends it
some; then it is said which.

References
----------
I. J. Good, Probability and the weighing of evidence, 1950 (weight of evidence; from memory).
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from bellcrank.diagnosis.belief import Belief, gather, level_of
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.network import NOT_LISTED, NOT_LISTED_WORDS, CompiledPack
from bellcrank.stats.evidence import Evidence, Question, Standing
from bellcrank.stats.fault_network import FloatArray
from bellcrank.stats.weighing import weigh

LEAST_WEIGHT = 0.5  # [dB] a finding below it is not worth a word
TWO_FOLD = 3.0  # [dB] views further apart than this are both told
MOST_REASONS = 3
STEPS = ((0.03, "hardly"), (0.30, "unlikely"), (0.60, "even"), (0.90, "likely"))
SMALLEST = 1e-12  # [-] keeps odds finite
SAID_TIMES = (1.5, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 50, 70, 100)  # [-] finer than this no likelihood is known
SLIGHTLY = "a little"
OF_ITS_OWN = {
    ("2", "more"): "twice as likely",
    ("2", "less"): "half as likely",
    (SLIGHTLY, "more"): "a little more likely",
    (SLIGHTLY, "less"): "a little less likely",
}
LEAST_TIMES, MOST_TIMES = 1.25, 120  # [-] outside: "a little" and "over 100 times"


@dataclass(frozen=True, slots=True)
class Reason:
    """What one finding, or one repair that failed, says about a cause."""

    says: str  # "the mark comes early"
    decibans: float  # ten times the logarithm of how it moves the odds, all else kept [dB]
    alone: float  # the same from the belief given the complaint alone [dB]
    note: str  # what it goes together with, when the two differ: "says much the same as “it hit something”"

    @property
    def words(self) -> str:
        """The reason in one line, both weights when they differ."""
        kept = times_said(self.decibans) if abs(self.decibans) >= LEAST_WEIGHT else "nothing more"
        return f"{self.says}: {kept}{_on_its_own(self.decibans, self.alone)}"


@dataclass(frozen=True, slots=True)
class Reasons:
    """What speaks most for and against a cause."""

    speaks_for: tuple[Reason, ...]
    speaks_against: tuple[Reason, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Told:
    """Weights of all that was found or failed to cure; shapes (told, causes). [dB]"""

    says: tuple[str, ...]
    kept: FloatArray
    alone: FloatArray


def how_sure(probability: float) -> str:
    """Put a probability in a word.

    >>> [how_sure(p) for p in (0.01, 0.2, 0.5, 0.8, 0.95)]
    ['hardly', 'unlikely', 'even', 'likely', 'almost sure']
    """
    return next((word for limit, word in STEPS if probability < limit), "almost sure")


def times_said(decibans: float) -> str:
    """Say how a weight moves the odds, those with the cause against those without.

    >>> [times_said(one) for one in (7, -7, 3, -3, 0.6, 25)]
    ['5 times more likely', '5 times less likely', 'twice as likely', 'half as likely', 'a little more likely', \
'over 100 times more likely']
    """
    way, times = "more" if decibans > 0 else "less", _times(decibans)
    return OF_ITS_OWN.get((times, way), f"{times} times {way} likely")


def _times(decibans: float) -> str:
    """Say how many times, rounded."""
    times = 10 ** (abs(decibans) / 10)
    if times < LEAST_TIMES:
        return SLIGHTLY
    return "over 100" if times > MOST_TIMES else f"{min(SAID_TIMES, key=lambda one: abs(math.log(times / one))):g}"


def cause_words(compiled: CompiledPack, cause: str) -> str:
    """Name a cause."""
    return NOT_LISTED_WORDS if cause == NOT_LISTED else compiled.causes[cause].words


def reasons_for_all(compiled: CompiledPack, belief: Belief, causes: Iterable[str]) -> Mapping[str, Reasons]:
    """Weigh all that was found, and every repair that failed, for each cause; say what moved the odds most."""
    told = _weights(compiled, belief)
    chosen = tuple(causes)
    places = [compiled.network.position[cause] for cause in chosen]
    beside = _beside(compiled, belief, told, places)
    return {cause: _reasons(told, place, beside) for cause, place in zip(chosen, places, strict=True)}


def _reasons(told: _Told, cause: int, beside: Mapping[int, FloatArray]) -> Reasons:
    weighed = []
    for place, says in enumerate(told.says):
        kept, alone = float(told.kept[place, cause]), float(told.alone[place, cause])
        if abs(kept) >= LEAST_WEIGHT or abs(alone - kept) >= TWO_FOLD:
            weighed.append(Reason(says, kept, alone, _note(told, place, cause, beside)))
    weighed.sort(key=lambda reason: (-abs(reason.decibans), -abs(reason.alone)))
    return Reasons(
        speaks_for=tuple(one for one in weighed if _way(one) > 0)[:MOST_REASONS],
        speaks_against=tuple(one for one in weighed if _way(one) < 0)[:MOST_REASONS],
    )


def _way(reason: Reason) -> float:
    return reason.decibans if abs(reason.decibans) >= LEAST_WEIGHT else reason.alone


def _on_its_own(kept: float, alone: float) -> str:
    """Say the weight a finding has on its own, when it is another one."""
    if abs(alone - kept) < TWO_FOLD:
        return ""
    if abs(alone) < LEAST_WEIGHT:
        return " (nothing on its own)"
    same_way = kept * alone > 0 and abs(kept) >= LEAST_WEIGHT
    times = _times(alone) if _times(alone) == SLIGHTLY else f"{_times(alone)} times"
    return f" ({times if same_way else times_said(alone)} on its own)"


def _note(told: _Told, place: int, cause: int, beside: Mapping[int, FloatArray]) -> str:
    """Say which other finding makes the weights with and without all else differ, when one does most of it."""
    kept, alone = float(told.kept[place, cause]), float(told.alone[place, cause])
    if abs(alone - kept) < TWO_FOLD or place not in beside:
        return ""
    moves = (beside[place][:, cause] - kept) * math.copysign(1, alone - kept)
    other = int(moves.argmax())
    if moves[other] < min(TWO_FOLD, abs(alone - kept) / 2):
        return ""
    says = f"“{told.says[other]}”"
    if kept * alone < 0 and min(abs(kept), abs(alone)) >= LEAST_WEIGHT:
        return f"{says} turns it round"
    if abs(kept) > abs(alone):
        return f"says more beside {says}"
    same = told.alone[other, cause] * alone > 0
    return f"says much the same as {says}" if same else f"says less beside {says}"


def _weights(compiled: CompiledPack, belief: Belief) -> _Told:
    """Weigh all that was told both ways."""
    decibans = _decibans(belief.without.now)
    alone = _decibans(_each_alone(compiled, belief))
    failed = _failed(belief.case)
    left = [_decibans(_now(compiled, _left_out(belief.case, place)))[0] for place, _ in failed]
    only = [_decibans(_now(compiled, Case(belief.case.complaints, (repair,))))[0] for _, repair in failed]
    says = (_says(compiled, one) for one in belief.findings)
    return _Told(
        says=(*says, *(f"“{compiled.repairs[repair.repair].words}” did not cure it" for _, repair in failed)),
        kept=np.vstack([decibans[0] - decibans[1:], *(decibans[0] - one for one in left)]),
        alone=np.vstack([alone[1:] - alone[0], *(one - alone[0] for one in only)]),
    )


def _says(compiled: CompiledPack, found: Found) -> str:
    says = compiled.checks[found.check].results[level_of(compiled, found)].says
    return f"{says}, only thought so" if found.unsure else says


def _failed(case: Case) -> list[tuple[int, Repaired]]:
    """Give the repairs that did not cure it with their places among the events; none once it is cured."""
    if case.cured:
        return []
    events = enumerate(case.events)
    return [(at, one) for at, one in events if isinstance(one, Repaired) and one.outcome == "not-cured"]


def _left_out(case: Case, place: int) -> Case:
    return replace(case, events=(*case.events[:place], *case.events[place + 1 :]))


def _now(compiled: CompiledPack, case: Case) -> FloatArray:
    return weigh(compiled.network, gather(compiled, case)[1]).now


def _each_alone(compiled: CompiledPack, belief: Belief) -> FloatArray:
    """Give the belief by the complaint alone, then with each finding alone; shape (1 + findings, causes)."""
    sightings = tuple(replace(one, after=0, since=None) for one in belief.evidence.sightings)
    standings = tuple(Standing(one.finding) for one in belief.evidence.standings)
    every = frozenset(range(len(sightings)))
    questions = (Question(without=every), *(Question(without=every - {place}) for place in range(len(sightings))))
    return weigh(compiled.network, Evidence(sightings, standings), questions).now


def _beside(compiled: CompiledPack, belief: Belief, told: _Told, causes: list[int]) -> dict[int, FloatArray]:
    """Weigh the findings whose two views differ once more, each other finding left out; shape (findings, causes)."""
    findings = len(belief.findings)
    apart = np.abs(told.alone - told.kept)[:findings, causes] >= TWO_FOLD
    places = np.flatnonzero(apart.any(axis=1)).tolist()
    if not places or findings == 1:
        return {}
    pairs = tuple(Question(without=frozenset({one, other})) for one in places for other in range(findings))
    without_both = _decibans(weigh(compiled.network, belief.evidence, pairs).now)
    without_other = _decibans(belief.without.now)[1:]
    weighed = without_other - without_both.reshape(len(places), findings, -1)
    for row, place in enumerate(places):
        weighed[row, place] = told.kept[place]  # itself is no other
    return dict(zip(places, weighed, strict=True))


def _decibans(probability: FloatArray) -> FloatArray:
    bounded = np.clip(probability, SMALLEST, 1 - SMALLEST)
    odds: FloatArray = 10 * np.log10(bounded / (1 - bounded))
    return odds
