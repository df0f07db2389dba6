"""The number of a job, as typed."""

import click

from bellcrank.errors import NotUnderstood

LONGEST = 9  # digits; no shop has more jobs


class JobNumber(click.ParamType[int]):
    """A job number, with or without the # of the tag."""

    name = "number"

    def convert(self, value: str | int, param: click.Parameter | None, ctx: click.Context | None) -> int:
        """Read the number, or refuse with what a number looks like."""
        digits = str(value).strip().removeprefix("#")
        if not (digits.isascii() and digits.isdigit()) or len(digits) > LONGEST:
            raise NotUnderstood(
                f"“{value}” is not a job number; it must be a whole number like 214, as on the tag. "
                "“bellcrank jobs” lists them."
            )
        return int(digits)


number_argument = click.argument("number", type=JobNumber())
