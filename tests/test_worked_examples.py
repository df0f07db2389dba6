"""docs/worked-examples.md: its Python lines answer as printed."""

import doctest
from pathlib import Path

PAGE = Path(__file__).parents[1] / "docs" / "worked-examples.md"


def test_every_worked_example_answers_as_printed():
    outcome = doctest.testfile(str(PAGE), module_relative=False)
    assert outcome.attempted > 20
    assert outcome.failed == 0
