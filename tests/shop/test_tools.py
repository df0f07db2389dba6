"""Which tools a shop has, and what a sheet says of a step that takes one it has not."""

from decimal import Decimal

import pytest

from bellcrank.diagnosis.tools import Lacking
from bellcrank.errors import NotFound
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.own_pack import add_check
from bellcrank.shop.own_typed import CheckTyped, ShowsTyped
from bellcrank.shop.settings import read_settings, write_settings
from bellcrank.shop.tools import ToolTerms, keep_tools, lacking_line, say_tool, tool_lines, tool_terms


def step(sheet, name):
    return next(one for one in sheet.next if one.id == name)


def test_everything_is_taken_to_be_here_and_nothing_is_said(shop, job):
    assert all(one.here for one in tool_lines(shop))
    assert not any(one.lacking for one in job_sheet(shop, job).next)


def test_a_step_says_what_is_lacking_and_what_to_do_instead(shop, job):
    say_tool(shop, "compression gauge", here=False)
    sheet = job_sheet(shop, job)
    lacking = step(sheet, "compression-gauge").lacking
    assert lacking.tools == ("compression gauge",)
    assert lacking.says == "Takes a compression gauge, not in this shop. Borrow or hire, or buy from about 25 EUR."
    instead = step(sheet, lacking.instead)
    assert (instead.kind, instead.words, instead.lacking) == (lacking.instead_kind, lacking.instead_words, None)


def test_no_step_with_a_lacking_tool_stands_first_and_all_are_still_there(shop, job):
    before = job_sheet(shop, job).next
    keep_tools(shop, ())
    after = job_sheet(shop, job).next
    assert after[0].lacking is None
    assert {(one.kind, one.id) for one in before} == {(one.kind, one.id) for one in after}


def test_a_tool_that_came_is_here_again(shop, job):
    say_tool(shop, "spark tester", here=False)
    say_tool(shop, "spark tester", here=False)
    assert step(job_sheet(shop, job), "spark-tester").lacking
    say_tool(shop, "spark tester", here=True)
    assert not step(job_sheet(shop, job), "spark-tester").lacking


def test_saying_which_are_here_says_which_are_not(shop):
    keep_tools(shop, ["spark tester", "no such tool"])
    assert [one.id for one in tool_lines(shop) if one.here] == ["spark tester"]


def test_the_settings_stay_as_they_are(shop):
    write_settings(shop, {"mechanic": "Ina"})
    keep_tools(shop, ())
    assert read_settings(shop).mechanic == "Ina"
    assert "spark tester" in tool_terms(shop).missing


@pytest.mark.parametrize(
    ("name", "why"), [("screwdriver", "every shop has one"), ("anvil", "no check or repair takes it")]
)
def test_a_tool_nobody_is_asked_for_is_refused(shop, name, why):
    with pytest.raises(NotFound, match=why):
        say_tool(shop, name, here=False)


def test_the_minutes_are_held_against_the_price(shop):
    """By hand: 20 min at 54 an hour are 18; the tester starts from 12."""
    terms = ToolTerms(frozenset({"spark tester"}), "EUR", Decimal(54))
    line = lacking_line(Lacking(("spark tester",), 20.0, None), shop.library, terms)
    assert line.worth == "It would save about 20 min on this job, worth 18 EUR. It pays for itself with this one."
    dear = lacking_line(Lacking(("leak-down tester", "compressed air"), 20.0, None), shop.library, terms)
    assert dear.worth == "It would save about 20 min on this job, worth 18 EUR."
    assert dear.says.startswith("Takes a leak-down tester and an air compressor, not in this shop. Borrow or hire")
    assert (dear.price, dear.lend) == ("165.00", True)
    assert lacking_line(Lacking(("spark tester",), 0.0, None), shop.library, terms).worth == ""


def test_a_tool_of_an_own_check_is_taken_to_be_here(shop, job):
    keep_tools(shop, ())
    name = add_check(shop, job, CheckTyped("Mirror", tools="dentist's mirror", shows=(ShowsTyped("coil-dead"),)))
    assert step(job_sheet(shop, job), name).lacking is None
