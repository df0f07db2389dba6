"""The torques of a job's fasteners: listed, and one kept for the machine."""

from bellcrank.cli.desk import Desk
from bellcrank.cli.recorded import who
from bellcrank.cli.show_job import head
from bellcrank.cli.show_torque import fasteners_of, job_torque_lines
from bellcrank.errors import NotUnderstood
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.premises import Shop
from bellcrank.shop.typed_torque import record_torque
from bellcrank.sources import Basis


def tell_of_job(desk: Desk, number: int, *, fastener: str, torque: str, published: str, own: bool, by: str) -> None:
    """Keep a torque when one was typed, then list the torques of the job."""
    with desk.shop() as shop:
        if torque or fastener:
            _refuse_half(fastener, torque, published, own)
            _keep(shop, number, fastener, torque, published, by)
        sheet = job_sheet(shop, number)
    record = {"number": sheet.number, "fasteners": fasteners_of(sheet)}
    desk.tell(record, lambda: [*head(sheet), *job_torque_lines(sheet)])


def _refuse_half(fastener: str, torque: str, published: str, own: bool) -> None:
    if not (torque and fastener):
        raise NotUnderstood("A torque is kept with both --fastener ID and --set TORQUE. Type both.")
    if bool(published) == own:
        raise NotUnderstood(
            "Whose torque is it? Type --published with the place where it stands, or --own for the shop's own number."
        )


def _keep(shop: Shop, number: int, fastener: str, torque: str, published: str, by: str) -> None:
    basis = Basis.PUBLISHED if published else Basis.OWN_SHOP
    record_torque(shop, number, fastener, torque, basis=basis, source=published, by=who(shop, by))
