"""The command ``bellcrank``: a list of commands whose code is only read when one of them is asked for."""

import sys
from collections.abc import Sequence
from importlib import import_module
from typing import NoReturn

import click

import bellcrank
from bellcrank.cli.desk import data_option, debug_option
from bellcrank.cli.refusals import explain
from bellcrank.cli.terminal import never_stumble_over_letters

# command -> what it is for, in the order of the work; its code is bellcrank.cli.<name with _ for ->
COMMANDS = {
    "open": "Open the bench in the browser; --demo fills it with a demo shop.",
    "take-in": "Take a machine in: the customer's words make a numbered job.",
    "jobs": "List the jobs: on the bench, waiting, ready, gone.",
    "job": "Show one job from the story to the hand-back.",
    "complaint": "Name the known complaint a job came in with.",
    "next": "Rank the causes with reasons, and what to check next.",
    "why": "Tell what speaks for and against one cause.",
    "replay": "Replay a job step by step: believed, advised, done.",
    "found": "Record what a check has shown.",
    "repaired": "Record a repair and whether it cured the machine.",
    "was": "Say which cause it was, and how long the repair took.",
    "take-back": "Take back what was recorded last, or one entry.",
    "steps": "Show the way in to a part and back out, and tick steps off.",
    "capture": "Keep what was found at a step: length, seized, missing.",
    "record": "Record a machine nobody drew up, while it comes apart.",
    "models": "Look after what this shop keeps of how machines come apart.",
    "way-in": "Plan the way in to parts of a kind of machine.",
    "other-ways": "Hold other choices on a job's way in against it.",
    "way-out": "Show the way back of a job, with a torque for every fastener.",
    "tray": "Print the tray sheet: what comes off, drawn to size.",
    "torque": "Give a torque for every fastener, or compute one.",
    "numbers": "Put an answer worked out into a job's step.",
    "strip": "Give the pull at which a screw strips out.",
    "taper": "Give what a hub on its taper holds, and what pulls it off.",
    "key": "Give the sizes of a key and the torque it carries.",
    "pull-off": "Say whether a flywheel's own holes hold the pull.",
    "strike": "Say what a blade strike did to taper and key.",
    "hand": "Say what somebody's tightening by feel is worth.",
    "timing": "Say where both sparks fall when the flywheel has slipped.",
    "slip": "Say where the flywheel sits by what the cord did.",
    "pull": "Pull a cord some hundred times by computation.",
    "leakdown": "Turn a leak-down reading into the area of the leaks.",
    "compression": "Give what a compression gauge should read.",
    "jet": "Give the main jet for thinner or warmer air.",
    "governor": "Give droop and no-load speed, and what a swing means.",
    "spark": "Give the voltage a plug needs, and what a tester proves.",
    "price": "Add up parts and labour, and write the invoice.",
    "handback": "Go through the release list and hand the machine back.",
    "paper": "Write job sheet, quote, invoice, tag or trays as a PDF.",
    "learnt": "Show what closed jobs taught, and swap counts with shops.",
    "tools": "Say which tools this shop has not.",
    "own": "Keep what this shop found that no pack knew.",
    "packs": "Check the knowledge packs.",
}


COMPILED = ("pull",)  # commands that run the compiled equations


class CommandList(click.Group):
    """A group that reads a command's file only when that command is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Name the commands in the order of the work."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Read the file of one command."""
        if cmd_name not in COMMANDS:
            return None
        if cmd_name in COMPILED:
            from bellcrank.bootstrap import keep_compiled  # noqa: PLC0415, read only when it is needed

            keep_compiled()
        found: click.Command = import_module(f"bellcrank.cli.{cmd_name.replace('-', '_')}").command
        return found

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write what each command is for without reading its file."""
        with formatter.section("Commands, in the order of the work"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(
    cls=CommandList,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
    epilog="Every command knows --json, --data DIR and --help. Numbers of jobs are on their tags.",
)
@click.version_option(bellcrank.__version__, prog_name="bellcrank", message="%(prog)s %(version)s")
@data_option
@debug_option
def bellcrank_command() -> None:
    """From the story at the door to a signed-off machine: the bench of a small-engine repair shop."""


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run what was typed, and leave with 0 when done, 2 when refused with a sentence, 1 when something broke."""
    typed = list(sys.argv[1:] if arguments is None else arguments)
    never_stumble_over_letters()
    try:
        code = bellcrank_command.main(typed, prog_name="bellcrank", standalone_mode=False)
    except (Exception, KeyboardInterrupt) as trouble:
        code = explain(trouble, typed)
    sys.exit(code if isinstance(code, int) else 0)
