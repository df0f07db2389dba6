"""Counts go to other shops and come from them, and nothing goes along that is nobody's business."""

import json

import pytest

from bellcrank.bootstrap import open_shop
from bellcrank.diagnosis.counts import Counts, added
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood
from bellcrank.shop.counts_text import as_plain, from_plain
from bellcrank.shop.demo_past import MODELS, PEOPLE, add_past
from bellcrank.shop.fill_learnt import learnt_sheet
from bellcrank.shop.learnt import own_counts
from bellcrank.shop.packs import pack_now
from bellcrank.shop.pooling import export_counts, import_counts, look_at, read_counts, take_back_counts
from bellcrank.shop.storage.jobs import CLOSED
from bellcrank.shop.storage.lessons import read_lessons
from bellcrank.stats.updating import sums_of

from .conftest import Clock
from .test_learning import KIND, close, share

NAMED = {
    "format": "bellcrank-counts",
    "version": 1,
    "kind": KIND,
    "years": {
        "2025": {
            "jobs": {"wont-start": 30.0},
            "causes": {"wont-start": {"fuel-filter-blocked": 20.0, "not-listed": 2.0}},
            "results": {"spark-tester": {"-": {"jumps": 10.0}}},
            "minutes": {"fuel-filter": {"count": 2.0, "logs": 6.1092, "squares": 18.6729}},
        }
    },
}


def as_file(**changes):
    return json.dumps({**NAMED, **changes}).encode()


def year(**changes):
    return as_file(years={"2025": {**NAMED["years"]["2025"], **changes}})


@pytest.fixture
def other(tmp_path):
    """Another shop, with jobs behind it."""
    opened = open_shop(tmp_path / "other", now=Clock())
    add_past(opened, KIND, "Ina")
    yield opened
    opened.close()


def test_what_one_shop_writes_another_reads_to_the_same_counts(shop, other):
    read = read_counts(shop, export_counts(other, KIND).encode())
    with other.storage.reading() as connection:
        own = added((counts, 1.0) for _, counts in own_counts(read_lessons(connection, KIND, CLOSED)))
    total = added((counts, 1.0) for counts in read.years.values())
    for name in ("jobs", "causes", "results"):
        assert getattr(total, name) == pytest.approx(getattr(own, name), abs=0.01), name
    for repair, times in own.minutes.items():
        assert total.minutes[repair].count == times.count
        assert total.minutes[repair].logs == pytest.approx(times.logs, abs=0.01)


def test_nobody_can_tell_from_a_file_whose_machines_they_were(other):
    text = export_counts(other, KIND)
    for name in (*PEOPLE, *(word for model in MODELS for word in model), "Ina"):
        assert name not in text
    assert all(len(name) == 4 for name in json.loads(text)["years"])
    assert set(json.loads(text)) == {"format", "version", "kind", "years"}


def test_counts_of_another_shop_move_the_numbers_until_they_are_taken_back(shop):
    before = share(shop)
    number, brought = import_counts(shop, as_file(), "reeve.json", "Ada")
    assert share(shop) > before
    assert "30 jobs with a known cure" in brought.words
    line = learnt_sheet(shop).imports[0]
    assert (line.id, line.file_name, line.taken_back) == (number, "reeve.json", False)
    assert take_back_counts(shop, KIND, number) == "reeve.json"
    assert share(shop) == before
    assert learnt_sheet(shop).imports[0].taken_back


def test_looking_at_a_file_keeps_nothing(shop):
    before = share(shop)
    assert look_at(shop, read_counts(shop, as_file())).jobs == 30
    assert share(shop) == before
    assert learnt_sheet(shop).imports == ()


def test_the_same_counts_twice_count_once_however_they_are_written(shop):
    first, _ = import_counts(shop, as_file())
    once = share(shop)
    again, _ = import_counts(shop, json.dumps(NAMED, indent=7, sort_keys=True).encode())
    assert (again, share(shop)) == (first, once)
    take_back_counts(shop, KIND)
    import_counts(shop, as_file())  # after all
    assert share(shop) == pytest.approx(once)


def test_a_newer_file_of_the_same_shop_is_asked_about(shop):
    import_counts(shop, as_file(), "spring.json")
    more = {**NAMED["years"], "2026": {"jobs": {"hunts": 1.0}}}
    doubt = look_at(shop, read_counts(shop, as_file(years=more))).doubt
    assert "“spring.json”" in doubt
    assert "Take that one back" in doubt
    other_jobs = {"jobs": {"hunts": 4.0}, "causes": {"hunts": {"air-leak": 4.0}}}
    assert look_at(shop, read_counts(shop, as_file(years={"2024": other_jobs}))).doubt == ""


def test_ones_own_file_is_known_for_it(shop):
    close(shop)
    own = export_counts(shop, KIND).encode()
    assert "your own file" in look_at(shop, read_counts(shop, own)).doubt


def test_counts_of_others_are_not_passed_on(shop):
    close(shop)
    before = export_counts(shop, KIND)
    import_counts(shop, as_file())
    assert export_counts(shop, KIND) == before


def test_what_this_shop_does_not_know_is_told_and_left_out(shop):
    told = year(
        jobs={"wont-start": 30.0, "sings": 2.0},
        causes={"wont-start": {"own-mouse-nest": 20.0}},
        results={"spark-tester": {"-": {"jumps": 1.0, "sings": 1.0}}, "own-sniff": {"-": {"yes": 1.0}}},
        minutes={"own-shoo": {"count": 1.0, "logs": 1.0, "squares": 1.0}},
    )
    _, brought = import_counts(shop, told)
    assert brought.unknown == (
        "cause own-mouse-nest",
        "check own-sniff",
        "complaint sings",
        "repair own-shoo",
        "result sings of spark-tester",
    )
    assert pack_now(shop, KIND).complaints == shop.library.packs[KIND].complaints


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"\x00\xff\xfe", "not written as JSON"),
        (b"", "not written as JSON"),
        (b"[" * 100_000, "not written as JSON"),
        (b'{"format": "bellcrank-counts", "version": NaN}', "not written as JSON"),
        (b"[]", "does not say that it is one"),
        (b'{"format": "recipes"}', "does not say that it is one"),
        (as_file(version=2), "version is 2, and this Bellcrank reads version 1"),
        (as_file(kind="tractor"), "counts of “tractor”, a kind of machine this shop has no pack for"),
        (as_file(kind=[]), "a kind of machine this shop has no pack for"),
        (as_file(years={}), "no year in it"),
        (as_file(years={"26": {}}), "“26” stands in it for a year"),
        (as_file(years={"2026-05-04": {}}), "for a year"),
        (as_file(years={"2025": []}), "at “2025” stands"),
        (as_file(years={"2025": {"customers": {}}}), "“2025, customers” stands nothing this form knows"),
        (year(jobs={"wont-start": -1}), "“2025, jobs, wont-start” stands “-1”; it must be a count from 0"),
        (year(jobs={"wont-start": 1e300}), "must be a count from 0 to 1,000,000"),
        (year(jobs={"wont-start": True}), "must be a count"),
        (year(jobs={"Zofia Łoboda": 1}), "a name of small letters"),
        (year(causes={"wont-start": {"stale-fuel": 31.0}}), "no more than the 30 jobs of that complaint"),
        (year(minutes={"fuel-filter": {"count": 2.0}}), "must be count, logs and squares"),
        (year(minutes={"fuel-filter": {"count": 2.0, "logs": 9.0, "squares": 1.0}}), "sums that can come of so many"),
        (
            year(minutes={"fuel-filter": {"count": 1.0, "logs": 50.0, "squares": 2500.0}}),
            "sums that can come of so many",
        ),
        (b" " * 1_100_000, "it has 1.1 MB"),
    ],
)
def test_rubbish_is_refused_with_a_sentence(shop, data, words):
    with pytest.raises(NotUnderstood) as refused:
        import_counts(shop, data)
    assert words in refused.value.sentence
    assert "Nothing was taken in" in refused.value.sentence
    assert refused.value.field == "file"
    assert learnt_sheet(shop).imports == ()


def test_nothing_to_take_back_is_a_sentence(shop):
    with pytest.raises(NotAllowedNow, match="nothing to take back"):
        take_back_counts(shop, KIND)
    import_counts(shop, as_file())
    with pytest.raises(NotFound, match="There are no counts with the number 99 here"):
        take_back_counts(shop, KIND, 99)


def test_counts_as_text_and_back_are_the_same():
    counts = Counts(
        jobs={"wont-start": 2.0},
        causes={("wont-start", "coil-dead"): 1.5},
        results={("spark-tester", "-", "jumps"): 0.25},
        minutes={"new-coil": sums_of(20.0, 30.0)},
    )
    read = from_plain(json.loads(json.dumps(as_plain(counts))), "here")
    assert (read.jobs, read.causes, read.results) == (counts.jobs, counts.causes, counts.results)
    assert read.minutes["new-coil"].squares == pytest.approx(counts.minutes["new-coil"].squares, abs=1e-4)
