"""docs/commands.md: every example is run on the demo shop, in order, and its answer is the one printed there."""

import re
import shlex
from dataclasses import dataclass
from pathlib import Path

import pytest
from tests.cli.conftest import Run

from bellcrank.cli import open as open_command
from bellcrank.cli.main import COMMANDS

PAGE = Path(__file__).parents[2] / "docs" / "commands.md"


@dataclass(frozen=True)
class Example:
    """A command of the page and the answer printed under it."""

    typed: str
    answer: str


def examples(page: str) -> list[Example]:
    found = []
    for block in re.findall(r"```console\n(.*?)```", page, re.DOTALL):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            typed, _, answer = part.partition("\n")
            found.append(Example(typed, answer))
    return found


def says(printed: str, answer: str) -> bool:
    """Tell whether the printed text begins as the page has it; three dots stand for anything, blanks do not count."""
    words = " ".join(printed.split())
    place = 0
    for number, part in enumerate(" ".join(part.split()) for part in answer.split("...")):
        found = words.find(part, place)
        if found < 0 or (number == 0 and found > 0):
            return False
        place = found + len(part)
    return True


def test_every_example_of_the_page_answers_as_printed(
    run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(open_command, "serve", lambda *_, **__: None)  # the page would be served until Ctrl-C
    for example in examples(PAGE.read_text("utf-8")):
        outcome = run(*shlex.split(example.typed)[1:])
        assert outcome.code == 0, f"{example.typed}: {outcome.everything}"
        assert says(outcome.out, example.answer), f"{example.typed}:\n{outcome.out}"


def test_every_command_has_an_example() -> None:
    shown = {example.typed.split()[1] for example in examples(PAGE.read_text("utf-8"))}
    assert shown == set(COMMANDS)
