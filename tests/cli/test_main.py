"""The command as a whole: quick to answer, complete in its help, and never a traceback."""

import json
import os
import subprocess
import sys
from pathlib import Path

import click
import pytest
from tests.cli.conftest import Run

from bellcrank.cli import jobs, refusals
from bellcrank.cli.main import COMMANDS, bellcrank_command

SLOW_TO_IMPORT = ("numpy", "scipy", "fastapi", "starlette", "sqlalchemy", "alembic", "jinja2", "typst", "PIL", "segno")
MODULES_AT_MOST = 220  # of 147 counted on CPython 3.13; a slow library brings hundreds


def whole_process(*words: str, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "bellcrank", *words],
        check=False,
        capture_output=True,
        timeout=60,
        env={**os.environ, **environment},
    )


@pytest.mark.parametrize("option", ["--help", "--version"])
def test_help_and_version_load_nothing_slow(option: str) -> None:
    script = (
        "import sys\nfrom bellcrank.cli.main import main\n"
        f"try:\n    main([{option!r}])\nfinally:\n    print('\\n'.join(sys.modules), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", script], check=True, capture_output=True, text=True, timeout=60)
    loaded = done.stderr.split()
    assert not set(SLOW_TO_IMPORT) & set(loaded)
    assert len(loaded) <= MODULES_AT_MOST


def test_help_lists_every_command_in_the_order_of_the_work(run: Run) -> None:
    outcome = run("--help")
    assert outcome.code == 0
    listed = [line.split()[0] for line in outcome.out.split("order of the work:")[1].splitlines() if line[:2] == "  "]
    assert [word for word in listed if word in COMMANDS] == list(COMMANDS)


def test_no_words_at_all_show_the_help(run: Run) -> None:
    outcome = run()
    assert outcome.code == 0
    assert "take-in" in outcome.out


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_its_own_help(run: Run, name: str) -> None:
    outcome = run(name, "--help")
    assert outcome.code == 0
    assert f"Usage: bellcrank {name}" in outcome.out


@pytest.mark.parametrize("name", [name for name in COMMANDS if name != "open"])
def test_every_command_answers_as_json_when_asked(name: str) -> None:
    command = bellcrank_command.get_command(None, name)  # type: ignore[arg-type]
    assert command is not None
    for one in command.commands.values() if isinstance(command, click.Group) else (command,):
        assert {"--json", "--data", "--debug"} <= {option for parameter in one.params for option in parameter.opts}


def test_the_data_folder_may_be_named_before_or_after_the_command(run: Run, tmp_path: Path) -> None:
    for words in (("--data", str(tmp_path / "a"), "jobs"), ("jobs", "--data", str(tmp_path / "b"))):
        assert run(*words).code == 0
    assert (tmp_path / "a" / "shop.db").exists()
    assert (tmp_path / "b" / "shop.db").exists()
    assert not (tmp_path / "shop").exists()


def test_what_breaks_inside_is_one_sentence_and_a_log(
    run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def break_down(_: object) -> None:
        raise ZeroDivisionError("the inside")

    monkeypatch.setattr(jobs, "bench_sheet", break_down)
    outcome = run("jobs")
    assert outcome.code == refusals.BROKEN
    assert outcome.err.startswith("Something broke inside Bellcrank")
    assert "Traceback" not in outcome.everything
    assert "ZeroDivisionError: the inside" in (tmp_path / "shop" / "bellcrank.log").read_text("utf-8")
    assert "error" in json.loads(run("jobs", "--json").out)
    assert "ZeroDivisionError: the inside" in run("jobs", "--debug").err


def test_a_log_that_cannot_be_written_is_said_so(run: Run, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    sentence = " ".join(run("jobs", "--data", str(tmp_path / "file" / "below")).err.split())
    assert sentence
    assert "Traceback" not in sentence


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("jbos",), "There is no command “jbos”. Did you mean “jobs”? See “bellcrank --help”."),
        (("jobs", "--jsno"), "“bellcrank jobs” has no option --jsno. Did you mean “--json”?"),
        (("job",), "“bellcrank job” needs NUMBER. See “bellcrank job --help”."),
        (("next", "1", "2"), "Got unexpected extra argument (2). See “bellcrank next --help”."),
        (("steps", "1", "--to"), "The option --to of “bellcrank steps” needs a value after it."),
        (("steps", "1", "--direction", "up"), "--direction [in|out]: 'up' is not one of 'in', 'out'."),
        (("open", "--port", "0"), "--port NUMBER: 0 is not in the range 1<=x<=65535."),
    ],
)
def test_what_the_command_line_cannot_read_is_said_in_plain_words(
    refused: Run, words: tuple[str, ...], sentence: str
) -> None:
    assert sentence in str(refused(*words))


@pytest.mark.parametrize("encoding", ["ascii", "cp437", "latin-1"])
def test_a_terminal_without_our_letters_is_written_to_all_the_same(tmp_path: Path, encoding: str) -> None:
    done = whole_process("take-in", "won't start", "--name", "Wałęsa 王", "--data", str(tmp_path))
    assert done.returncode == 0
    shown = whole_process("job", "201", "--data", str(tmp_path), PYTHONIOENCODING=encoding, PYTHONUTF8="0")
    assert shown.returncode == 0, shown.stderr
    assert b"Traceback" not in shown.stderr
    assert "Wa" in shown.stdout.decode(encoding)
    as_json = whole_process("job", "201", "--json", "--data", str(tmp_path), PYTHONIOENCODING=encoding, PYTHONUTF8="0")
    assert json.loads(as_json.stdout.decode(encoding))["customer"]["name"] == "Wałęsa 王"


@pytest.mark.parametrize("name", ["handback", "torque"])
def test_help_is_shown_where_quotation_marks_are_unknown(name: str) -> None:
    done = whole_process(name, "--help", PYTHONIOENCODING="latin-1", PYTHONUTF8="0")
    assert done.returncode == 0, done.stdout
    assert done.stdout.decode("latin-1").startswith(f"Usage: bellcrank {name}")


def test_a_pipe_that_closes_early_is_no_trouble(tmp_path: Path) -> None:
    ask = [sys.executable, "-m", "bellcrank", "torque", "--thread", "M8", "--json", "--data", str(tmp_path)]
    with subprocess.Popen(ask, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        complaints = process.stderr.read()
    assert complaints == b""


def test_python_can_run_it_as_a_module() -> None:
    assert whole_process("--version").stdout.startswith(b"bellcrank ")
