"""What a shop adds to a pack: its weight, its cautions, and its way into a pack's files."""

import csv
import shutil
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest

from bellcrank.diagnosis.network import compile_pack
from bellcrank.knowledge.checks import problems
from bellcrank.knowledge.model import CheckKind
from bellcrank.knowledge.own import Own, OwnCause, OwnCheck, OwnResult, Shows, own_name, short_name
from bellcrank.knowledge.own_cautions import check_cautions, repair_cautions
from bellcrank.knowledge.own_tables import own_tables
from bellcrank.knowledge.pack import read_library
from bellcrank.knowledge.pack_checks import table_gaps
from bellcrank.knowledge.with_own import with_own

KIND = "walk-behind-mower"
NEST = OwnCause(
    id="own-mouse-nest",
    words="mouse nest under the shroud",
    system="air",
    complaints=("wont-start",),
    explains=(("cooling-look", "blocked"),),
    access=("shroud-off",),
    repair_words="Take the nest out",
    minutes=20.0,
    price="4.00",
)
MIRROR = OwnCheck(
    id="own-mirror",
    words="Look under the shroud with a mirror, and a torch",
    minutes=3.0,
    results=(OwnResult("no", "no"), OwnResult("straw", "straw"), OwnResult("nest", "a nest")),
    tools=("mirror", "torch"),
    access=(),
    shows=(Shows("own-mouse-nest", "nearly always", "nest"), Shows("cooling-blocked", "often", "straw")),
    runs_engine=False,
    hazards=("hot-muffler",),
)


@pytest.fixture(scope="module")
def library():
    return read_library()


@pytest.fixture(scope="module")
def pack(library):
    return library.packs[KIND]


def listed(pack, complaint):
    return sum(cause.shares.get(complaint, 0.0) for cause in pack.causes)


def named(records, name):
    return next(one for one in records if one.id == name)


def test_the_pack_with_nothing_added_is_the_pack(pack):
    assert with_own(pack, Own()) is pack


def test_a_cause_found_once_counts_as_one_job_of_sixty(pack):
    merged = with_own(pack, Own(causes=(NEST,)))
    assert named(merged.causes, NEST.id).shares == {"wont-start": pytest.approx(1 / 60)}


def test_each_own_cause_of_a_complaint_counts_as_one_job_more(pack):
    other = replace(NEST, id="own-other")
    merged = with_own(pack, Own(causes=(NEST, other)))
    assert named(merged.causes, NEST.id).shares["wont-start"] == pytest.approx(1 / 61)


def test_what_is_not_on_the_list_gives_the_share_up(pack):
    pack = filled(pack, "smokes", 0.92)  # the 8 % left over have one in sixty to give
    smoking = replace(NEST, complaints=("smokes",))
    merged = with_own(pack, Own(causes=(smoking,)))
    assert listed(merged, "smokes") == pytest.approx(listed(pack, "smokes") + 1 / 60)
    assert named(merged.causes, "oil-overfilled") == named(pack.causes, "oil-overfilled")


@pytest.mark.parametrize("count", [1, 3, 40])
@pytest.mark.parametrize("complaint", ["wont-start", "hunts", "smokes", "wont-stop"])
def test_shares_never_sum_above_all_jobs(pack, complaint, count):
    own = tuple(replace(NEST, id=f"own-{n}", complaints=(complaint,)) for n in range(count))
    merged = with_own(pack, Own(causes=own))
    assert listed(merged, complaint) <= max(listed(pack, complaint), 0.99) + 1e-12
    assert all(cause.shares.get(complaint, 0.0) >= 0 for cause in merged.causes)


def filled(pack, complaint, total):
    """Give the pack with the shares of a complaint scaled to a sum."""
    scale = total / listed(pack, complaint)
    causes = (
        replace(one, shares={name: share * (scale if name == complaint else 1) for name, share in one.shares.items()})
        for one in pack.causes
    )
    return replace(pack, causes=tuple(causes))


def test_the_packs_causes_give_up_in_proportion_when_nothing_is_left_over(pack):
    full = filled(pack, "wont-start", 0.998)
    merged = with_own(full, Own(causes=(NEST,)))
    kept = [
        named(merged.causes, one.id).shares["wont-start"] / one.shares["wont-start"]
        for one in full.causes
        if "wont-start" in one.shares
    ]
    assert kept == pytest.approx([(0.998 - 1 / 60) / 0.998] * len(kept))
    assert listed(merged, "wont-start") == pytest.approx(0.998)


def test_what_was_seen_once_is_expected_two_times_in_three(pack):
    """Laplace's rule of succession: (1 + 1) / (1 + 2)."""
    look = named(pack.checks, "cooling-look")
    result = look.results[-1].id
    merged = with_own(pack, Own(causes=(replace(NEST, explains=(("cooling-look", result),)),)))
    row = next(one for one in named(merged.checks, "cooling-look").likelihoods if one.cause == NEST.id)
    assert row.probabilities[-1] == pytest.approx(2 / 3)
    assert sum(row.probabilities) == pytest.approx(1)


def test_an_own_check_shows_a_cause_as_well_as_was_said(pack):
    merged = with_own(pack, Own(causes=(NEST,), checks=(MIRROR,)))
    rows = {one.cause: one.probabilities for one in named(merged.checks, MIRROR.id).likelihoods}
    assert rows[NEST.id][2] == pytest.approx(0.9)
    assert rows["cooling-blocked"][1] == pytest.approx(0.6)


def test_a_check_or_cause_the_pack_has_no_more_is_passed_over(library, pack):
    gone = replace(NEST, explains=(("no-such-check", "yes"), ("fuel-look", "no-such-result")), access=("no-such",))
    seen = replace(MIRROR, shows=(*MIRROR.shows, Shows("no-such-cause", "often", "nest")))
    merged = with_own(pack, Own(causes=(gone,), checks=(seen,)))
    assert not list(table_gaps(library, merged))


def test_a_pack_with_own_entries_passes_every_check_of_tables(library, pack):
    assert not list(table_gaps(library, with_own(pack, Own(causes=(NEST,), checks=(MIRROR,)))))


def test_what_was_taken_back_can_be_read_and_weighs_nothing(pack):
    merged = with_own(pack, Own(old_causes=(NEST,), old_checks=(MIRROR,)))
    assert {NEST.look, NEST.mend, MIRROR.id} <= merged.retired
    assert named(merged.repairs, NEST.mend).words == NEST.repair_words
    assert merged.causes == pack.causes
    compiled = compile_pack(merged)
    assert NEST.id not in compiled.network.names
    assert not compiled.looks_at[MIRROR.id]


def test_a_job_that_used_what_was_taken_back_still_counts_it():
    own = Own(old_causes=(NEST,), old_checks=(MIRROR,))
    assert own.as_used({NEST.mend}) == Own(causes=(NEST,), old_checks=(MIRROR,))
    assert own.as_used({MIRROR.id}) == Own(checks=(MIRROR,), old_causes=(NEST,))
    assert own.as_used({"fuel-look"}) == own


def test_an_own_check_is_never_less_cautious_than_the_packs_with_the_same_access(library):
    for pack in library.packs.values():
        for check in pack.checks:
            if (check.access or check.runs_engine) and not check.tries_to_start:
                cautions = check_cautions(pack, check.access, runs_engine=check.runs_engine)
                assert set(check.hazards) <= set(cautions.hazards), check.id
                assert set(check.off_first) <= set(cautions.off_first), check.id


def test_an_own_repair_is_never_less_cautious_than_the_packs_with_the_same_access(library):
    for pack in library.packs.values():
        for repair in pack.repairs:
            if repair.access:
                cautions = repair_cautions(pack, repair.access)
                assert set(repair.hazards) <= set(cautions.hazards), repair.id
                assert set(repair.off_first) <= set(cautions.off_first), repair.id


@pytest.mark.parametrize("access", ["deck-under", "blade-off", "flywheel-nut-off", "flywheel-off", "sump-off"])
def test_the_plug_lead_is_off_where_blade_or_flywheel_is_touched(pack, access):
    for cautions in (check_cautions(pack, (access,), runs_engine=False), repair_cautions(pack, (access,))):
        assert "plug-lead-off" in cautions.hazards
        assert "plug lead" in cautions.off_first


def test_the_plug_lead_is_off_where_the_pack_opens_nothing_alike(pack):
    bare = replace(pack, checks=(), repairs=())
    assert check_cautions(bare, ("air-filter-off",), runs_engine=False).off_first == ("plug lead",)
    assert check_cautions(bare, (), runs_engine=False).off_first == ()


def test_a_check_with_the_engine_running_is_made_outdoors_with_hands_away(pack):
    bare = replace(pack, checks=(), repairs=())
    assert check_cautions(bare, (), runs_engine=True).hazards == ("run-outdoors", "moving-parts")
    running = with_own(pack, Own(causes=(NEST,), checks=(replace(MIRROR, runs_engine=True),)))
    check = named(running.checks, MIRROR.id)
    assert check.kind is CheckKind.RUN
    assert "hot-muffler" in check.hazards


def test_an_own_repair_asks_for_what_the_packs_repairs_there_ask_for(pack):
    assert "flywheel" in named(with_own(pack, Own(causes=(NEST,))).repairs, NEST.mend).touches


def test_names_are_made_of_the_words_and_never_twice():
    assert short_name("  Große Maus! ") == "groe-maus"
    assert own_name("王海", set()) == "own-entry"
    assert own_name("nest", {"own-look-nest"}) == "own-nest-2"


def moved_into(tmp_path: Path, tables) -> Path:
    """Do by program what an engineer does by hand: put exported lines into the pack's own files."""
    root = tmp_path / "packs"
    shutil.copytree(Path(str(files("bellcrank.knowledge") / "packs")), root)
    for name, text in tables.items():
        file = root / ("common" if name == "sources.csv" else KIND) / name
        lines = list(csv.DictReader(file.read_text("utf-8").splitlines()))
        new_lines = list(csv.DictReader(text.splitlines()))
        assert set(new_lines[0]) - {"weight"} == set(lines[0]) - {"weight"}, name
        replaced = {(one["complaint"], one["cause"]) for one in new_lines} if name == "shares.csv" else set()
        kept = [one for one in lines if not replaced or (one["complaint"], one["cause"]) not in replaced]
        with file.open("w", encoding="utf-8", newline="") as opened:
            writer = csv.DictWriter(opened, list(dict.fromkeys([*lines[0], *new_lines[0]])), restval="")
            writer.writeheader()
            writer.writerows([*kept, *new_lines])
    return root


def test_exported_tables_read_as_a_pack_give_the_same_pack(tmp_path, pack):
    own = Own(causes=(replace(NEST, explains=(("fuel-look", "sour"),)),), checks=(MIRROR,), old_checks=(MIRROR,))
    read = read_library(moved_into(tmp_path, own_tables(pack, own)))
    merged = with_own(pack, replace(own, old_checks=()))
    moved = read.packs[KIND]
    # repr of a float reads back as it was, but a share passes through per cent
    for cause in merged.causes:
        assert named(moved.causes, cause.id).shares == pytest.approx(cause.shares, rel=1e-12)
        assert replace(named(moved.causes, cause.id), shares={}) == replace(cause, shares={})
    assert {one.id: one for one in moved.repairs} == {one.id: one for one in merged.repairs}
    for check in merged.checks:
        other = named(moved.checks, check.id)
        assert set(other.likelihoods) == set(check.likelihoods)
        assert replace(other, likelihoods=()) == replace(check, likelihoods=())


def test_nothing_added_exports_nothing(pack):
    assert own_tables(pack, Own()) == {}


def test_moved_into_a_pack_own_entries_fit(tmp_path, pack):
    library = read_library(moved_into(tmp_path, own_tables(pack, Own(causes=(NEST,), checks=()))))
    assert problems(library) == ()
