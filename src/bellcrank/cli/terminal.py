"""Words on a terminal: wrapped at 80 columns, and readable where the terminal does not know our letters."""

import io
import shutil
import sys
import textwrap
import unicodedata
from collections.abc import Iterable

import click

WIDTH = 80  # columns; narrower when the terminal is
NARROWEST = 40  # columns; below this a line of words cannot be read anyway

# What a terminal without our letters gets instead; everything else loses its accent or becomes a question mark.
STAND_INS = {
    "·": ".",
    "–": "-",
    "—": "-",
    "−": "-",
    "±": "+/-",
    "×": "x",
    "°": " deg",
    "“": '"',
    "”": '"',
    "„": '"',
    "‘": "'",
    "’": "'",
    "″": '"',
    "…": "...",
    "≤": "<=",
    "≥": ">=",
    "→": "->",
    "²": "2",
    "³": "3",
    "µ": "u",
    "μ": "u",
    "Ω": "ohm",
    "✓": "x",
    "ł": "l",
    "Ł": "L",
    "ø": "o",
    "Ø": "O",
    "ß": "ss",
    "æ": "ae",
    "Æ": "AE",
    "€": "EUR",
    "£": "GBP",
    "\u00a0": " ",
    "\u2009": " ",
    "\u202f": " ",
}


def width() -> int:
    """Give the columns there are to write in: 80, or fewer on a narrow terminal."""
    return max(NARROWEST, min(WIDTH, shutil.get_terminal_size((WIDTH, 24)).columns))


def wrap(text: str, *, indent: str = "", first: str | None = None) -> str:
    """Wrap a sentence; ``first`` stands before its first line, ``indent`` before the others.

    >>> print(wrap("Pull the plug lead off and tie it back before a hand goes near the blade, every time.",
    ...            first="  do  ", indent="      "))
      do  Pull the plug lead off and tie it back before a hand goes near the
          blade, every time.
    """
    start = indent if first is None else first
    lines = textwrap.wrap(
        " ".join(text.split()),
        width(),
        initial_indent=start,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return "\n".join(lines) or start.rstrip()


def beside(left: str, right: str) -> str:
    """Set two short texts on one line, the second at its right end; on two lines when they do not fit.

    >>> beside("#214  mower", "on the bench")[:14]
    '#214  mower   '
    """
    room = width() - len(left) - len(right)
    if room >= 2:
        return left + " " * room + right
    return wrap(left, indent="      ") + "\n" + " " * max(0, width() - len(right)) + right


def heading(text: str) -> str:
    """Write the heading of a section, with an empty line above it."""
    return "\n" + click.style(text.upper(), bold=True)


def fitted(text: str, encoding: str | None) -> str:
    """Give the text in letters the encoding has.

    >>> fitted("9 N·m ± 1, José Wałęsa", "ascii")
    '9 N.m +/- 1, Jose Walesa'
    """
    try:
        text.encode(encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return "".join(_fitted_letter(letter, encoding or "ascii") for letter in text)
    return text


def say(lines: str | Iterable[str], *, to_stderr: bool = False) -> None:
    """Print text to the terminal or into the pipe it goes to."""
    text = lines if isinstance(lines, str) else "\n".join(lines)
    stream = sys.stderr if to_stderr else sys.stdout
    click.echo(fitted(text, stream.encoding), err=to_stderr)


def never_stumble_over_letters() -> None:
    """Let standard output and error show a question mark for a letter they do not know, also in click's own help."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def speaks_unicode() -> bool:
    """Tell whether standard output takes every letter."""
    return (sys.stdout.encoding or "").lower().replace("-", "").startswith("utf")


def _fitted_letter(letter: str, encoding: str) -> str:
    for candidate in (letter, STAND_INS.get(letter, ""), unicodedata.normalize("NFKD", letter)[:1]):
        try:
            candidate.encode(encoding)
        except (UnicodeEncodeError, LookupError):
            continue
        if candidate:
            return candidate
    return "?"
