"""``bellcrank packs``: what is known of machines, and whether it fits together."""

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.refusals import REFUSED
from bellcrank.cli.terminal import wrap
from bellcrank.diagnosis.weighable import too_wide
from bellcrank.knowledge.checks import Problem, problems
from bellcrank.knowledge.model import Library
from bellcrank.shop.words import counted
from bellcrank.teardown.legality import assembly_problems


@click.group("packs", epilog="“bellcrank packs check” is the one there is.")
def command() -> None:
    """Look after the knowledge packs."""


@command.command("check")
@every_command
@pass_desk
@click.pass_context
def check(context: click.Context, desk: Desk) -> None:
    """Read every pack and name what is missing or contradicts itself; exit code 2 when anything does."""
    library = open_library()
    found = (*problems(library), *_assembly_problems(library))
    found = found or _too_wide(library)
    desk.tell(
        {"packs": [_counts(library, kind) for kind in library.packs], "problems": found},
        lambda: [
            *(_in_words(_counts(library, kind)) for kind in library.packs),
            *(wrap(f"{one.kind}/{one.file}: {one.words}", first="! ", indent="  ") for one in found),
            counted(len(found), "problem", "problems") if found else "Everything fits together.",
        ],
    )
    if found:
        context.exit(REFUSED)


def _assembly_problems(library: Library) -> tuple[Problem, ...]:
    return tuple(
        Problem(kind, f"assembly-{assembly.id}.toml", words)
        for kind, pack in library.packs.items()
        for assembly in pack.assemblies
        for words in assembly_problems(assembly)
    )


def _too_wide(library: Library) -> tuple[Problem, ...]:
    return tuple(Problem(kind, "links.csv", words) for kind, pack in library.packs.items() for words in too_wide(pack))


def _counts(library: Library, kind: str) -> dict[str, str | int]:
    pack = library.packs[kind]
    return {
        "kind": kind,
        "words": pack.words,
        "complaints": len(pack.complaints),
        "causes": len(pack.causes),
        "checks": len(pack.checks),
        "repairs": len(pack.repairs),
    }


def _in_words(counts: dict[str, str | int]) -> str:
    told = ", ".join(f"{counts[name]} {name}" for name in ("complaints", "causes", "checks", "repairs"))
    return wrap(f"{counts['words']}: {told}", indent="  ", first="")
