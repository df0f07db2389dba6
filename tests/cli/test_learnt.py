"""What closed jobs taught, typed."""

import json

import pytest

from bellcrank.bootstrap import open_shop
from bellcrank.shop.demo import load_demo


@pytest.fixture
def demo(tmp_path):
    """The demo shop in the folder the command looks into."""
    shop = open_shop(tmp_path / "shop")
    load_demo(shop)
    shop.close()


def test_says_what_moved_what_is_held_and_how_right_it_was(run, demo):
    printed = " ".join(run("learnt").out.split())
    assert printed.startswith("48 closed jobs, of 48 the cause is known")
    for words in (
        "HOW RIGHT IT WAS",
        "CAUSES THAT MOVED",
        "CHECKS THAT MOVED",
        "NOT CHANGED BY ITSELF",
        "MINUTES THAT MOVED",
        "won't start: water in the fuel: 5 % →",
    ):
        assert words in printed


def test_the_same_as_json(run, demo):
    told = json.loads(run("learnt", "--json").out)
    assert (told["closed_jobs"], told["unread_jobs"], told["used"]) == (48, 0, True)
    assert {"log_score", "brier", "bins", "honest_z", "top_right"} <= set(told["rightness"][0])
    assert told["shares"][0]["held"] == ""
    assert {one["held"] for one in told["held"]} <= {"can hurt somebody", "computed from pulls"}


def test_counts_go_out_and_come_in_and_are_taken_back(run, demo, tmp_path):
    file = tmp_path / "counts.json"
    assert run("learnt", "export", str(file)).code == 0
    assert json.loads(file.read_text("utf-8"))["format"] == "bellcrank-counts"
    assert "would bring: 48 jobs" in run("learnt", "import", str(file), "--look").out
    assert json.loads(run("learnt", "import", str(file), "--json").out)["number"] == 1
    assert "counts.json: 48 jobs" in " ".join(run("learnt").out.split())
    assert run("learnt", "take-back").out == "taken back: the counts of counts.json\n"


def test_refusals_are_sentences(refused, run, demo, tmp_path):
    rubbish = tmp_path / "recipes.json"
    rubbish.write_text("{}")
    assert "no file of counts" in refused("learnt", "import", str(rubbish))
    assert "cannot be read" in refused("learnt", "import", str(tmp_path / "none.json"))
    assert "cannot be written" in refused("learnt", "export", str(tmp_path / "no" / "folder.json"))
    assert "no kind of machine “tractor”" in refused("learnt", "--kind", "tractor")
    assert "no kind of machine “tractor”" in refused("learnt", "export", str(rubbish), "--kind", "tractor")
    assert "nothing to take back" in refused("learnt", "take-back")


def test_which_cause_it_was_is_said_after_the_cure(run, refused, demo):
    assert "recorded: it was: flywheel brake worn" in run("was", "203", "brake-worn", "--minutes", "22").out
    assert "There is no cause “mouse”" in refused("was", "203", "mouse")
    assert "Say which cause it was" in refused("was", "203")
