import pytest

from bellcrank.diagnosis.told_again import Replay
from bellcrank.shop.rightness import END, PACK, STORY, rightness


def told(chance, *causes, right="coil"):
    """A job told with this chance for one cause, the rest for another."""
    said = {right: chance, "jet": 1 - chance}
    return Replay(said, said, causes or (right,))


def at_the_end(jobs):
    return next(one for one in rightness(jobs, PACK) if one.moment == END)


def test_both_moments_are_scored_of_the_jobs_whose_cause_is_known():
    found = rightness([told(0.8), told(0.8, "jet"), told(0.8, "coil", "jet")], PACK)
    assert [(one.moment, one.numbers, one.jobs, one.top_right) for one in found] == [
        (STORY, PACK, 2, 1),
        (END, PACK, 2, 1),
    ]
    # by hand: of .8 and .2 once each way; (.2 ** 2 + .8 ** 2) / 2, and -(ln .8 + ln .2) / 2
    assert found[0].brier == pytest.approx(0.34)
    assert found[0].log_score == pytest.approx(0.9163, abs=1e-4)
    assert found[0].top_said == pytest.approx(0.8)


def test_nothing_is_said_of_too_few_jobs_and_of_none_at_all():
    assert at_the_end([told(0.8)] * 12).says == "12 closed jobs: too few to say."
    assert at_the_end([told(0.8)]).says == "1 closed job: too few to say."
    assert rightness([], PACK) == ()


@pytest.mark.parametrize(
    ("chance", "right", "of", "words"),
    [
        (0.8, 40, 50, "came about as often as it said"),
        (0.95, 35, 50, "surer than it should be"),
        (0.6, 50, 50, "less sure than it could be"),
    ],
)
def test_it_says_whether_its_chances_were_honest(chance, right, of, words):
    jobs = [told(chance)] * right + [told(chance, "jet")] * (of - right)
    assert words in at_the_end(jobs).says


def test_what_it_hardly_thought_of_is_no_forecast():
    said = {"coil": 0.995, "jet": 0.005}
    assert [one.count for one in at_the_end([Replay(said, said, ("coil",))]).bins] == [1]
