"""The list of tools."""

from dataclasses import replace

import pytest

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.checks import problems
from bellcrank.knowledge.line import Line
from bellcrank.knowledge.pack import read_library
from bellcrank.knowledge.tools import tool, unknown_tools

CELLS = {"id": "puller", "words": "a puller", "everyday": "no", "price": "25.00", "lend": "yes", "basis": "guess"}


@pytest.fixture(scope="module")
def library():
    return read_library()


def test_every_tool_a_pack_names_is_listed(library):
    assert [word for pack in library.packs.values() for word in unknown_tools(pack, library.tools)] == []


def test_what_not_every_shop_has_can_be_priced(library):
    assert all(float(one.price) > 0 for one in library.tools.values() if not one.everyday)
    assert not any(one.price for one in library.tools.values() if one.everyday)


def test_a_tool_that_is_not_listed_is_told_with_file_and_line(library):
    short = replace(library, tools={name: one for name, one in library.tools.items() if name != "spark tester"})
    told = [one for one in problems(short) if "spark tester" in one.words]
    assert told[0].file.endswith("checks.csv")
    assert told[0].line is not None
    assert "takes “spark tester”, which is not in common/tools.csv" in told[0].words


@pytest.mark.parametrize("price", ["0", "-3", ""])
def test_a_tool_to_buy_without_a_price_is_refused(price):
    with pytest.raises(KnowledgeFault, match=r"tools\.csv, line 2"):
        tool(Line("common/tools.csv", 2, CELLS | {"source": "x", "price": price}))
