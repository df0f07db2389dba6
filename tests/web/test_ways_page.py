"""The way in to parts of a kind of machine, without a job."""

import re


def test_the_parts_of_the_first_kind_are_offered(client):
    page = client.get("/ways").text
    assert 'name="to" value="flywheel"' in page
    assert 'href="/ways?kind=two-stroke-handheld"' in page
    assert "Show the way in" in page


def test_the_way_to_two_parts_starts_with_the_plug_lead_and_names_its_tools(client):
    page = client.get("/ways?kind=walk-behind-mower&to=key&to=blade").text
    assert "To the key and the blade" in page
    assert page.index("Fetch first") < page.index("Pull the plug lead off")
    assert page.count("checked>") == 2


def test_a_tool_that_is_not_here_is_said_first(client):
    client.post("/settings/tools", data={})
    page = client.get("/ways?to=key").text
    assert page.index("Not in this shop: flywheel puller.") < page.index("Pull the plug lead off")


def test_a_part_nobody_knows_is_refused_and_the_parts_stay(client):
    answer = client.get("/ways?to=wings")
    assert answer.status_code == 422
    assert "no way in to “wings”" in answer.text
    assert ('href="#target"' in answer.text, 'id="target"' in answer.text) == (True, True)
    assert 'value="flywheel"' in answer.text


def test_another_way_of_a_job_is_chosen_with_a_tap_and_taken_back_with_one(client):
    client.post("/jobs/202/target", data={"target": "blade"})
    page = client.get("/jobs/202/other-ways").text
    assert "blade held with wood" in page
    barred = {"barred": ["blade-bolt-out:impact", "blade-bolt-out:gripping-socket"]}
    assert client.post("/jobs/202/other-ways", data=barred).headers["location"] == "/jobs/202/steps"
    assert "Left out on purpose" in client.get("/jobs/202/other-ways").text
    client.post("/jobs/202/other-ways")
    assert "Left out on purpose" not in client.get("/jobs/202/other-ways").text


def test_the_parts_stand_as_in_an_index_each_once(client):
    page = client.get("/ways?kind=walk-behind-mower").text
    parts = re.findall(r'name="to" value="([^"]+)"', page)
    assert parts == sorted(set(parts), key=lambda part: part.replace("-", " "))
