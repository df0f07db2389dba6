"""What a key carries, and what a blow does to it: the page and the terminal tell the same."""

import html
import json

import pytest

from bellcrank.cli.main import main

KEY = {"key": "606", "shaft": "20 mm", "key_material": "zinc-3", "hub_material": "cast-aluminium"}
BLOW = {
    "ratio": "1:8", "mean_diameter": "20 mm", "length": "20 mm", "nut": "5/8-18", "nut_torque": "30 ft·lb",
    "flywheel_inertia": "0.01", "speed": "3000 rpm", "stop_angle": "30 °", "key": "606", "key_material": "key-steel",
    "hub_material": "cast-aluminium",
}  # fmt: skip


@pytest.fixture
def told(capsys):
    def run(*typed):
        with pytest.raises(SystemExit):
            main([*typed, "--json"])
        return json.loads(capsys.readouterr().out)

    return run


def test_of_a_key_page_and_terminal_say_the_same_with_what_each_number_rests_on(client, told):
    page = html.unescape(client.get("/numbers/key", params=KEY).text)
    answer = told("key", "606", "--shaft", "20 mm", "--material", "zinc-3", "--hub", "cast-aluminium")
    assert "The key goes before the keyway in the hub, sheared or crushed." in answer["words"]
    for words in (*answer["words"][1:], *answer["notes"]):
        assert words in page
    assert ", 1.5 to 2 times the hub's tensile strength" in page
    assert ", half its yield strength" in page
    assert "DIN 6892, both from memory" in page


@pytest.mark.parametrize("hub", ["cast-aluminium", "grey-iron"])
def test_of_a_blow_page_and_terminal_name_the_same_part_of_key_and_keyway(client, told, hub):
    typed = BLOW | {"hub_material": hub}
    page = html.unescape(client.get("/numbers/strike", params=typed).text)
    options = [one for name, value in typed.items() for one in (f"--{name.replace('_', '-')}", value)]
    answer = told("strike", *options)
    assert "keyway breaks" in answer["gives_way_first"]
    assert ("key shears" in answer["gives_way_first"]) is (hub == "cast-aluminium")
    for words in answer["words"]:
        assert words in page
