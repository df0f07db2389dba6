"""``bellcrank tools``, and what ``bellcrank next`` says of a tool that is not here."""

import json


def test_what_is_lacking_is_listed_and_said_at_its_step(run):
    run("take-in", "won't start")
    assert "NOT HERE\n  nothing" in run("tools").out
    told = run("tools", "--lacking", "spark tester").out
    assert "spark tester: borrow or hire, or buy from about 12.00 EUR" in told
    assert "not here: spark tester" in run("next", "201", "--all").out
    steps = json.loads(run("next", "201", "--json").out)["next"]
    lacking = next(one["lacking"] for one in steps if one["id"] == "spark-tester")
    assert (lacking["tools"], lacking["lend"]) == (["spark tester"], True)
    tools = json.loads(run("tools", "--here", "spark tester", "--json").out)["tools"]
    assert all(one["here"] for one in tools)


def test_a_tool_nobody_is_asked_for_is_refused(refused):
    assert "“anvil” is no tool to be asked for" in refused("tools", "--lacking", "anvil")
