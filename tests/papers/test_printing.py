"""Papers as PDF: right size, right letters, nothing taken for a command, no step torn apart."""

import io
from dataclasses import replace
from datetime import UTC, datetime

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from bellcrank.bootstrap import open_shop
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood
from bellcrank.papers.printing import PAPERS, print_paper
from bellcrank.shop.demo import load_demo
from bellcrank.shop.fill_sheet import bench_sheet, job_sheet
from bellcrank.shop.settings import Settings, read_settings
from bellcrank.shop.work import choose_target

ADDRESS = "http://127.0.0.1:8765/jobs/201"


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    opened = open_shop(tmp_path_factory.mktemp("shop"), now=lambda: datetime(2026, 5, 4, 9, 30, tzinfo=UTC))
    load_demo(opened)
    choose_target(opened, 201, "key")
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def numbers(shop):
    sheet = bench_sheet(shop)
    return sorted(line.number for line in (*sheet.on_the_bench, *sheet.waiting, *sheet.ready))


def read(document):
    reader = PdfReader(io.BytesIO(document))
    return reader, "\n".join(page.extract_text() for page in reader.pages)


# ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: Letter is 8.5 x 11 in. One point is 1/72 in.
@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("letter", (612, 792))])
@pytest.mark.parametrize("what", ["job-sheet", "quote", "tag"])
def test_a_paper_has_the_size_asked_for(shop, numbers, what, paper, size):
    reader, _ = read(print_paper(what, job_sheet(shop, numbers[0]), read_settings(shop), paper, ADDRESS))
    box = reader.pages[0].mediabox
    assert (round(float(box.width)), round(float(box.height))) == size


def test_the_job_sheet_tells_the_whole_job(shop, numbers):
    _, text = read(print_paper("job-sheet", job_sheet(shop, numbers[0]), read_settings(shop), "a4", ADDRESS))
    for heading in ("Story", "What was found and done", "Causes, with reasons", "Way in", "Way back", "Hand back"):
        assert heading in text
    assert "DANGER" in text
    assert text.index("Plug lead off and tied back") < text.index("Pull the plug lead off")
    assert "N·m" in text
    assert "computed" in text


@pytest.mark.parametrize("name", ["Łucja Źdźbło", "王 海", "Ω Ωmega", "Иван Петров", "Åse Ørsted"])
def test_any_customer_name_is_printed_as_its_letters(shop, numbers, name):
    sheet = job_sheet(shop, numbers[0])
    named = replace(sheet, customer=replace(sheet.customer, name=name))
    for what in ("quote", "tag"):
        _, text = read(print_paper(what, named, read_settings(shop), "a4", ADDRESS))
        assert name.replace(" ", "") in text.replace(" ", "").replace("\n", "")


def missing_glyphs(reader):
    """Count the letters drawn as glyph 0, the empty box of a font that has not got them."""
    count = 0
    for page in reader.pages:
        for operands, operator in ContentStream(page.get_contents(), reader).operations:
            if operator in (b"Tj", b"TJ"):
                parts = operands[0] if isinstance(operands[0], list) else [operands[0]]
                for part in (one.original_bytes for one in parts if hasattr(one, "original_bytes")):
                    count += sum(part[at : at + 2] == b"\x00\x00" for at in range(0, len(part), 2))
    return count


def test_no_letter_of_the_papers_is_an_empty_box(shop, numbers):
    sheet = job_sheet(shop, numbers[0])
    signs = replace(sheet, complaint_words="Łódź Ångström 王海 Ω λ Жук → ← ≤ ≥ ± × ° µ ⅛ ⅜ ½ ¾ ✓ € £ – — … ′ ″ ²")
    for what in ("job-sheet", "quote", "tag"):
        reader, _ = read(print_paper(what, signs, read_settings(shop), "a4", ADDRESS))
        assert missing_glyphs(reader) == 0
    nobody_has_it = replace(sheet, complaint_words="\U00013000")  # an Egyptian hieroglyph: shows that the count counts
    reader, _ = read(print_paper("quote", nobody_has_it, read_settings(shop), "a4", ADDRESS))
    assert missing_glyphs(reader) > 0


def test_no_step_of_a_long_job_is_torn_over_two_pages(shop, numbers):
    sheet = job_sheet(shop, numbers[1])
    model = next(step for step in sheet.work.steps_out if step.fasteners)
    caution = next(step for step in sheet.work.steps_in if step.cautions).cautions[0]
    steps = tuple(
        replace(
            model,
            number=number,
            cautions=(replace(caution, control=f"begin{number}x"),),
            checks=("a look", f"end{number}x"),
        )
        for number in range(1, 41)
    )
    long = replace(sheet, work=replace(sheet.work, steps_out=steps))
    reader, _ = read(print_paper("job-sheet", long, read_settings(shop), "letter", ADDRESS))
    pages = [page.extract_text() for page in reader.pages]
    for number in range(1, 41):
        (first,) = [place for place, text in enumerate(pages) if f"begin{number}x" in text]
        (last,) = [place for place, text in enumerate(pages) if f"end{number}x" in text]
        assert first == last


def test_what_is_still_to_prove_has_room_to_be_written_on(shop, numbers):
    sheet = job_sheet(shop, numbers[0])
    _, text = read(print_paper("job-sheet", sheet, Settings(torque_unit="ft·lb"), "a4", ADDRESS))
    hand_back = " ".join(text[text.index("Hand back") :].split())
    assert sheet.release.lines[0].how in hand_back
    assert "timed by" in hand_back
    assert hand_back.index("DANGER") < hand_back.index(sheet.release.lines[0].words)  # cautions before the work


def test_typed_text_is_never_taken_for_a_command(shop, numbers):
    words = '#read("secret") *bold* $x$ <label> @ref'
    sheet = replace(job_sheet(shop, numbers[0]), complaint_words=words)
    _, text = read(print_paper("quote", sheet, read_settings(shop), "a4", ADDRESS))
    assert '#read("secret")' in text.replace("“", '"').replace("”", '"')
    assert "*bold*" in text


def test_torques_stand_in_the_shops_unit_and_the_other(shop, numbers):
    sheet = job_sheet(shop, numbers[0])
    _, text = read(print_paper("job-sheet", sheet, Settings(torque_unit="ft·lb"), "letter", ADDRESS))
    assert "ft·lb" in text
    assert "N·m" in text


def test_a_torque_in_doubt_says_so_in_a_line_of_its_own(shop, numbers):
    sheet = job_sheet(shop, 201)
    step = next(one for one in sheet.work.steps_out if any(f.torque for f in one.fasteners))
    known = next(one for one in step.fasteners if one.torque)
    doubted = replace(known, torque=replace(known.torque, doubt="Was 60 ft·lb meant?"))
    steps = tuple(
        replace(one, fasteners=tuple(doubted if f is known else f for f in one.fasteners))
        for one in sheet.work.steps_out
    )
    told = replace(sheet, work=replace(sheet.work, steps_out=steps))
    _, text = read(print_paper("job-sheet", told, read_settings(shop), "a4", ADDRESS))
    assert "In doubt. Was 60 ft·lb meant?" in text


def test_every_page_carries_the_job_number_and_its_place(shop, numbers):
    reader, _ = read(print_paper("job-sheet", job_sheet(shop, numbers[0]), read_settings(shop), "a4", ADDRESS))
    for place, page in enumerate(reader.pages, start=1):
        assert f"job {numbers[0]}" in page.extract_text()
        assert f"page {place} of {len(reader.pages)}" in page.extract_text()


def test_the_same_sheet_gives_the_same_bytes(shop, numbers):
    sheet, settings = job_sheet(shop, numbers[0]), read_settings(shop)
    first = print_paper("quote", sheet, settings, "a4", ADDRESS)
    assert b"CreationDate" not in first
    assert print_paper("quote", sheet, settings, "a4", ADDRESS) == first


def test_the_invoice_needs_its_number(shop, numbers):
    with pytest.raises(NotAllowedNow, match="has no invoice yet"):
        print_paper("invoice", job_sheet(shop, numbers[0]), read_settings(shop), "a4", ADDRESS)
    _, text = read(print_paper("invoice", job_sheet(shop, numbers[2]), read_settings(shop), "a4", ADDRESS))
    assert job_sheet(shop, numbers[2]).price.invoice_number in text
    assert f"{job_sheet(shop, numbers[2]).price.total:.2f}" in text


def test_an_unknown_paper_or_size_is_refused(shop, numbers):
    sheet = job_sheet(shop, numbers[0])
    with pytest.raises(NotFound, match=", ".join(PAPERS)):
        print_paper("poem", sheet, read_settings(shop), "a4", ADDRESS)
    with pytest.raises(NotUnderstood, match="a4 or letter"):
        print_paper("quote", sheet, read_settings(shop), "a5", ADDRESS)
