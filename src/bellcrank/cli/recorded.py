"""What a command that records something answers: the entry made, and what comes next."""

from bellcrank.cli.desk import Desk
from bellcrank.cli.refusals import closest
from bellcrank.cli.show_job import head
from bellcrank.cli.show_next import next_lines
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotFound
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.packs import pack_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import read_settings
from bellcrank.shop.sheet import EventLine, JobSheet

CAUSES_AFTER = 3


def who(shop: Shop, by: str) -> str:
    """Give who did it: the name typed, else the mechanic of the settings."""
    return by or read_settings(shop).mechanic


def answer_with_next(desk: Desk, shop: Shop, number: int, event_id: int) -> None:
    """Answer with the entry that was made and what comes next; as JSON with the whole job."""
    sheet = job_sheet(shop, number)
    entry = next((event for event in sheet.events if event.id == event_id), None)
    desk.tell(sheet, lambda: [*head(sheet), *_recorded(entry), *next_lines(sheet, CAUSES_AFTER, 1)])


def with_suggestion(refusal: NotFound, shop: Shop, sheet: JobSheet, typed: str) -> NotFound:
    """Add the closest names there are to a refusal of a check or repair."""
    pack = pack_now(shop, sheet.machine.kind)
    names = {"check": [one.id for one in pack.checks], "repair": [one.id for one in pack.repairs]}
    close = closest(typed, names.get(refusal.field or "", []))
    listed = f" “bellcrank next {sheet.number} --all” lists them." if refusal.field in names else ""
    return NotFound(f"{refusal.sentence}{close}{listed}", refusal.field)


def _recorded(entry: EventLine | None) -> list[str]:
    return [wrap(f"{entry.words} (entry {entry.id})", first="recorded: ", indent="  ")] if entry else []
