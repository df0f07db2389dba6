"""The tools of the shop as toggles, and what a step says of one that is not here."""

from bellcrank.shop.tools import tool_lines


def test_all_are_ticked_until_one_is_tapped_off(client, shop):
    page = client.get("/settings/tools").text
    assert page.count(" checked>") == len(tool_lines(shop))
    here = [one.id for one in tool_lines(shop) if one.id != "spark tester"]
    assert client.post("/settings/tools", data={"here": here}).headers["location"] == "/settings/tools?saved=yes"
    page = client.get("/settings/tools?saved=yes").text
    assert "Saved." in page
    assert 'value="spark tester" ><' in page.replace("\n", "")
    assert 'value="tachometer" checked>' in page


def test_the_settings_lead_there(client):
    page = client.get("/settings").text
    assert 'href="/settings/tools"' in page
    assert 'href="/own"' in page


def test_the_sheet_says_what_is_not_here_and_what_to_do_instead(client):
    client.post("/settings/tools", data={})
    page = client.get("/jobs/202/checks").text
    assert "not here: jet wires" in page
    assert "Takes jet wires, not in this shop. Buy from about 8 EUR." in page
    assert "<b>Instead:</b> Fit a" in page
