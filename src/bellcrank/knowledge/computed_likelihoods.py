"""Rows of likelihoods.csv that follow from the tables of computed pulls instead of a guess."""

from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.slip_belief import chances_of_jerks
from bellcrank.engine.slip_table import State
from bellcrank.knowledge.model import Check, Library, Pack
from bellcrank.knowledge.records import LEAK_ROW

SOURCE = "pull-tables"  # what such a row names as its source
COUNTED, FELT = "count-jerks", "cord-feel"
IN_TEN, A_FEW = 10, 3  # pulls that are counted; pulls after which somebody says how the cord feels
BANDS = {"none": range(1), "seldom": range(1, 3), "often": range(3, 6), "mostly": range(6, 11)}  # jerks in ten pulls
JERKS = "jerks"  # result of the check how the cord feels
WHOLE, SHEARED, WANDERED = (1.0, 0.0, 0.0), (0.0, 0.25, 0.75), (0.0, 0.5, 0.5)  # whole, bruised, sheared; guesses
CAUSES: Mapping[str, tuple[State, tuple[float, float, float]]] = {
    LEAK_ROW: (State.SOUND, WHOLE),
    "key-sheared": (State.SOUND, SHEARED),
    "flywheel-loose": (State.SOUND, WANDERED),
    "blade-loose": (State.BLADE_LOOSE, WHOLE),
    "release-not-working": (State.RELEASE_DEAD, WHOLE),
}
Numbers = NDArray[np.float64]


def computed_row(library: Library, pack: Pack, check: Check, cause: str) -> Numbers:
    """Give the probabilities of a check's results for a cause, averaged over the pack's engine cards.

    Of how the cord feels only the jerks are computed; the other results keep their proportion.
    """
    if check.id == COUNTED:
        jerks = _jerks(library, pack, cause, IN_TEN)
        return np.array([sum(jerks[count] for count in BANDS[result.id]) for result in check.results])
    jerk = 1 - _jerks(library, pack, cause, A_FEW)[0]
    place = [result.id for result in check.results].index(JERKS)
    rest = np.array(_guessed(check, cause), dtype=np.float64)
    rest[place] = 0.0
    rest *= (1 - jerk) / rest.sum()
    rest[place] = jerk
    return rest


def computed_row_given(library: Library, pack: Pack, check: Check, cause: str) -> Numbers:
    """Give the probabilities of a count for a cause, over the cards, of engines brought in because they jerk."""
    state, shares = CAUSES[cause]
    tables = [library.slip_tables[card.id] for card in pack.engine_cards]
    jerks = np.mean([chances_of_jerks(table, state, shares, IN_TEN, noticed=IN_TEN) for table in tables], axis=0)
    return np.array([sum(jerks[count] for count in BANDS[result.id]) for result in check.results])


def wrong_rows(library: Library, pack: Pack, may_miss: float) -> Iterator[tuple[str, str]]:
    """Tell which rows that name the tables as their source are not what the tables say: their names, and words."""
    checks = {check.id: check for check in pack.checks}
    for one in (given for given in pack.given if given.row.origin.source == SOURCE):
        right = computed_row_given(library, pack, checks[one.row.check], one.row.cause)
        if np.abs(right - np.array(one.row.probabilities)).max() > may_miss:
            words = ";".join(f"{each:.3f}" for each in right)
            line = f"{one.complaint},{one.row.check},{one.row.cause}"
            yield line, f"{line} is not what the tables say; it must be {words}."
    for check in pack.checks:
        rows = [(one.cause, one.probabilities) for one in check.likelihoods if one.origin.source == SOURCE]
        if check.id == COUNTED:
            rows.append((LEAK_ROW, check.leak))
        for cause, told in rows:
            right = computed_row(library, pack, check, cause)
            if np.abs(right - np.array(told)).max() > may_miss:
                words = ";".join(f"{one:.3f}" for one in right)
                line = f"{check.id},{cause}"
                yield line, f"{line} is not what the tables of pulls say; it must be {words}."


def _guessed(check: Check, cause: str) -> tuple[float, ...]:
    return next(row.probabilities for row in check.likelihoods if row.cause == cause)


def _jerks(library: Library, pack: Pack, cause: str, pulls: int) -> Numbers:
    state, shares = CAUSES[cause]
    tables = [library.slip_tables[card.id] for card in pack.engine_cards]
    return np.asarray(np.mean([chances_of_jerks(table, state, shares, pulls) for table in tables], axis=0))
