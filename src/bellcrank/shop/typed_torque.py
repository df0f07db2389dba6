"""A torque somebody knows for a fastener of one machine."""

from bellcrank.errors import NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.machine_model import assemblies_for
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import ON_THE_BENCH, read_record, refuse_when_gone
from bellcrank.shop.storage.events import add_event
from bellcrank.shop.storage.jobs import read_job, write_state
from bellcrank.shop.storage.things import KeptTorque, add_torque
from bellcrank.shop.texts import clean_line
from bellcrank.shop.unit_slips import refuse_a_slip
from bellcrank.sources import Basis
from bellcrank.units import read_positive, to_si

HIGHEST_TORQUE = to_si(1000, "N·m", "torque")  # no fastener of a hand-carried machine takes more


def record_torque(shop: Shop, number: int, fastener: str, typed: str, *, basis: str, source: str, by: str = "") -> int:
    """Keep a torque for a fastener of this machine: published, with where it stands, or the shop's own."""
    job = read_record(shop, number)
    known = {
        one.id: one
        for assembly in assemblies_for(shop, job)
        for operation in assembly.operations
        for one in operation.fasteners
    }
    if fastener not in known:
        raise NotFound(f"There is no fastener “{fastener}”. Pick one from the job's steps.", "fastener")
    reading = read_positive(typed, "torque", what=f"Torque of the {known[fastener].words}")
    if reading.si > HIGHEST_TORQUE:
        raise OutOfRange(
            f"Torque of the {known[fastener].words} is {reading.typed}; nothing here takes more than 1000 N·m. Check "
            "the unit.",
            "torque",
        )
    if basis not in (Basis.PUBLISHED, Basis.OWN_SHOP):
        raise NotUnderstood(f"“{basis}” does not say whose number it is. Say published or own shop.", "basis")
    if basis == Basis.OWN_SHOP:  # a published number wins; the sheet asks about one that does not sit with the joint
        refuse_a_slip(known[fastener], reading, shop.library)
    where = clean_line(source, "Where it stands", field="source")
    if basis == Basis.PUBLISHED and not where:
        raise NotUnderstood(
            "A published torque needs the place where it stands, like maker's manual, page 12.", "source"
        )
    kept = KeptTorque(fastener, reading.si, reading.typed, str(basis), where or "own shop")
    body = {"fastener": fastener, "torque_nm": reading.si, "typed": reading.typed, "basis": basis, "source": where}
    now = shop.now()
    with shop.storage.writing() as connection:
        kept_job = read_job(connection, number)
        refuse_when_gone(kept_job)
        event_id = add_event(connection, kept_job.id, "torque", body, by=by, now=now)
        add_torque(connection, kept_job.machine.id, event_id, kept)
        if kept_job.state != ON_THE_BENCH:
            write_state(connection, kept_job.id, ON_THE_BENCH, now)
    return event_id
