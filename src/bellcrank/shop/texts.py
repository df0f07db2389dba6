"""Typed text made safe to keep: one form of each letter, no control characters, a sensible length."""

import re
import unicodedata
from decimal import Decimal

from bellcrank.errors import NotUnderstood, OutOfRange

SHORT, LONG = 200, 4000  # [characters] a name; a story
LARGEST_AMOUNT = Decimal(10) ** 7
# Letters that show nothing and turn the direction of what follows; phones put them round a copied number.
TURNS_DIRECTION = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff")
GROUPING = str.maketrans("", "", " \u00a0\u202f'’")
AMOUNT = re.compile(r"[+]?(?P<whole>[0-9]*)(?:[.,](?P<part>[0-9]*))?")


def clean(text: str, what: str, *, longest: int = SHORT, field: str | None = None) -> str:
    """Give a text in its composed form without outer blanks, or refuse what cannot be kept or printed."""
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:
        raise NotUnderstood(f"{what} holds half a letter that cannot be kept. Type it again.", field) from None
    seen = "".join(letter for letter in text.replace("\r\n", "\n") if _can_be_kept(letter))
    kept = unicodedata.normalize("NFC", seen).strip()
    if len(kept) > longest:
        raise OutOfRange(f"{what} has {len(kept)} letters; it must be {longest} at most. Shorten it.", field)
    return kept


def clean_line(text: str, what: str, *, longest: int = SHORT, field: str | None = None) -> str:
    """Give a text that stands on one line: as :func:`clean`, line ends and tabs turned into blanks."""
    return " ".join(clean(text, what, longest=longest, field=field).split())


def amount(text: str, what: str, *, field: str | None = None) -> Decimal:
    """Read an amount as typed: ``120``, ``120.50``, ``120,50`` or ``1 200``.

    ``1.200`` is refused: it may mean twelve hundred or one and a fifth.
    """
    typed = text.strip()
    plain = re.sub(r"\s*(%|[A-Za-z]{3})$", "", typed).translate(GROUPING)  # "120 EUR", "19 %"
    if plain.startswith(("-", "−")):
        raise OutOfRange(f"{what} is {typed}; it must be zero or more. Type it again.", field)
    match = AMOUNT.fullmatch(plain)
    if not match or not (match["whole"] or match["part"]):
        raise NotUnderstood(f"{what}: “{typed}” is not an amount. Write it like 120 or 120.50.", field)
    whole, part = match["whole"] or "0", match["part"] or ""
    if len(part) == 3 and int(whole):
        raise NotUnderstood(
            f"{what}: “{typed}” may mean {whole}{part} or {whole}.{part}. Write it like 1200 or 1.20.", field
        )
    value = Decimal(f"{whole}.{part}" if part else whole)
    if value > LARGEST_AMOUNT:
        raise OutOfRange(f"{what} is {typed}; that cannot be. Type it again.", field)
    return value


def _can_be_kept(letter: str) -> bool:
    if letter in "\n\t":
        return True
    return unicodedata.category(letter) != "Cc" and letter not in TURNS_DIRECTION
