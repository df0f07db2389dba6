from collections.abc import Callable
from pathlib import Path

import pytest

from bellcrank.knowledge.checks import problems
from bellcrank.knowledge.pack import read_library

MOWER = "walk-behind-mower"
Spoil = Callable[[str, str, str], None]
LineOf = Callable[[str, str], int]


def test_the_shipped_library_has_no_problem():
    assert problems(read_library()) == ()


@pytest.mark.parametrize(
    ("name", "old", "new", "words"),
    [
        ("links.csv", "strike,crank-bent,", "strike,crank-broken,", "there is no cause “crank-broken”"),
        ("links.csv", "strike,crank-bent,.18", "strike,crank-bent,1", "must lie between 0 and 1"),
        ("links.csv", "strike,crank-bent,", "key-sheared,flywheel-loose,", "bring each other about in a circle"),
        ("likelihoods.csv", "hit-something,strike,", "hit-something,strikes,", "there is no cause “strikes”"),
        (
            "../systems/ignition/likelihoods.csv",
            "spark-tester,coil-dead,0.05;",
            "spark-tester,coil-dead,0.5;",
            "sum to 1",
        ),
        (
            "../systems/ignition/likelihoods.csv",
            "magnet,-,0.98;0.02",
            "magnet,-,0.98;0.01;0.01",
            "3 chances for 2 results",
        ),
        (
            "../systems/ignition/likelihoods.csv",
            "magnet,-,0.98;0.02",
            "magnet,-,1;0",
            "nothing at the bench is that sure",
        ),
        ("checks.csv", ",shroud-off,plug lead", ",hood-off,plug lead", "there is no access “hood-off”"),
        (
            "../systems/ignition/checks.csv",
            "closed-spark-tester",
            "open-spark-tester",
            "there is no hazard “open-spark-tester”",
        ),
        ("results.csv", "hit-something,yes,", "hit-something,aye,", "its results must be no and yes"),
        ("access.csv", "starter-off,starter off,,", "starter-off,starter off,shroud-off,", "in a circle"),
        ("access.csv", ",,starter,", ",,starting-gear,", "no part “starting-gear” in an assembly"),
        ("../systems/ignition/repairs.csv", ",flywheel-off,key,", ",flywheel-off,kay,", "no part “kay” in an assembly"),
        ("repairs.csv", "blade-blunt=", "blade-blind=", "there is no cause “blade-blind”"),
        (
            "../systems/ignition/repairs.csv",
            "coil-dead=.97",
            "coil-dead=1",
            "the chance to mend a cause must lie between 0 and 1",
        ),
        ("../systems/ignition/causes.csv", ",,new-coil,", ",,,", "“coil-dead”: no repair"),
        (
            "../systems/ignition/causes.csv",
            ",,new-coil,",
            ",,new-blade,",
            "there is no repair “new-blade” that fixes it",
        ),
        ("causes.csv", "hit something hard,event,safety,.0045", "hit something hard,event,safety,", "nor a prevalence"),
        (
            "causes.csv",
            "hit something hard,event,safety,.0045",
            "hit something hard,event,safety,1.5",
            "prevalence is 1.5",
        ),
        (
            "../systems/ignition/causes.csv",
            ",,new-coil,guess,trade-table",
            ",,new-coil,guess,hearsay",
            "“hearsay” is not in common",
        ),
        ("complaints.csv", "wont-start,won't start,.30", "wont-start,won't start,.50", "weights sum to 1.2"),
        ("shares.csv", "kicks-back,key-sheared,45", "kicks-back,key-sheared,75", "the shares sum to 126%"),
        ("shares.csv", "kicks-back,key-sheared", "kicks-hard,key-sheared", "there is no complaint “kicks-hard”"),
        ("results.csv", ",hit-something\n", ",hit-somthing\n", "lifts: there is no check “hit-somthing”"),
        (
            "../common/release.csv",
            ",walk-behind-mower\n",
            ",sit-on-mower\n",
            "no kind of machine “sit-on-mower”",
        ),
        ("../common/release.csv", "always", "alwys", "there is no trigger “alwys”"),
        ("../common/release.csv", ",yes-no,", ",yes-or-no,", "there is no kind of answer “yes-or-no”"),
        ("../common/materials.csv", ",290,0.70,", ",290,70,", "the share counted on is 70"),
        ("../common/materials.csv", ",324,190,", ",324,-190,", "the shear strength is -190 MPa"),
        ("../common/materials.csv", ",324,190,", ",324000000,190,", "the tensile strength is 3.24e+08 MPa"),
        ("pack.toml", "fault_scale = 0.15", "fault_scale = 15", "fault_scale is 15"),
        ("assembly-engine-top.toml", 'into = "', 'into = "soft-', "there is no material “soft-"),
        ("assembly-engine-top.toml", 'strength = "', 'strength = "X', "there is no strength class “X"),
        (
            "../systems/engine/assembly.toml",
            '["key", "strike", "timing"]',
            '["key", "luck"]',
            "there is no number “luck”",
        ),
        (
            "../systems/four-stroke/assembly.toml",
            'hazards = ["valve-spring", "piston-stop"',
            'hazards = ["valve-spring", "piston-halt"',
            "there is no hazard “piston-halt”",
        ),
        ("../systems/four-stroke/assembly.toml", 'tool = "penetrating oil"', 'tool = "patience"', "takes “patience”"),
        (
            "../systems/ignition/assembly.toml",
            'source = "gaps-from-memory"',
            'source = "gaps-in-memory"',
            "gaps-in-memory",
        ),
        ("assembly-engine-top.toml", 'taper_nut = "fly', 'taper_nut = "high', "there is no fastener “highwheel-nut”"),
    ],
)
def test_tells_what_does_not_fit(packs: Path, spoil: Spoil, name: str, old: str, new: str, words: str):
    spoil(f"{MOWER}/{name}", old, new)
    found = problems(read_library(packs))
    assert any(words in problem.words for problem in found), found


def test_names_the_pack_the_file_and_the_line_of_a_problem(packs: Path, spoil: Spoil, line_of: LineOf):
    spoil(f"{MOWER}/links.csv", "strike,crank-bent,.18", "strike,crank-bent,1")
    problem = problems(read_library(packs))[0]
    number = line_of(f"{MOWER}/links.csv", "strike,crank-bent")
    assert (problem.kind, problem.where) == (MOWER, f"{MOWER}/links.csv, line {number}")


def test_tells_of_a_cause_no_check_can_see(packs: Path):
    file = packs / MOWER / "likelihoods.csv"
    rows = file.read_text(encoding="utf-8").splitlines(keepends=True)
    file.write_text("".join(row for row in rows if ",crank-bent," not in row), encoding="utf-8")
    assert "“crank-bent”: no check can tell that it is there." in {p.words for p in problems(read_library(packs))}


def test_tells_of_two_causes_that_look_the_same_to_every_check(packs: Path):
    file = packs / "systems" / "recoil-starter" / "likelihoods.csv"
    rows = file.read_text(encoding="utf-8").splitlines(keepends=True)
    others = [row for row in rows if ",rope-broken," not in row]
    twins = [row.replace(",recoil-spring,", ",rope-broken,") for row in rows if ",recoil-spring," in row]
    file.write_text("".join(others + twins), encoding="utf-8")
    found = {p.words for p in problems(read_library(packs))}
    assert "“rope-broken” and “recoil-spring” look the same to every check." in found


def test_tells_of_a_source_nothing_rests_on(packs: Path):
    with (packs / "common" / "sources.csv").open("a", encoding="utf-8") as file:
        file.write("old-almanac,An almanac,,from memory\n")
    assert [p.words for p in problems(read_library(packs))] == ["nothing rests on the source “old-almanac”."]


def test_tells_of_a_release_item_with_an_unknown_hazard(packs: Path, spoil: Spoil):
    spoil("common/release.csv", "blade-turns;sharp-blade", "blade-turns;blunt-blade")
    assert any("there is no hazard “blunt-blade”" in p.words for p in problems(read_library(packs)))


def test_names_the_line_of_a_system_shared_by_several_kinds(packs: Path, spoil: Spoil, line_of: LineOf):
    spoil("systems/ignition/repairs.csv", "coil-dead=.97", "coil-dead=1")
    number = line_of("systems/ignition/repairs.csv", "coil-dead=1")
    assert problems(read_library(packs))[0].where == f"systems/ignition/repairs.csv, line {number}"
