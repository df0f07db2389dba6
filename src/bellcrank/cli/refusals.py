"""The one place that prints an error: a sentence for the person at the bench, never a traceback."""

import difflib
import traceback
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

import click

from bellcrank.cli.as_json import json_text
from bellcrank.cli.desk import data_folder
from bellcrank.cli.terminal import say, speaks_unicode, wrap
from bellcrank.errors import BellcrankError

REFUSED = 2  # exit code: what was typed is refused, nothing was done
BROKEN = 1  # exit code: something broke inside
STOPPED = 130  # exit code: stopped by Ctrl-C, as shells give it
LOG_NAME = "bellcrank.log"


def explain(trouble: BaseException, typed: Sequence[str]) -> int:
    """Say what went wrong in one sentence and give the exit code."""
    if "--debug" in typed:
        traceback.print_exception(trouble)
    if isinstance(trouble, click.Abort | KeyboardInterrupt):
        return STOPPED
    if isinstance(trouble, BellcrankError):
        return _print_sentence(trouble.sentence, typed, REFUSED)
    if isinstance(trouble, click.exceptions.NoArgsIsHelpError):
        say(trouble.message)
        return 0
    if isinstance(trouble, click.UsageError):
        return _print_sentence(in_plain_words(trouble, typed), typed, REFUSED)
    return _print_sentence(_broken(trouble, typed), typed, BROKEN)


def in_plain_words(refusal: click.UsageError, typed: Sequence[str]) -> str:
    """Rewrite a refusal of the command line's reader in words of the shop."""
    command = next((f" {word}" for word in typed if not word.startswith("-")), "")
    path = refusal.ctx.command_path if refusal.ctx else f"bellcrank{command}"
    see = f"See “{path} --help”."
    if isinstance(refusal, click.NoSuchOption):
        return f"“{path}” has no option {refusal.option_name}.{_meant(refusal.possibilities)} {see}"
    if isinstance(refusal, click.NoSuchCommand):
        group = refusal.ctx.command if refusal.ctx else None
        names = group.list_commands(refusal.ctx) if refusal.ctx and isinstance(group, click.Group) else []
        return f"There is no command “{refusal.command_name}”.{closest(refusal.command_name, names)} {see}"
    if isinstance(refusal, click.MissingParameter) and refusal.param is not None:
        return f"“{path}” needs {_name_of(refusal.param)}. {see}"
    if isinstance(refusal, click.BadOptionUsage):
        return f"The option {refusal.option_name} of “{path}” needs a value after it. {see}"
    if isinstance(refusal, click.BadParameter) and refusal.param is not None:
        return f"{_name_of(refusal.param)}: {refusal.message.rstrip('.')}. {see}"
    return f"{refusal.format_message().rstrip('.')}. {see}"


def closest(typed: str, names: Sequence[str]) -> str:
    """Give the end of a sentence that names what was perhaps meant, or nothing.

    >>> closest("spark-tset", ["spark-test", "fuel-flow"])
    ' Did you mean “spark-test”?'
    """
    return _meant(difflib.get_close_matches(typed, names, n=3, cutoff=0.6))


def _meant(names: Sequence[str] | None) -> str:
    return f" Did you mean {' or '.join(f'“{name}”' for name in names)}?" if names else ""


def _name_of(parameter: click.Parameter) -> str:
    if isinstance(parameter, click.Option):
        return f"{parameter.opts[0]} {parameter.make_metavar(click.Context(click.Command('')))}".strip()
    return parameter.human_readable_name


def _print_sentence(sentence: str, typed: Sequence[str], code: int) -> int:
    if "--json" in typed:
        click.echo(json_text({"error": sentence}, ascii_only=not speaks_unicode()))
    else:
        say(wrap(sentence), to_stderr=True)
    return code


def _broken(trouble: BaseException, typed: Sequence[str]) -> str:
    log = _log_path(typed)
    try:
        log.parent.mkdir(parents=True, exist_ok=True)
        with log.open("a", encoding="utf-8") as file:
            file.write(f"--- {datetime.now(UTC).isoformat(timespec='seconds')} bellcrank {' '.join(typed)}\n")
            file.write("".join(traceback.format_exception(trouble)))
    except OSError:
        return (
            "Something broke inside Bellcrank, and its log could not be written either. "
            "Run the same command with --debug to see the inside."
        )
    return f"Something broke inside Bellcrank; it is not what you typed. The details are in {log}."


def _log_path(typed: Sequence[str]) -> Path:
    places = [index for index, word in enumerate(typed[:-1]) if word == "--data"]
    return data_folder(Path(typed[places[-1] + 1]) if places else None) / LOG_NAME
