"""An answer of the numbers bench put into a job: what its fastener says of the joint, and keeping the number."""

from bellcrank.both_systems import show_torque
from bellcrank.errors import NotAllowedNow, NotFound
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.window import recommend_torque
from bellcrank.knowledge.assembly import Fastener
from bellcrank.shop.machine_model import assemblies_for
from bellcrank.shop.numbers import A_NUT
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import read_record
from bellcrank.shop.settings import read_settings
from bellcrank.shop.storage.things import read_torques
from bellcrank.shop.typed_torque import record_torque
from bellcrank.sources import Basis
from bellcrank.units import show


def fastener_of(shop: Shop, number: int, fastener: str) -> Fastener:
    """Give a fastener of the machine on that job."""
    known = assemblies_for(shop, read_record(shop, number))
    found = next(
        (
            one
            for assembly in known
            for operation in assembly.operations
            for one in operation.fasteners
            if one.id == fastener
        ),
        None,
    )
    if found is None:
        raise NotFound(f"There is no fastener “{fastener}”. Pick one from the job's steps.", "fastener")
    return found


def joint_words(fastener: Fastener) -> dict[str, str]:
    """Say a fastener's joint as it would be typed on the numbers bench."""
    into = fastener.into or (A_NUT if fastener.under_head else "")
    said = {
        "thread": fastener.thread,
        "strength": fastener.strength,
        "into": into,
        "under": fastener.under_head if fastener.under_head != into else "",
        "engaged": f"{fastener.engaged_mm:g} mm" if fastener.engaged_mm is not None else "",
        "head": fastener.head,
    }
    return {key: value for key, value in said.items() if value}


def keep_computed(shop: Shop, number: int, fastener: str, joint: Joint, by: str = "") -> int:
    """Compute a joint's torque and keep it as the shop's own number for a fastener, with what it was computed from.

    A published number that was typed for the machine stays: it wins over anything computed.
    """
    with shop.storage.reading() as connection:
        known = read_torques(connection, read_record(shop, number).job.machine.id).get(fastener)
    if known is not None and known.basis == Basis.PUBLISHED:
        raise NotAllowedNow(
            f"{known.typed} is published for it ({known.source}), and that comes first. Type a new published number on "
            "the step if it is wrong."
        )
    target = show_torque(recommend_torque(joint).target, read_settings(shop).torque_unit)
    return record_torque(shop, number, fastener, target, basis=Basis.OWN_SHOP, source=_source(joint), by=by)


def _source(joint: Joint) -> str:
    into = "into a nut"
    if joint.into is not None:
        into = f"{show(joint.full_thread, 'mm', 'length', 1)} of thread into {joint.into.words}"
    return (
        f"computed on the numbers bench: {joint.thread.name}, {joint.strength.words}, {into}, "
        f"friction {joint.friction:g}, by {joint.tightened_by}{'' if joint.scatter is None else ', as measured'}"
    )
