"""A torque computed from a joint that was typed; no shop is opened unless somebody's own hand is asked for."""

from collections.abc import Mapping

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk
from bellcrank.cli.show_torque import answer_lines, yield_lines
from bellcrank.cli.torque_answer import torque_answer, yield_answer
from bellcrank.fastening.joint import Joint
from bellcrank.shop.numbers import joint_from_words, left_out, read_share
from bellcrank.units import read_positive


def tell_computed(desk: Desk, typed: Mapping[str, str]) -> None:
    """Compute the torque of the joint that was typed and show it."""
    library = open_library()
    joint = joint_from_words(library, {**typed, "tightened_by": typed["by"]})
    if typed["to_yield"]:
        share = yield_answer(joint, read_share(typed["to_yield"]))
        desk.tell(share, lambda: yield_lines(joint, share, typed["unit"]))
        return
    told = left_out(joint, typed)
    if typed["hand"]:
        joint, by_hand = _by_hand(desk, joint, typed["hand"], typed["unit"])
        told = (by_hand, *told)
    published = read_positive(typed["check"], "torque", what="The printed torque") if typed["check"] else None
    answer = torque_answer(joint, told, published, typed["unit"])
    desk.tell(answer, lambda: answer_lines(joint, answer, typed["unit"]))


def _by_hand(desk: Desk, joint: Joint, person: str, unit: str) -> tuple[Joint, str]:
    """Give the joint tightened by a person's own hand, and what that hand does on its thread."""
    from bellcrank.shop.hand import by_own_hand  # noqa: PLC0415  storage imports slowly, and few ask for a hand

    with desk.shop() as shop:
        return by_own_hand(shop, joint, person, unit)
