import pytest

from bellcrank.cli.terminal import beside, fitted, wrap


def test_wraps_at_eighty_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "200")
    assert max(len(line) for line in wrap("word " * 60).splitlines()) <= 80


def test_wraps_narrower_on_a_narrow_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "50")
    assert max(len(line) for line in wrap("word " * 60).splitlines()) <= 50


def test_a_word_longer_than_the_line_is_kept_whole() -> None:
    assert "x" * 100 in wrap("see " + "x" * 100)


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp437", "cp1252", None, "no-such-encoding"])
def test_any_terminal_can_print_what_is_fitted_to_it(encoding: str | None) -> None:
    text = fitted("9 N·m ± 1 – “José Wałęsa” 王 Ω ≤ 3 × ½", encoding)
    assert text.encode(encoding if encoding not in (None, "no-such-encoding") else "ascii")


def test_leaves_text_alone_where_the_terminal_knows_every_letter() -> None:
    assert fitted("9 N·m 王", "utf-8") == "9 N·m 王"


def test_two_texts_that_do_not_fit_one_line_take_two() -> None:
    assert len(beside("x" * 50, "y" * 40).splitlines()) == 2
