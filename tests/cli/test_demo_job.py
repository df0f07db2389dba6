"""The demo's struck mower goes through its whole job by commands alone."""

import json
from pathlib import Path
from typing import Any

import pytest
from tests.cli.conftest import Run

from bellcrank.bootstrap import open_shop
from bellcrank.shop.demo import load_demo

JOB = "201"


@pytest.fixture
def ask(run: Run, tmp_path: Path) -> Any:
    """The demo shop, answering in JSON."""
    shop = open_shop(tmp_path / "shop")
    load_demo(shop)
    shop.close()

    def answer(*words: str) -> Any:
        outcome = run(*words, "--json")
        assert outcome.code == 0, outcome.everything
        return json.loads(outcome.out)

    return answer


def test_the_struck_mower_goes_from_the_story_to_the_invoice(ask: Any, tmp_path: Path) -> None:
    bench = ask("jobs")
    assert [line["number"] for line in bench["waiting"]] == [201]
    assert ask("next", JOB)["causes"][0]["id"] == "key-sheared"

    work = ask("steps", JOB, "--to", "key")["work"]
    for step in work["steps_in"]:
        ask("steps", JOB, "--tick", step["operation"])
    sure = ask("found", JOB, "key-look", "offset")["causes"][0]
    assert (sure["id"], sure["how_sure"]) == ("key-sheared", "almost sure")

    ask("torque", JOB, "--fastener", "flywheel-nut", "--set", "52 ft·lb", "--published", "card in the drawer")
    while step := ask("steps", JOB)["work"]["current"]:
        assert step["direction"] == "out"
        ask("steps", JOB, "--tick", step["operation"])
    assert ask("steps", JOB)["work"]["on_the_tray"] == 0

    ask("found", JOB, "blade-look", "nicked")
    cured = ask("repaired", JOB, "new-key", "cured")["cure"]
    assert cured["state"] == "cured"
    assert {cause["id"] for cause in cured["look_also"]} & {"crank-bent", "blade-bent"}

    for line in ask("handback", JOB)["release"]["lines"]:
        if line["answer"] in ("yes-no", "plug-lead-last"):
            ask("handback", JOB, "--answer", f"{line['id']}=yes")
        if line["answer"] == "blade-bolt-torque":
            ask("handback", JOB, "--answer", f"{line['id']}=50 N·m")
    ask("handback", JOB, "--stop-times", "2.4 2.5 2.6", "--timing", "video-120")
    release = ask("handback", JOB, "--top-speed", "3000 rpm", "--blade", "460 mm")["release"]
    assert release["blocking"] == []
    assert ask("handback", JOB, "--ready")["state"].startswith("ready")

    ask("price", JOB, "--propose")
    assert ask("price", JOB, "--invoice")["price"]["invoice_number"]
    for what in ("job-sheet", "invoice", "tag"):
        written = ask("paper", JOB, what, "--out", str(tmp_path / f"{what}.pdf"))
        assert Path(written["file"]).read_bytes().startswith(b"%PDF-")
    assert JOB in {str(line["number"]) for line in ask("jobs")["ready"]}


def test_a_stop_time_too_close_to_call_is_undecided_until_it_is_filmed(ask: Any) -> None:
    lines = {line["id"]: line for line in ask("handback", "203")["release"]["lines"]}
    assert lines["stop-time"]["status"] == "undecided"
    filmed = ask("handback", "203", "--stop-times", "2.8 2.9 2.8", "--timing", "video-120")
    assert filmed["recorded"][0]["status"] == "passed"
