"""Why a line of the release list is asked."""

import pytest

from bellcrank.errors import NotUnderstood
from bellcrank.handback.triggers import in_words, triggers_of


def test_what_is_asked_of_every_machine_is_always_asked():
    assert triggers_of(struck=False, touched=frozenset()) == ("always",)


def test_what_happened_is_told_in_words():
    assert in_words(triggers_of(struck=True, touched=frozenset({"fuel"}))) == ("hit something", "fuel side opened")


def test_something_unknown_that_was_touched_is_refused():
    with pytest.raises(NotUnderstood, match="“sump” is not one of"):
        triggers_of(struck=False, touched=frozenset({"sump"}))
