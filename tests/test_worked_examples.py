"""docs/worked-examples.md and docs/pull.md: their Python lines answer as printed."""

import doctest
from pathlib import Path

import pytest

PAGES = Path(__file__).parents[1] / "docs"


@pytest.mark.parametrize(("page", "least"), [("worked-examples.md", 20), ("pull.md", 5)])
def test_every_worked_example_answers_as_printed(page, least):
    outcome = doctest.testfile(str(PAGES / page), module_relative=False)
    assert outcome.attempted > least
    assert outcome.failed == 0
