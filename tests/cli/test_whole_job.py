"""A whole job in the terminal: from the complaint to the invoice, and the JSON says what the text says."""

import json
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from tests.cli.conftest import Run

from bellcrank.both_systems import both_torques
from bellcrank.shop.words import percent

STRUCK = ("take-in", "throws the cord back", "--complaint", "kicks-back", "--fact", "hit-something=yes")


def answer(run: Run, *words: str) -> Any:
    """Run a command as JSON and as text on the same state; both must work."""
    outcome = run(*words, "--json")
    assert outcome.code == 0, outcome.everything
    return json.loads(outcome.out)


@pytest.fixture
def job(run: Run) -> str:
    """A mower that hit something, taken in."""
    return str(answer(run, *STRUCK, "--name", "Zoë Wałęsa", "--maker", "Skerry", "--agreed", "120")["number"])


def test_a_story_makes_a_numbered_job_with_everything_told(run: Run, tmp_path: Path) -> None:
    photo = tmp_path / "deck.jpg"
    Image.new("RGB", (40, 30), "green").save(photo)
    taken = answer(
        run, *STRUCK, "--name", "Ω 王", "--phone", "555-0101", "--email", "a@b.example", "--address", "Quay 1",
        "--maker", "Skerry", "--model", "46", "--serial", "S1", "--agreed", "120,50", "--photo", str(photo),
    )  # fmt: skip
    assert taken["customer"] == {"name": "Ω 王", "phone": "555-0101", "email": "a@b.example", "address": "Quay 1"}
    assert taken["facts"] == ["hit something: yes"]
    assert taken["price"]["agreed_limit"] == "120.50"
    assert len(taken["photos"]) == 1
    listed = run("jobs")
    assert f"#{taken['number']}" in listed.out
    assert answer(run, "jobs")["waiting"][0]["number"] == taken["number"]


def test_a_story_without_a_known_complaint_says_how_to_name_one(run: Run) -> None:
    number = answer(run, "take-in", "it makes a funny noise")["number"]
    assert f"bellcrank complaint {number} ID" in " ".join(run("next", str(number)).out.split())
    assert "kicks-back" in run("complaint", str(number)).out
    assert answer(run, "complaint", str(number))["complaints"]
    assert answer(run, "complaint", str(number), "kicks-back")["complaints"] == ["kicks back on the cord"]


def test_next_shows_the_same_figures_as_text_and_as_json(run: Run, job: str) -> None:
    ranked = answer(run, "next", job)
    text = " ".join(run("next", job, "--all").out.split())
    for cause in ranked["causes"]:
        assert f"{percent(cause['probability'])} {cause['how_sure']} {cause['words']}" in text
    assert all(step["words"] in text for step in ranked["next"])
    assert [cause["probability"] for cause in ranked["causes"]] == sorted(
        (cause["probability"] for cause in ranked["causes"]), reverse=True
    )


def test_a_finding_moves_the_causes_and_can_be_taken_back(run: Run, job: str) -> None:
    before = answer(run, "next", job)["causes"]
    found = run("found", job, "spark-tester", "not-sure", "--by", "Ada")
    assert "recorded:" in found.out
    assert answer(run, "next", job)["causes"] == before
    check = next(step for step in answer(run, "next", job)["next"] if step["kind"] == "check")
    result = check["choices"][-1]["id"]
    after = answer(run, "found", job, check["id"], result)
    assert [cause["probability"] for cause in after["causes"]] != [cause["probability"] for cause in before]
    undone = run("take-back", job)
    assert undone.out.splitlines()[2].startswith("taken back: ")
    assert answer(run, "next", job)["causes"] == before


def test_an_entry_of_the_past_can_be_taken_back_by_its_number(run: Run, job: str) -> None:
    told = next(event for event in answer(run, "job", job)["events"] if event["kind"] == "told")
    taken_back = answer(run, "take-back", job, str(told["id"]))
    assert taken_back["facts"] == []
    assert "(taken back)" in run("job", job).out


def test_steps_are_planned_ticked_and_unticked(run: Run, job: str) -> None:
    planned = answer(run, "steps", job, "--to", "key")["work"]
    first, second = planned["steps_in"][:2]
    assert planned["current"]["operation"] == first["operation"]
    ticked = answer(run, "steps", job, "--tick", first["operation"], "--tick", second["operation"])["work"]
    assert [step["done"] for step in ticked["steps_in"][:3]] == [True, True, False]
    unticked = answer(run, "steps", job, "--untick", second["operation"])["work"]
    assert [step["done"] for step in unticked["steps_in"][:2]] == [True, False]
    text = run("steps", job).out
    assert f"[x]   1. {first['do']}"[:60] in text
    assert text.index(first["cautions"][0]["control"][:40]) < text.index(first["do"][:40])


def test_every_torque_of_the_way_back_shows_window_and_basis(run: Run, job: str) -> None:
    run("steps", job, "--to", "key")
    listed = answer(run, "torque", job)["fasteners"]
    text = " ".join(run("torque", job).out.split())
    torques = [one["fastener"]["torque"] for one in listed if one["fastener"]["torque"]]
    assert torques
    for torque in torques:
        assert torque["low_nm"] <= torque["target_nm"] <= torque["high_nm"]
        assert both_torques(torque["target_nm"]) in text
        assert torque["basis"] in text


def test_a_makers_torque_wins_and_keeps_what_was_typed(run: Run, job: str) -> None:
    run("steps", job, "--to", "key")
    outcome = run("torque", job, "--fastener", "flywheel-nut", "--set", "55 ft·lb", "--published", "maker's card")
    assert outcome.code == 0, outcome.err
    nut = next(
        one["fastener"]["torque"]
        for one in answer(run, "torque", job)["fasteners"]
        if one["fastener"]["fastener"]["id"] == "flywheel-nut"
    )
    assert nut["target_nm"] == pytest.approx(55 * 1.3558179483, rel=1e-9)  # 1 ft·lbf: NIST SP 811, Appendix B.8
    assert (nut["basis"], nut["typed"]) == ("published", "55 ft·lb")
    assert "maker's card" in nut["source"]


def test_a_repair_that_cures_says_what_else_to_look_for(run: Run, job: str) -> None:
    run("found", job, "blade-look", "sound")
    cured = answer(run, "repaired", job, "new-key", "cured")
    assert cured["cure"]["state"] == "cured"
    assert "CURED?" in run("next", job).out


def test_a_machine_with_an_open_item_is_not_ready_and_one_without_is(run: Run, job: str) -> None:
    run("found", job, "blade-look", "sound")
    run("repaired", job, "new-key", "cured")
    blocked = run("handback", job, "--ready")
    assert blocked.code == 2
    assert "cannot be marked ready" in blocked.err
    for line in answer(run, "handback", job)["release"]["lines"]:
        if line["answer"] == "blade-bolt-torque":
            run("handback", job, "--answer", f"{line['id']}=50 N·m")
        elif line["answer"] not in ("stop-time", "tip-speed"):
            run("handback", job, "--answer", f"{line['id']}=yes")
    stopped = answer(run, "handback", job, "--stop-times", "2.4 2.5 2.6", "--timing", "video-120")
    assert stopped["recorded"][0]["status"] == "passed"
    run("handback", job, "--top-speed", "3000 rpm", "--blade", "530 mm")
    done = answer(run, "handback", job, "--ready")
    assert done["release"]["ready"]
    assert done["state"].startswith("ready")
    assert answer(run, "handback", job, "--fetched")["state"] == "gone"


def test_a_machine_may_go_back_not_ready_and_is_recorded_so(run: Run, job: str) -> None:
    back = answer(run, "handback", job, "--not-ready", "--because", "owner declined the new blade")
    assert back["state"] == "returned not ready"
    assert "owner declined the new blade" in run("job", job).out


def test_price_lines_add_up_to_the_invoice(run: Run, job: str) -> None:
    run("found", job, "blade-look", "sound")
    run("repaired", job, "new-key", "cured")
    price = answer(run, "price", job, "--propose", "--add", "part", "blade bolt", "2", "4.50")["price"]
    assert any(line["net"] == "9.00" for line in price["lines"])
    bolt = next(line for line in price["lines"] if line["net"] == "9.00")
    assert not any(
        line["net"] == "9.00" for line in answer(run, "price", job, "--drop", str(bolt["id"]))["price"]["lines"]
    )
    assert answer(run, "price", job, "--agreed", "200", "Ms Quay, by phone")["price"]["agreed_limit"] == "200"
    number = answer(run, "price", job, "--invoice")["price"]["invoice_number"]
    assert number
    assert f"invoice {number}" in run("price", job).out


@pytest.mark.parametrize("what", ["job-sheet", "quote", "tag"])
@pytest.mark.parametrize("size", ["a4", "letter"])
def test_papers_are_written_as_pdf(run: Run, job: str, tmp_path: Path, what: str, size: str) -> None:
    out = tmp_path / f"{what}.pdf"
    written = answer(run, "paper", job, what, "--out", str(out), "--paper", size)
    assert out.read_bytes().startswith(b"%PDF-")
    assert written["size_bytes"] == out.stat().st_size


def test_the_tray_sheet_is_written_and_told(run: Run, job: str, tmp_path: Path) -> None:
    run("steps", job, "--to", "key")
    out = tmp_path / "trays.pdf"
    written = answer(run, "tray", job, "--out", str(out), "--paper", "letter")
    assert out.read_bytes().startswith(b"%PDF-")
    assert written["size_bytes"] == out.stat().st_size
    trays = written["sheet"]["trays"]
    assert written["sheet"]["total"] == sum(tray["fastener"]["count"] for tray in trays)
    nut = next(tray for tray in trays if tray["fastener"]["id"] == "flywheel-nut")
    assert (nut["nut"], nut["fastener"]["safety_joint"], nut["spots"][0]["words"]) == (True, True, str(nut["number"]))
    told = run("tray", job, "--out", str(out)).out
    assert f"{nut['number']}: 1 × flywheel nut, 5/8-18, safety joint" in told


def test_the_packs_fit_together(run: Run) -> None:
    checked = answer(run, "packs", "check")
    assert checked["problems"] == []
    assert checked["packs"][0]["causes"] >= 40
    mower = checked["packs"][0]["assemblies"][0]
    told = " ".join(run("packs", "check").out.split())
    assert f"{mower['steps']} steps to {mower['targets']} parts, {mower['fasteners']} fasteners" in told
    assert told.endswith("Everything fits together.")


SAW = ("take-in", "saw bogs", "--kind", "two-stroke-handheld", "--fact", "which-machine=saw")


def test_a_saw_goes_through_the_terminal_from_complaint_to_release_list(run: Run) -> None:
    taken = answer(run, *SAW)
    number = str(taken["number"])
    assert taken["complaints"] == ["bogs: no power on the throttle"]
    assert answer(run, "found", number, "pressure-test", "leaks")["causes"][0]["id"] == "crank-seals-leaking"
    assert answer(run, "steps", number)["work"] is None
    items = {one["id"]: one for one in answer(run, "handback", number)["release"]["lines"]}
    assert "chain-brake" in items
    assert not any(name.startswith("blade") for name in items)
    none = answer(run, "handback", number, "--answer", "chain-brake=none")
    assert none["recorded"] == [{"item": "chain-brake", "status": "passed", "detail": "it has no such thing"}]
    assert "chain-brake=none where it has no such thing" not in run("handback", number).out
    assert "throttle-lock=none where it has no" in " ".join(run("handback", number).out.split())


def test_a_saw_is_refused_what_only_a_blade_has(run: Run) -> None:
    number = str(answer(run, *SAW)["number"])
    late = run("handback", number, "--stop-times", "2.1 2.2 2.3")
    assert late.code != 0
    assert "The release list of this machine has no item for --stop-times" in " ".join(late.everything.split())
    blade = run("handback", number, "--answer", "blade-crack=yes")
    assert "There is no item “blade-crack” on its release list" in " ".join(blade.everything.split())
    told = " ".join(run("steps", number, "--to", "blade").everything.split())
    assert "There is no way in to “blade” on this kind of machine" in told
