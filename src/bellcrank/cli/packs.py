"""``bellcrank packs``: what is known of machines, and whether it fits together."""

import os
from pathlib import Path

import click

from bellcrank.bootstrap import keep_compiled, open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.progress import at_work
from bellcrank.cli.refusals import REFUSED
from bellcrank.cli.terminal import wrap
from bellcrank.diagnosis.weighable import too_wide
from bellcrank.engine.slip_table import PULLED_BY
from bellcrank.knowledge.checks import Problem, located, problems
from bellcrank.knowledge.gauge_table import gauge_lines
from bellcrank.knowledge.model import Library
from bellcrank.knowledge.slip_tables import write_table
from bellcrank.shop.engines import engine_named
from bellcrank.shop.words import counted
from bellcrank.teardown.legality import assembly_problems
from bellcrank.teardown.steps import on_the_tray


@click.group("packs")
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
        {
            "packs": [
                {
                    **_counts(library, kind),
                    "assemblies": _assembly_counts(library, kind),
                    "problems": _of_kind(found, kind),
                }
                for kind in library.packs
            ],
            "problems": found,
        },
        lambda: [
            *(line for kind in library.packs for line in (_in_words(_counts(library, kind)), *_apart(library, kind))),
            *(wrap(f"{one.where}: {one.words}", first="! ", indent="  ") for one in found),
            counted(len(found), "problem", "problems") if found else "Everything fits together.",
        ],
    )
    if found:
        context.exit(REFUSED)


@command.command("pulls")
@click.option("--engine", "cards", multiple=True, metavar="CARD", help="Only this card; may be given again.")
@click.option("--out", type=click.Path(file_okay=False, path_type=Path), default="slip-tables", show_default=True)
@click.option("--workers", type=click.IntRange(1, 64), default=None, help="Threads; changes no answer.")
@every_command
@pass_desk
def pulls(desk: Desk, cards: tuple[str, ...], out: Path, workers: int | None) -> None:
    """Pull the engines of the cards all over their ranges, and write the tables a pack keeps. Minutes for each card."""
    keep_compiled()
    from bellcrank.engine.pull.build import build_table  # noqa: PLC0415, after the folder of the compiled is set

    library, threads = open_library(), workers or os.cpu_count() or 1
    wanted = cards or tuple(card.id for pack in library.packs.values() for card in pack.engine_cards)
    written = []
    for name in wanted:
        card = engine_named(library, name)
        with at_work(f"engines of {name}", 0) as work:
            table = build_table(card, library.operators[PULLED_BY], threads, work)
        if table is None:
            break
        written.append(write_table(table, out))
    desk.tell({"files": [str(file) for file in written]}, lambda: [f"Written: {file}" for file in written])


@command.command("gauges")
@click.option("--out", type=click.Path(dir_okay=False, path_type=Path), default="gauge-readings.csv", show_default=True)
@every_command
@pass_desk
def gauges(desk: Desk, out: Path) -> None:
    """Work out what a compression gauge reads on the engines of the cards, and write the table a pack keeps."""
    cards = [card for pack in open_library().packs.values() for card in pack.engine_cards]
    out.write_text("\n".join([*gauge_lines(cards), ""]), encoding="utf-8")
    desk.tell({"files": [str(out)]}, lambda: [f"Written: {out}"])


def _assembly_problems(library: Library) -> tuple[Problem, ...]:
    return tuple(
        Problem(kind, f"{kind}/assembly-{assembly.id}.toml", None, words)
        for kind, pack in library.packs.items()
        for assembly in pack.assemblies
        for words in assembly_problems(assembly)
    )


def _too_wide(library: Library) -> tuple[Problem, ...]:
    return tuple(located(pack, "links.csv", "", words) for pack in library.packs.values() for words in too_wide(pack))


def _of_kind(found: tuple[Problem, ...], kind: str) -> list[Problem]:
    return [one for one in found if one.kind == kind]


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


def _assembly_counts(library: Library, kind: str) -> list[dict[str, str | int]]:
    return [
        {
            "id": assembly.id,
            "words": assembly.words,
            "steps": len(assembly.operations),
            "targets": len(assembly.targets),
            "fasteners": on_the_tray(assembly, (operation.id for operation in assembly.operations)),
        }
        for assembly in library.packs[kind].assemblies
    ]


def _apart(library: Library, kind: str) -> list[str]:
    return [
        wrap(
            f"{one['words']}: {one['steps']} steps to {one['targets']} parts, {one['fasteners']} fasteners",
            indent="    ",
            first="  ",
        )
        for one in _assembly_counts(library, kind)
    ]


def _in_words(counts: dict[str, str | int]) -> str:
    told = ", ".join(f"{counts[name]} {name}" for name in ("complaints", "causes", "checks", "repairs"))
    return wrap(f"{counts['words']}: {told}", indent="  ", first="")
