from dataclasses import replace

import numpy as np
import pytest

from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.counted import Terms, counted, tried
from bellcrank.diagnosis.network import compile_pack
from bellcrank.knowledge.model import RepairPart

from .small_pack import COMPILED, cause, pack_of, repair


def tried_after(*events):
    return tried(COMPILED, Case(("wont-start",), events))


def test_a_repair_that_was_tried_is_not_counted_on_again():
    case = Case(("wont-start",), (Repaired("mend-plug", "not-cured"),))
    names = [one.id for one in COMPILED.pack.repairs]
    assert [names[place] for place in np.flatnonzero(counted(COMPILED, case).used)] == ["mend-plug"]


def test_a_repair_that_was_done_but_not_tried_may_still_be_the_cure():
    assert tried_after(Repaired("mend-plug", "not-tried")) == {}


def test_the_next_start_tries_all_that_was_done_before_it():
    done = tried_after(Repaired("mend-plug", "not-tried"), Repaired("mend-coil", "not-cured"))
    assert done == {"mend-plug": False, "mend-coil": False}


@pytest.mark.parametrize(
    ("result", "shows"),
    [
        ("r1", True),  # off: shows a sheared key more often (.97) than a machine without fault (.02)
        ("r0", False),
        ("not-sure", False),
    ],
)
def test_a_finding_since_may_show_that_it_was_not_done_right(result, shows):
    assert tried_after(Repaired("mend-key", "not-cured"), Found("key-look", result)) == {"mend-key": shows}
    assert tried_after(Found("key-look", result), Repaired("mend-key", "not-cured")) == {"mend-key": False}


def with_a_part(price):
    mend = replace(repair("mend", {"a": 1.0}, 10.0), parts=(RepairPart("part", price),))
    return compile_pack(pack_of(causes=(cause("a", "a", {"wont-start": 0.5}),), repairs=(mend,), minutes_per_price=2.0))


def test_parts_count_as_the_minutes_the_shop_works_for_them():
    # By hand: 10 min, a minute to start it, a part of 7; the pack counts 2 min for a coin, this shop 1.5.
    compiled = with_a_part("7.00")
    assert counted(compiled).minutes.tolist() == [11.0 + 14.0]
    assert counted(compiled, terms=Terms(minutes_per_price=1.5)).minutes.tolist() == [11.0 + 10.5]
    assert (counted(compiled).work.tolist(), counted(compiled).parts.tolist()) == ([11.0], [7.0])


def test_what_the_machine_is_worth_takes_the_place_of_the_minutes_for_giving_up():
    assert counted(COMPILED).give_up == 150.0
    assert counted(COMPILED, terms=Terms(worth_minutes=90.0)).give_up == 90.0
