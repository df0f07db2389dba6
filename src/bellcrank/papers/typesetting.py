"""Typesetting: a template of ours, the data as JSON beside it, our own fonts, the same bytes every time.

Typed text never becomes part of a template: it travels as data and comes out as the letters it is.
"""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import typst

from bellcrank.errors import NotUnderstood

FOLDER = Path(__file__).parent
FONTS = FOLDER / "fonts"
SIZES = {"a4": "a4", "letter": "us-letter"}


def typeset(template: str, data: Mapping[str, Any], paper: str) -> bytes:
    """Give the PDF of a template filled with data, on A4 or Letter."""
    if paper not in SIZES:
        raise NotUnderstood(f"“{paper}” is not a paper size we print on. It must be a4 or letter.", "paper")
    return bytes(
        typst.compile(
            FOLDER / f"{template}.typ",
            root=FOLDER,
            font_paths=[FONTS],
            ignore_system_fonts=True,
            sys_inputs={"data": json.dumps(data, ensure_ascii=False), "paper": SIZES[paper]},
        )
    )
