"""``bellcrank way-in``: the least-time way in to parts of a kind of machine, without a job."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.progress import at_work
from bellcrank.cli.show_work import fetch_lines, other_lines, way
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotUnderstood
from bellcrank.knowledge.assembly import CONDITIONS
from bellcrank.shop.ways import WayInSheet, parts_of, way_in_to
from bellcrank.shop.words import gap_in_words, minutes
from bellcrank.teardown.search import Effort


@click.command("way-in")
@click.argument("kind")
@click.option("--to", "targets", multiple=True, metavar="PART", help="Part to free; may be repeated.")
@click.option("--without", "barred", multiple=True, metavar="STEP[:WAY]", help="Leave out a step, or one way of it.")
@click.option("--found", "found", multiple=True, metavar="STEP=corroded", help="What is found at a step.")
@every_command
@pass_desk
def command(desk: Desk, kind: str, targets: tuple[str, ...], barred: tuple[str, ...], found: tuple[str, ...]) -> None:
    """Plan the way in to parts of a KIND of machine: what comes off, in which order, with which tools.

    Without --to it lists the parts there are.
    """
    with desk.shop() as shop:
        if not targets:
            parts = parts_of(shop, kind)
            desk.tell({"kind": kind, "parts": parts}, lambda: [wrap(f"to: {', '.join(parts)}", indent="  ")])
            return
        with at_work("half-finished orders looked at", 0, waiting="Looking for the shortest way in.") as work:
            effort = Effort(go_on=lambda progress: work(progress.looked_at))
            sheet = way_in_to(shop, kind, targets, barred, _conditions(found), effort)
    desk.tell(sheet, lambda: _lines(sheet))


def _conditions(found: tuple[str, ...]) -> dict[str, frozenset[str]]:
    conditions: dict[str, set[str]] = {}
    for one in found:
        step, _, condition = one.partition("=")
        if condition not in CONDITIONS:
            raise NotUnderstood(
                f"“{one}” does not say what was found at a step. Write it like nut-off=corroded; it may be "
                f"{', '.join(CONDITIONS)}.",
                "found",
            )
        conditions.setdefault(step, set()).add(condition)
    return {step: frozenset(all_found) for step, all_found in conditions.items()}


def _lines(sheet: WayInSheet) -> list[str]:
    takes = f"{minutes(sheet.minutes)}, {minutes(sheet.changeover_minutes)} of it changing tools and turning"
    return [
        wrap(f"way to: {sheet.target_words}", indent="    ", first="  "),
        wrap(f"{takes} ({gap_in_words(sheet.minutes - sheet.bound)})", indent="  "),
        *([wrap(sheet.lacking, first="! ", indent="  ")] if sheet.lacking else []),
        *fetch_lines(sheet.fetch),
        *([wrap(sheet.quicker, indent="  ")] if sheet.quicker else []),
        *other_lines(sheet.others),
        *way("the way in", sheet.steps, sheet.torque_unit),
    ]
