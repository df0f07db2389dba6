import pytest

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.line import Line
from bellcrank.sources import Basis


def line(**cells: str) -> Line:
    return Line("mower/checks.csv", 7, cells)


def test_reads_words_parted_by_semicolons():
    assert line(tools="jar; 10 mm spanner;").several("tools") == ("jar", "10 mm spanner")


def test_an_empty_cell_holds_no_words():
    assert line(tools="").several("tools") == ()


def test_reads_numbers_by_name():
    assert line(fixes="coil-dead=.97;coil-gap-wrong=0.95").amount_of_each("fixes") == {
        "coil-dead": 0.97,
        "coil-gap-wrong": 0.95,
    }


def test_an_empty_cell_is_no_number_when_that_is_allowed():
    assert line(prevalence="").amount_or_none("prevalence") is None


@pytest.mark.parametrize("text", ["one", "", "nan", "inf", "1,5"])
def test_refuses_what_is_no_number_with_file_and_line(text: str):
    with pytest.raises(KnowledgeFault, match=r"mower/checks.csv, line 7: “minutes” holds “.*”; it must be a"):
        line(minutes=text).amount("minutes")


def test_refuses_neither_yes_nor_no():
    with pytest.raises(KnowledgeFault, match="“runs_engine” is “perhaps”; it must be yes or no"):
        line(runs_engine="perhaps").yes("runs_engine")


def test_names_the_words_that_would_do():
    with pytest.raises(KnowledgeFault, match="“basis” is “hunch”; it must be one of: published, table, computed"):
        line(basis="hunch").choice("basis", Basis)


def test_refuses_an_empty_cell_that_must_be_filled():
    with pytest.raises(KnowledgeFault, match="line 7: “words” is empty"):
        line(words="").words("words")


def test_names_a_missing_column():
    with pytest.raises(KnowledgeFault, match=r"there is no column “says”\. Add it to the heading"):
        line(words="jumps").cell("says")


def test_refuses_a_name_without_its_number():
    with pytest.raises(KnowledgeFault, match="“fixes” holds “coil-dead”; write it as name=number"):
        line(fixes="coil-dead").amount_of_each("fixes")
