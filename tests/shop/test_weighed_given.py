"""What a count of jerks says of a machine that was brought in because it kicks."""

import pytest

from bellcrank.shop.demo import load_demo
from bellcrank.shop.findings import record_finding
from bellcrank.shop.records import read_record
from bellcrank.shop.weighed import belief_of

KICKS_BACK = 201  # the demo's machine that throws the cord back


@pytest.fixture
def believed(shop):
    load_demo(shop)
    return lambda cause: belief_of(shop, read_record(shop, KICKS_BACK)).now[cause]


def test_more_jerks_speak_more_for_the_key(shop, believed):
    # by reason: of engines that kick at all, the more of ten pulls jerked the less it was another thing; before rows of
    # their own for such machines, four of ten spoke against the key
    before, beliefs = believed("key-sheared"), []
    for result in ("none", "seldom", "often", "mostly"):
        record_finding(shop, KICKS_BACK, "count-jerks", result)
        beliefs.append(believed("key-sheared"))
    assert beliefs == sorted(beliefs)
    assert beliefs[0] < before < beliefs[-1]


def test_jerks_on_most_pulls_speak_for_a_loose_blade_too(shop, believed):
    # common practice, no source: a loose blade kicks on nearly every pull
    before = believed("blade-loose")
    record_finding(shop, KICKS_BACK, "count-jerks", "mostly")
    assert believed("blade-loose") > before
