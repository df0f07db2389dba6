"""The release decision: hard items block, soft ones are noted, touching something opens its items again."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from bellcrank.handback.release import Answer, decide
from bellcrank.handback.triggers import asked, of_kind
from bellcrank.knowledge.pack import read_library

ITEMS = of_kind(read_library().release_items, "walk-behind-mower")
GOOD = {
    "yes-no": {"answer": "yes"},
    "plug-lead-last": {"answer": "yes"},
    "stop-time": {"times": "2.1 2.2 2.1", "timing": "video-30"},
    "tip-speed": {"speed": "3000 rpm", "blade": "460 mm"},
    "blade-bolt-torque": {"torque": "48 N·m"},
}


def all_good(lines, order=100):
    return {line.item.id: Answer(GOOD[line.item.answer], order) for line in lines}


def test_everything_proven_is_ready():
    lines = asked(ITEMS, ("always", "strike"))
    decision = decide(lines, all_good(lines), {})
    assert decision.ready
    assert decision.blocking == ()


def test_after_a_strike_crank_key_adapter_and_mounts_are_asked():
    # Gate G4 of the release list: common practice, no source.
    asked_for = {line.item.id for line in asked(ITEMS, ("always", "strike"))}
    assert {"crank-straight", "flywheel-key", "blade-adapter", "mounts-deck-belt"} <= asked_for
    assert "crank-straight" not in {line.item.id for line in asked(ITEMS, ("always",))}


def test_one_open_hard_item_blocks_and_says_which():
    lines = asked(ITEMS, ("always",))
    answers = all_good(lines)
    del answers["stop-time"]
    decision = decide(lines, answers, {})
    assert not decision.ready
    assert len(decision.blocking) == 1
    assert "Blade stops in time?" in decision.blocking[0]
    assert "not looked at yet" in decision.blocking[0]


def test_an_undecided_stop_blocks_like_a_failed_one():
    lines = asked(ITEMS, ("always",))
    answers = all_good(lines) | {"stop-time": Answer({"times": "2.8 2.8 2.8", "timing": "stopwatch"}, 100)}
    assert not decide(lines, answers, {}).ready


def test_a_failed_soft_item_is_a_note():
    lines = asked(ITEMS, ("always",))
    answers = all_good(lines) | {"label": Answer({"answer": "no"}, 100)}
    decision = decide(lines, answers, {})
    assert decision.ready
    assert "DANGER label" in decision.notes[0]


def test_taking_the_blade_off_again_opens_the_stop_test():
    lines = asked(ITEMS, ("always", "blade"))
    answers = all_good(lines, order=10)
    assert decide(lines, answers, {"blade": 5}).ready
    again = decide(lines, answers, {"blade": 11})
    assert not again.ready
    assert any("Blade stops in time?" in one and "then touched: blade" in one for one in again.blocking)


def test_guards_looked_at_after_the_lead_went_on_open_lead_last():
    # Gate G12 of the release list: the lead goes on after the guards; common practice, no source.
    lines = asked(ITEMS, ("always",))
    answers = all_good(lines, order=10)
    assert decide(lines, answers, {}).ready
    later = answers | {"guards": Answer({"answer": "yes"}, 11)}
    again = decide(lines, later, {})
    assert not again.ready
    assert [one for one in again.blocking if "plug lead on last" in one and "then touched: guards" in one]


def test_answering_the_governor_item_does_not_count_as_touching_the_governor():
    lines = asked(ITEMS, ("always", "governor"))
    answers = all_good(lines, order=10) | {"governor": Answer({"answer": "yes"}, 11)}
    assert decide(lines, answers, {"governor": 5}).ready


@given(st.sets(st.sampled_from([item.id for item in ITEMS if item.hard and "always" in item.triggers]), min_size=1))
def test_no_set_of_open_hard_items_is_ever_ready(missing):
    lines = asked(ITEMS, ("always",))
    answers = {name: answer for name, answer in all_good(lines).items() if name not in missing}
    decision = decide(lines, answers, {})
    assert not decision.ready
    assert len(decision.blocking) == len(missing)


def test_soft_items_alone_never_block():
    lines = tuple(replace(line, item=replace(line.item, hard=False)) for line in asked(ITEMS, ("always",)))
    assert decide(lines, {}, {}).ready


def test_the_list_is_worked_from_top_to_bottom_what_runs_the_engine_last():
    runs = [item.runs_engine for item in ITEMS]
    assert runs == sorted(runs)
