"""The tray sheet as PDF, measured on the page: true lengths, every tray its own ground, nothing over anything."""

import io
from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime
from itertools import combinations

import pytest
from pypdf import PdfReader

from bellcrank.bootstrap import open_shop
from bellcrank.errors import NotAllowedNow
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.assembly import Shape, View
from bellcrank.papers.printing import print_paper
from bellcrank.shop.demo import load_demo
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.settings import Settings
from bellcrank.shop.tray import tray_sheet
from bellcrank.shop.work import choose_target
from bellcrank.shop.work_sheet import FastenerLine
from bellcrank.units import convert

from .lines_of import pages_of

ADDRESS = "http://127.0.0.1:8765/jobs/201"
TARGETS = ("key", "carburettor", "blade", "rocker-cover")
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}  # [mm] ISO 216; ANSI/ASME Y14.1
MEASURABLE = 0.02  # [mm] no ruler shows less
FREE = 8.0  # [mm] more than common printers leave white at an edge; common practice, from memory
TOP = View(
    "top",
    "from above, handle below",
    500.0,
    600.0,
    (
        Shape("deck", ((20, 20), (480, 20), (480, 400), (300, 580), (200, 580), (20, 400))),
        Shape("shroud", ((250, 220),), 120.0),
        Shape("tank", ((150, 90), (350, 90), (350, 160), (150, 160))),
    ),
)


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    opened = open_shop(tmp_path_factory.mktemp("shop"), now=lambda: datetime(2026, 5, 4, 9, 30, tzinfo=UTC))
    load_demo(opened)
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def sheets(shop):
    found = {}
    for target in TARGETS:
        choose_target(shop, 201, target)
        found[target] = job_sheet(shop, 201)
    return found


def changed(sheet, change):
    """Give a job whose fasteners are changed, and whose machine is seen from above."""
    steps = tuple(
        replace(step, fasteners=tuple(replace(one, fastener=change(one.fastener)) for one in step.fasteners))
        for step in sheet.work.steps_in
    )
    return replace(sheet, work=replace(sheet.work, steps_in=steps, views=(TOP,)))


def placed(sheet):
    """Give a job whose groups sit in rows on the view from above, ten millimetres from one to the next."""
    ids = [one.fastener.id for step in sheet.work.steps_in for one in step.fasteners]

    def place(fastener):
        row = 60 + 40 * ids.index(fastener.id)
        return replace(fastener, view="top", places=tuple((150 + 30 * one, row) for one in range(fastener.count)))

    return changed(sheet, place)


def printed(sheet, paper="a4", settings=None):
    return print_paper("tray", sheet, settings or Settings(), paper, ADDRESS)


def text_of(document):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(document)).pages).split())


def fasteners_of(sheet):
    return [tray.fastener for tray in tray_sheet(sheet).trays]


def boxes_of(page):
    """Give the trays of a page by their upright edges, which come in pairs from the left."""
    edges = [one for one in page.lines if one.size[0] < 0.01 and one.size[1] > 15]
    found = []
    for top in sorted({round(one.top, 2) for one in edges}):
        row = sorted((one for one in edges if round(one.top, 2) == top), key=lambda one: one.left)
        found += [replace(left, right=right.right) for left, right in zip(row[::2], row[1::2], strict=True)]
    return found


def drawn_in(page, box):
    return [one for one in page.lines if box.holds(one) and one.size != box.size and min(one.size) > 0.5]


@pytest.fixture(params=[(target, paper) for target in TARGETS for paper in PAPERS], ids="-".join, scope="module")
def job(request, sheets):
    target, paper = request.param
    return sheets[target], paper, pages_of(printed(sheets[target], paper))


def test_the_bar_is_fifty_millimetres_long(job):
    _, _, pages = job
    assert any(abs(one.size[0] - 50) < MEASURABLE and one.size[1] < 0.01 for one in pages[0].lines)


def test_every_screw_is_drawn_as_long_and_as_thick_as_it_is(job):
    sheet, _, pages = job
    wanted = Counter()
    for fastener in fasteners_of(sheet):
        if fastener.thread and fastener.length_mm:
            thick = convert(parse_thread(fastener.thread).diameter, "mm", "length")
            wanted[round(fastener.length_mm, 1), round(thick, 1)] += fastener.count
    drawn = Counter((round(one.size[0], 1), round(one.size[1], 1)) for page in pages for one in page.lines)
    assert wanted
    assert {size: drawn[size] for size in wanted} == wanted


def test_every_group_has_a_tray_and_no_tray_lies_over_another(job):
    sheet, _, pages = job
    boxes = [boxes_of(page) for page in pages]
    assert sum(map(len, boxes)) == len(fasteners_of(sheet))
    for page in boxes:
        assert not any(one.meets(other, MEASURABLE) for one, other in combinations(page, 2))


def test_what_is_drawn_in_a_tray_stays_in_it_and_keeps_clear_of_its_words(job):
    _, _, pages = job
    for page in pages:
        for box in boxes_of(page):
            marks = drawn_in(page, box)
            assert marks
            frames = [one for one in marks if any(one.holds(other) and other.size[0] > 10 for other in page.letters)]
            for letters in page.letters:  # the frame of a sign is round its words
                assert not any(letters.meets(one) for one in marks if one not in frames)


def test_nothing_reaches_the_edge_a_printer_leaves_free(job):
    _, paper, pages = job
    wide, high = PAPERS[paper]
    for page in pages:
        for one in (*page.lines, *page.letters):
            assert one.left >= FREE, one
            assert one.right <= wide - FREE, one
            assert one.top >= FREE, one
            assert one.foot <= high - FREE, one


def test_the_trays_stand_in_the_order_of_the_way_in(sheets):
    text = text_of(printed(sheets["key"]))
    at = [text.index(f"{one.count} × {one.words}") for one in fasteners_of(sheets["key"])]
    assert at == sorted(at)


def test_the_sheet_says_how_many_there_are_and_that_none_may_be_left(sheets):
    text = text_of(printed(sheets["key"]))
    count = sum(one.count for one in fasteners_of(sheets["key"]))
    assert f"{count} fasteners" in text
    assert "At the end none may lie on this sheet" in text


def test_a_safety_joint_and_a_fastener_used_once_are_marked(sheets):
    text = text_of(printed(sheets["blade"]))
    assert text.count("Safety joint") == sum(one.safety_joint for one in fasteners_of(sheets["blade"]))
    assert text.count("A new one goes in") == sum(one.single_use for one in fasteners_of(sheets["blade"])) > 0


def test_a_length_found_longer_is_drawn_longer(sheets):
    longer = changed(sheets["key"], lambda one: replace(one, length_mm=37.0) if one.id == "shroud-bolts-long" else one)
    (count,) = [one.count for one in fasteners_of(longer) if one.length_mm == 37.0]
    lines = [one for page in pages_of(printed(longer)) for one in page.lines]
    assert sum(abs(one.size[0] - 37) < MEASURABLE for one in lines) == count


def test_inches_come_first_in_a_shop_that_turns_in_foot_pounds(sheets):
    assert "19 mm (0.75 in) long" in text_of(printed(sheets["key"])).replace("\u00a0", " ")
    feet = text_of(printed(sheets["key"], settings=Settings(torque_unit="ft·lb")))
    assert "0.75 in (19 mm) long" in feet.replace("\u00a0", " ")


def test_a_screw_too_long_for_the_page_says_so(sheets):
    endless = changed(sheets["key"], lambda one: replace(one, length_mm=400.0) if one.id == "coil-bolts" else one)
    document = printed(endless, "letter")
    assert "400 mm (15.75 in) long, drawn shorter" in text_of(document).replace("\u00a0", " ")
    for page in pages_of(document):
        assert all(one.right <= PAPERS["letter"][0] - 10 for one in page.lines)


def test_a_length_nobody_wrote_down_is_asked_for(sheets):
    unknown = changed(sheets["key"], lambda one: replace(one, length_mm=None) if one.id == "coil-bolts" else one)
    assert "length not known: measure it" in text_of(printed(unknown))


def test_a_group_no_page_can_hold_goes_on_in_further_trays(sheets):
    many = changed(sheets["key"], lambda one: replace(one, count=60) if one.id == "coil-bolts" else one)
    document = printed(many, "letter")
    assert "(1 of 2)" in text_of(document)
    assert "(2 of 2)" in text_of(document)
    lines = [one for page in pages_of(document) for one in page.lines]
    assert sum(one.size == pytest.approx((25.0, 6.0), abs=MEASURABLE) for one in lines) == 60


@pytest.mark.parametrize("paper", PAPERS)
def test_places_carry_the_numbers_of_their_trays(sheets, paper):
    sheet = placed(sheets["key"])
    document = printed(sheet, paper)
    text = text_of(document)
    assert "Where they sit, from above, handle below" in text
    for tray in tray_sheet(sheet).trays:
        for spot in tray.spots:
            assert spot.words in text
    assert sum(map(len, map(boxes_of, pages_of(document)))) == len(fasteners_of(sheet))


@pytest.mark.parametrize("paper", PAPERS)
def test_every_fastener_of_every_model_finds_its_tray(shop, sheets, paper):
    step = sheets["key"].work.steps_in[0]
    for kind in shop.library.packs.values():
        for model in kind.assemblies:
            every = tuple(FastenerLine(one, None, "") for operation in model.operations for one in operation.fasteners)
            work = replace(sheets["key"].work, steps_in=(replace(step, fasteners=every),), views=model.views)
            pages = pages_of(printed(replace(sheets["key"], work=work), paper))
            assert sum(map(len, map(boxes_of, pages))) == len(every), model.id
            for page in pages:
                boxes = boxes_of(page)
                assert not any(one.meets(other, MEASURABLE) for one, other in combinations(boxes, 2)), model.id
                assert all(one.right <= PAPERS[paper][0] - FREE for one in page.lines), model.id


def test_every_page_says_its_job_and_its_place(sheets):
    reader = PdfReader(io.BytesIO(printed(placed(sheets["key"]))))
    assert len(reader.pages) > 1
    for number, page in enumerate(reader.pages, start=1):
        assert "job 201" in page.extract_text()
        assert f"page {number} of {len(reader.pages)}" in page.extract_text()


def test_the_same_job_gives_the_same_bytes(sheets):
    assert printed(placed(sheets["key"])) == printed(placed(sheets["key"]))


def test_a_job_without_a_way_in_is_told_to_choose_one(sheets):
    with pytest.raises(NotAllowedNow, match="Choose the part to get to first"):
        printed(replace(sheets["key"], work=None))
