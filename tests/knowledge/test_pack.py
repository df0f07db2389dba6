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
    shutil.copytree(packs / MOWER, packs / "tiller")
    spoil("tiller/pack.toml", 'kind = "walk-behind-mower"', 'kind = "tiller"')
    library = read_library(packs)
    assert list(library.packs) == ["tiller", MOWER]
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
    spoil(f"{MOWER}/causes.csv", "coil-gap-wrong,", "coil-dead,")
    first = line_of(f"{MOWER}/causes.csv", "coil-dead,")
    with pytest.raises(KnowledgeFault, match=f"causes.csv, line {first + 1}: “coil-dead” stands in line {first}"):
        read_library(packs)


@pytest.mark.parametrize(
    ("name", "old", "new", "words"),
    [
        ("results.csv", "spark-tester,jumps,", "spark-teaser,jumps,", "there is no check “spark-teaser”"),
        ("likelihoods.csv", "spark-tester,coil-dead,", "spark-teaser,coil-dead,", "there is no check “spark-teaser”"),
        ("shares.csv", "kicks-back,key-sheared", "kicks-back,key-shorn", "there is no cause “key-shorn”"),
        ("repair-parts.csv", "new-key,", "newer-key,", "there is no repair “newer-key”"),
    ],
)
def test_refuses_a_line_that_belongs_to_nothing(packs: Path, spoil: Spoil, name: str, old: str, new: str, words: str):
    spoil(f"{MOWER}/{name}", old, new)
    with pytest.raises(KnowledgeFault, match=rf"{name}, line \d+: {words}"):
        read_library(packs)


def test_refuses_a_check_without_a_leak_row(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/likelihoods.csv", "spark-tester,-,", "spark-tester,strike,")
    with pytest.raises(KnowledgeFault, match=r"checks.csv, line \d+: “spark-tester” has no row for cause “-”"):
        read_library(packs)


def test_refuses_two_rows_for_one_cause(packs: Path, spoil: Spoil):
    spoil(f"{MOWER}/likelihoods.csv", "spark-tester,coil-gap-wrong,", "spark-tester,coil-dead,")
    with pytest.raises(KnowledgeFault, match=r"line \d+: “spark-tester” has a row for “coil-dead” already"):
        read_library(packs)


def test_names_a_missing_file(packs: Path):
    (packs / MOWER / "links.csv").unlink()
    with pytest.raises(KnowledgeFault, match=r"walk-behind-mower/links.csv: there is no such file"):
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
