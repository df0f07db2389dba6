"""The papers of a job by name: job sheet, quote, invoice, tag, tray sheet."""

import io
from collections.abc import Callable, Mapping
from typing import Any

import segno

from bellcrank.errors import NotAllowedNow, NotFound
from bellcrank.knowledge.model import Signal
from bellcrank.papers.tray import tray_words
from bellcrank.papers.typesetting import typeset
from bellcrank.papers.wording import caution_words, head_words, price_words, step_words
from bellcrank.shop.settings import Settings
from bellcrank.shop.sheet import JobSheet
from bellcrank.shop.words import day, percent

Words = Mapping[str, Any]
MOST_NAMED, WORTH_NAMING = 3, 0.2  # [-] causes a customer reads on a quote
FINDINGS = ("told", "complaint", "found", "repaired")


def print_paper(what: str, sheet: JobSheet, settings: Settings, paper: str, address: str) -> bytes:
    """Give a paper of the job as PDF; ``address`` is where the job's page stands, for the QR code."""
    if what not in PAPERS:
        raise NotFound(f"There is no paper called “{what}”. There are: {', '.join(PAPERS)}.", "what")
    words = PAPERS[what](sheet, settings)
    shop = {"name": settings.shop_name, "address": settings.address, "phone": settings.phone}
    return typeset(what, {**words, "shop": shop, "qr": _qr(address), "url": address}, paper)


def _qr(address: str) -> str:
    out = io.BytesIO()
    segno.make(address, error="q", micro=False).save(out, kind="svg", border=0, xmldecl=False, svgns=True)
    return out.getvalue().decode()


def _job_sheet(sheet: JobSheet, settings: Settings) -> Words:
    unit = settings.torque_unit
    return {
        "head": head_words(sheet),
        "torque_unit": unit,
        "length_unit": settings.length_unit,
        "findings": [
            {"words": event.words, "by": event.by}
            for event in sheet.events
            if event.kind in FINDINGS and not event.taken_back
        ],
        "causes": [
            {
                "words": cause.words,
                "sure": cause.how_sure,
                "percent": percent(cause.probability),
                "share": cause.probability,
                "for": [one.words for one in cause.reasons_for],
                "against": [one.words for one in cause.reasons_against],
            }
            for cause in sheet.causes[:8]
        ],
        "cure": sheet.cure.words,
        "also": [f"{cause.words} ({percent(cause.probability)})" for cause in sheet.cure.look_also],
        "work": None
        if sheet.work is None
        else {
            "target": sheet.work.target_words,
            "tools": ", ".join(sheet.work.tools),
            "in": [step_words(step, unit) for step in sheet.work.steps_in],
            "out": [step_words(step, unit) for step in sheet.work.steps_out],
        },
        "release": _release(sheet),
        "price": price_words(sheet.price),
    }


def _release(sheet: JobSheet) -> Words:
    open_lines = [line for line in sheet.release.lines if line.status != "passed"]
    cautions = {caution.id: caution for line in open_lines for caution in line.cautions}
    worst_first = sorted(cautions.values(), key=lambda caution: list(Signal).index(Signal(caution.signal)))
    return {
        "ready": sheet.release.ready,
        "triggers": ", ".join(sheet.release.triggers),
        "cautions": [caution_words(caution) for caution in worst_first],
        "lines": [
            {
                "words": line.words,
                "how": line.how,
                "answer": line.answer,
                "status": line.status,
                "detail": line.detail,
                "hard": line.hard,
                "limit": line.limit_words,
                "source": line.source,
            }
            for line in sheet.release.lines
        ],
    }


def _quote(sheet: JobSheet, _: Settings) -> Words:
    likely = [
        f"{cause.words} ({cause.how_sure}, {percent(cause.probability)})"
        for cause in sheet.causes[:MOST_NAMED]
        if cause.probability >= WORTH_NAMING and sheet.cure.state != "cured"
    ]
    return {"head": head_words(sheet), "price": price_words(sheet.price), "likely": likely}


def _invoice(sheet: JobSheet, _: Settings) -> Words:
    if not sheet.price.invoice_number:
        raise NotAllowedNow(f"Job {sheet.number} has no invoice yet. Write it on the job's page first.")
    written = next(event.at for event in reversed(sheet.events) if event.kind == "invoice")
    return {"head": head_words(sheet), "price": price_words(sheet.price), "written": day(written)}


def _tag(sheet: JobSheet, _: Settings) -> Words:
    return {"head": head_words(sheet)}


PAPERS: Mapping[str, Callable[[JobSheet, Settings], Words]] = {
    "job-sheet": _job_sheet,
    "quote": _quote,
    "invoice": _invoice,
    "tag": _tag,
    "tray": tray_words,
}
