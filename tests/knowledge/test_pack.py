import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.checks import problems
from bellcrank.knowledge.pack import read_library

MOWER = "walk-behind-mower"
Spoil = Callable[[str, str, str], None]
LineOf = Callable[[str, str], int]


def test_a_copy_of_the_packs_reads_like_the_program_s_own(packs: Path):
    assert read_library(packs) == read_library()


def test_a_new_kind_of_machine_is_a_folder_of_data(packs: Path, spoil: Spoil):
    shutil.copytree(packs / MOWER, packs / "flail-mower")
    spoil("flail-mower/pack.toml", 'kind = "walk-behind-mower"', 'kind = "flail-mower"')
    library = read_library(packs)
    assert list(library.packs)[:2] == ["flail-mower", MOWER]
    assert problems(library) == ()


def test_refuses_another_leak_convention(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/pack.toml", 'leak_convention = "net"', 'leak_convention = "compound"')
    with pytest.raises(KnowledgeFault, match=r'pack.toml: leak_convention is “compound”; it must be "net"'):
        read_library(packs)


def test_refuses_a_pack_that_does_not_say_its_leak_convention(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/pack.toml", 'leak_convention = "net"', "")
    with pytest.raises(KnowledgeFault, match=r'it must be "net"'):
        read_library(packs)


def test_names_what_pack_toml_lacks(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/pack.toml", "give_up_minutes = 150.0", "")
    with pytest.raises(KnowledgeFault, match=r"walk-behind-mower/pack.toml: “give_up_minutes” is missing"):
        read_library(packs)


def test_names_file_and_line_of_a_line_with_a_cell_too_many(packs: Path, spoil: Spoil, line_of: LineOf):
    spoil(f"{MOWER}/links.csv", "strike,crank-bent,", "strike,crank-bent,often,")
    number = line_of(f"{MOWER}/links.csv", "often")
    with pytest.raises(KnowledgeFault, match=f"links.csv, line {number}: it has 6 cells, the heading has 5"):
        read_library(packs)


def test_names_file_and_line_of_a_share_that_is_no_number(packs: Path, spoil: Spoil, line_of: LineOf):
    spoil(f"{MOWER}/shares.csv", "kicks-back,key-sheared,45", "kicks-back,key-sheared,half")
    number = line_of(f"{MOWER}/shares.csv", "half")
    with pytest.raises(KnowledgeFault, match=f"shares.csv, line {number}: “percent” holds “half”"):
        read_library(packs)


def test_counts_lines_right_behind_a_cell_of_two_lines(packs: Path, spoil: Spoil, line_of: LineOf):
    spoil("common/hazards.csv", "The engine can fire while it is turned by hand.", '"The engine can fire.\nMind it."')
    spoil("common/hazards.csv", "sharp-blade,CAUTION", "sharp-blade,MIND")
    number = line_of("common/hazards.csv", "sharp-blade,MIND")
    with pytest.raises(KnowledgeFault, match=f"common/hazards.csv, line {number}: “signal” is “MIND”"):
        read_library(packs)


def test_refuses_a_name_that_stands_twice(packs: Path, spoil: Spoil, line_of: LineOf):
    spoil("systems/ignition/causes.csv", "coil-gap-wrong,", "coil-dead,")
    first = line_of("systems/ignition/causes.csv", "coil-dead,")
    with pytest.raises(KnowledgeFault, match=f"causes.csv, line {first + 1}: “coil-dead” stands in line {first}"):
        read_library(packs)


@pytest.mark.parametrize(
    ("name", "old", "new", "words"),
    [
        ("results.csv", "hit-something,yes,", "hit-anything,yes,", "there is no check “hit-anything”"),
        ("likelihoods.csv", "hit-something,strike,", "hit-anything,strike,", "there is no check “hit-anything”"),
        ("../systems/ignition/results.csv", "magnet,holds,", "magnit,holds,", "no kind of machine has “magnit”"),
        (
            "../systems/ignition/likelihoods.csv",
            "spark-tester,coil-dead,",
            "spark-tester,coil-dad,",
            "no kind .* “coil-dad”",
        ),
        ("../systems/ignition/repairs.csv", "coil-dead=.97", "coil-dud=.97", "no kind of machine has “coil-dud”"),
        ("shares.csv", "kicks-back,key-sheared", "kicks-back,key-shorn", "there is no cause “key-shorn”"),
        ("repair-parts.csv", "new-blade,", "newer-blade,", "there is no repair “newer-blade”"),
    ],
)
def test_refuses_a_line_that_belongs_to_nothing(packs: Path, spoil: Spoil, name: str, old: str, new: str, words: str):
    spoil(f"{MOWER}/{name}", old, new)
    with pytest.raises(KnowledgeFault, match=rf"{name.removeprefix('../')}, line \d+: {words}"):
        read_library(packs)


def test_refuses_a_link_that_stands_twice(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/links.csv", "strike,crank-bent,", "strike,blade-bent,")
    with pytest.raises(KnowledgeFault, match=r"line \d+: “strike, blade-bent” stands in line \d+ already. Keep one"):
        read_library(packs)


def test_refuses_a_check_without_a_leak_row(packs: Path, spoil: Spoil):
    spoil("systems/ignition/likelihoods.csv", "spark-tester,-,", "spark-tester,oil-low,")
    with pytest.raises(KnowledgeFault, match=r"checks.csv, line \d+: “spark-tester” has no row for cause “-”"):
        read_library(packs)


def test_refuses_two_rows_for_one_cause(packs: Path, spoil: Spoil):
    spoil("systems/ignition/likelihoods.csv", "spark-tester,coil-gap-wrong,", "spark-tester,coil-dead,")
    with pytest.raises(KnowledgeFault, match=r"line \d+: “spark-tester, coil-dead” stands in line \d+ already"):
        read_library(packs)


def test_names_a_missing_file(packs: Path):
    (packs / MOWER / "links.csv").unlink()
    with pytest.raises(KnowledgeFault, match=r"walk-behind-mower/links.csv: there is no such file"):
        read_library(packs)


def test_a_kind_without_engine_cards_needs_no_table_of_them(packs: Path):
    assert not (packs / "two-stroke-handheld" / "engine-cards.csv").exists()
    assert read_library(packs).packs["two-stroke-handheld"].engine_cards == ()


def test_a_kind_that_names_engine_cards_must_have_their_table(packs: Path):
    (packs / MOWER / "engine-cards.csv").unlink()
    with pytest.raises(KnowledgeFault, match=r"walk-behind-mower/engine-cards.csv: there is no such file"):
        read_library(packs)


def test_refuses_a_complaint_that_does_not_say_whether_the_engine_runs(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/complaints.csv", "hunts: speed goes up and down,.11,yes", "hunts: speed goes up and down,.11,often")
    with pytest.raises(KnowledgeFault, match="“engine_runs” is “often”; it must be one of: yes, no, never"):
        read_library(packs)


def test_names_a_file_that_is_not_in_utf_8(packs: Path):
    (packs / MOWER / "links.csv").write_bytes("root,consequence\nstöße,x".encode("latin-1"))
    with pytest.raises(KnowledgeFault, match=r"links.csv: it is not written in UTF-8"):
        read_library(packs)


def test_names_the_step_an_assembly_leaves_unfinished(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/assembly-engine-top.toml", 'undo = "', 'undone = "')
    with pytest.raises(KnowledgeFault, match=r"assembly-engine-top.toml, step “.+”: “undo” is missing"):
        read_library(packs)


def test_names_the_place_where_a_toml_file_breaks(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/pack.toml", "fault_scale = 0.15", "fault_scale = ")
    with pytest.raises(KnowledgeFault, match=r"walk-behind-mower/pack.toml: it cannot be read .*line"):
        read_library(packs)


def test_refuses_a_key_in_a_unit_no_standard_prints(packs: Path, spoil: Spoil):
    spoil("common/woodruff-keys.csv", "4x6.5x16,mm", "4x6.5x16,cm")
    with pytest.raises(KnowledgeFault, match=r"woodruff-keys.csv, line \d+: “unit” is “cm”; it must be one of: in, mm"):
        read_library(packs)


def test_a_kind_s_own_line_takes_the_place_of_its_system_s(packs: Path):
    checks = packs / MOWER / "checks.csv"
    shared = (packs / "systems" / "ignition" / "checks.csv").read_text(encoding="utf-8").splitlines()
    line = next(one for one in shared if one.startswith("plug-gap,"))
    with checks.open("a", encoding="utf-8") as file:
        file.write(line.replace(",,1,wire gauge,", ",,7,wire gauge,") + "\n")
    before, after = (read_library(root).packs[MOWER].checks for root in (None, packs))
    assert {one.id: one.minutes for one in before}["plug-gap"] == 1
    assert {one.id: one.minutes for one in after}["plug-gap"] == 7
    assert len(before) == len(after)


def test_a_kind_may_leave_out_what_its_systems_have(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/pack.toml", "systems = [", 'leave_out = ["magnet", "flywheel-magnet"]\nsystems = [')
    spoil(f"{MOWER}/shares.csv", "wont-start,flywheel-magnet,", "wont-start,carbon,")
    pack = read_library(packs).packs[MOWER]
    assert "magnet" not in {one.id for one in pack.checks}
    assert not any("flywheel-magnet" in repair.fixes for repair in pack.repairs)
    assert not any(row.cause == "flywheel-magnet" for check in pack.checks for row in check.likelihoods)


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("systems = [", 'leave_out = ["magnit"]\nsystems = [', "leave_out names “magnit”, which no kind has"),
        ('"fuel"', '"feul"', "there is no system “feul”; it must be one of: air-filter, "),
    ],
)
def test_refuses_a_system_or_a_left_out_name_that_is_not_there(packs: Path, spoil: Spoil, old, new, words):
    spoil(f"{MOWER}/pack.toml", old, new)
    with pytest.raises(KnowledgeFault, match=words):
        read_library(packs)


def test_refuses_what_two_systems_of_a_kind_both_have(packs: Path):
    with (packs / "systems" / "fuel" / "causes.csv").open("a", encoding="utf-8") as file:
        file.write("coil-dead,coil dead,fuel,function,,new-coil,guess,trade-table\n")
    with pytest.raises(KnowledgeFault, match=r"“coil-dead” stands in systems/fuel/causes.csv, line 10, too"):
        read_library(packs)


def test_a_row_is_worth_as_many_jobs_as_its_table_says_else_eight_and_a_leak_row_twenty_four():
    # The reference gives 8 jobs to a cause's row and 24 to the leak row where nothing else is known (guess).
    checks = {one.id: one for one in read_library().packs[MOWER].checks}
    weights = {(row.check, row.cause): row.weight for check in checks.values() for row in check.likelihoods}
    assert weights["blade-look", "blade-bent"] == 8
    assert weights["spark-tester", "coil-dead"] == 8
    assert weights["count-jerks", "key-sheared"] == 30
    assert (checks["blade-look"].leak_weight, checks["count-jerks"].leak_weight) == (24, 30)


def test_refuses_a_row_that_is_worth_nothing(packs: Path, spoil: Spoil, line_of: LineOf):
    name = f"{MOWER}/likelihoods.csv"
    row = "blade-look,blade-bent,0.06;0.1;0.79;0.02;0.03,guess,trade-table,"
    spoil(name, row, f"{row}0")
    with pytest.raises(KnowledgeFault, match=rf"{name}, line {line_of(name, row)}: “weight” is 0; it must be above 0"):
        read_library(packs)
