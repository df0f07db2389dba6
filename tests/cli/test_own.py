"""``bellcrank own``."""

import json

import pytest


@pytest.fixture
def demo(run):
    assert run("take-in", "won't start", "--name", "Ola Quay").code == 0
    return run


def test_something_else_is_recorded_and_listed(demo):
    told = demo("own", "cause", "201", "mouse nest", "--minutes", "20", "--access", "shroud-off")
    assert "Put right: mouse nest” cured it" in told.out
    listed = demo("own", "list").out
    assert listed.startswith("cause mouse nest\n  Counts as 1.7 in 100 of “won't start”.")
    entry = json.loads(demo("own", "list", "--json").out)["entries"][0]
    assert (entry["name"], entry["what"], entry["job"], entry["stands"]) == ("own-mouse-nest", "cause", 201, True)


def test_a_check_is_kept_changed_taken_back_and_written(demo, tmp_path):
    told = demo("own", "check", "201", "Mirror", "--shows", "coil-dead=hardly", "--tools", "mirror")
    assert "hardly as “yes”" in told.out
    assert "Takes: torch" in demo("own", "change", "own-mirror", "--tools", "torch").out
    changed = demo("own", "change", "own-mirror", "--shows", "coil-dead=nearly-always:no", "--result", "fine",
                   "--result", "no")  # fmt: skip
    assert "nearly always as “no”" in changed.out
    out = tmp_path / "written"
    assert "checks.csv" in demo("own", "export", "--out", str(out)).out
    assert (out / "walk-behind-mower" / "checks.csv").read_text().startswith("id,kind,words")
    assert "(taken back)" in demo("own", "take-back", "own-mirror").out


def test_what_does_not_go_together_is_refused(demo, refused):
    assert "do not go together" in refused("own", "cause", "201", "x", "--explains", "a", "--explains-nothing")
    assert "no kind of machine “boat”" in refused("own", "list", "--kind", "boat")
    assert "no own entry “own-x”" in refused("own", "take-back", "own-x")
    assert "nothing to write" in refused("own", "export")
    assert "shows no cause" in refused("own", "check", "201", "Mirror")
