"""The house's own rules that no linter sees."""

import ast
import hashlib
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "bellcrank"
MODULES = sorted(SOURCE.rglob("*.py"))
LONGEST_FILE = 300
OPENS = {
    "open",
    "read_text",
    "read_bytes",
    "write_text",
    "write_bytes",
    "files",
    "iterdir",
    "glob",
    "loadtxt",
    "fromfile",
}


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.relative_to(SOURCE)))
def test_a_file_is_one_thing_you_could_point_at(module):
    assert len(module.read_text(encoding="utf-8").splitlines()) <= LONGEST_FILE


def test_only_the_pack_reader_opens_files_below_the_shop():
    pure = (
        "quote",
        "handback",
        "diagnosis",
        "teardown",
        "knowledge",
        "figures",
        "fastening",
        "cutting",
        "engine",
        "measuring",
    )
    allowed = {SOURCE / "knowledge" / name for name in ("pack.py", "tables.py", "slip_tables.py")}
    for module in MODULES:
        if module.relative_to(SOURCE).parts[0] in (*pure, "stats") and module not in allowed:
            calls = [node.func for node in ast.walk(ast.parse(module.read_text())) if isinstance(node, ast.Call)]
            named = {
                one.id if isinstance(one, ast.Name) else one.attr
                for one in calls
                if hasattr(one, "id") or hasattr(one, "attr")
            }
            assert not named & OPENS, module


def test_files_that_are_not_ours_are_what_they_were():
    static = SOURCE / "web" / "static"
    listed = {one["name"]: one["sha256"] for one in tomllib.loads((static / "vendor.toml").read_text())["file"]}
    for name, checksum in listed.items():
        assert hashlib.sha256((static / name).read_bytes()).hexdigest() == checksum, name
    assert {path.name for path in static.glob("*.woff2")} <= set(listed)


def test_both_locks_agree_and_every_line_is_hashed():
    def pins(name):
        text = (ROOT / name).read_text()
        assert text.count("--hash=") >= len(re.findall(r"^[a-z0-9].*==", text, re.M)), name
        return set(re.findall(r"^([A-Za-z0-9_.-]+==[^ \\;]+)", text, re.M))

    assert pins("requirements.lock") <= pins("requirements-dev.lock")


def test_the_command_line_starts_light():
    heavy = ["numpy", "sqlalchemy", "fastapi", "starlette", "jinja2", "alembic", "typst", "PIL", "uvicorn", "pydantic"]
    code = f"import bellcrank.cli.main, sys; print([m for m in {heavy} if m in sys.modules])"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"


@pytest.mark.parametrize(
    "typed",
    [
        ["torque", "--thread", "M6"],
        ["strip", "--thread", "M6", "--engaged", "10mm", "--into", "zinc"],
        ["taper", "--ratio", "1:8", "--mean-diameter", "22mm", "--length", "25mm", "--nut-force", "25kN"],
        ["key", "606", "--shaft", "20mm"],
    ],
    ids=lambda typed: typed[0],
)
def test_a_number_without_a_job_opens_no_storage(typed):
    code = (
        "import sys\nfrom bellcrank.cli.main import main\n"
        f"try: main({typed!r})\nexcept SystemExit as left: assert not left.code\n"
        "assert not {'sqlalchemy', 'alembic', 'fastapi', 'scipy'} & set(sys.modules), sorted(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)


def test_opening_the_shop_leaves_web_and_migrations_alone(tmp_path):
    code = (
        "from pathlib import Path; import sys; from bellcrank.bootstrap import open_shop;"
        f"open_shop(Path({str(tmp_path / 'shop')!r})).close();"
        "print([m for m in ('alembic', 'fastapi', 'click', 'scipy') if m in sys.modules])"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"


def test_every_room_stands_in_the_map():
    text = (ROOT / "ARCHITECTURE.md").read_text(encoding="utf-8")
    rooms = {path.name for path in SOURCE.iterdir() if path.is_dir() and not path.name.startswith("_")}
    rooms |= {path.name for path in SOURCE.glob("*.py") if not path.name.startswith("_")}
    for room in rooms:
        assert re.search(rf"`{re.escape(room)}(/[^`]*)?`", text), room


def test_nothing_in_the_repo_names_a_machine_or_a_registry():
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True).stdout.split()
    pattern = re.compile(r"/(?:work|root|tmp)/|/home/[a-z]+/|https?://[^ )]*(?:pypi|npmjs)\.")
    skipped = (".ttf", ".woff2", ".png", ".pdf", ".lock", ".min.js")
    for name in listed:
        path = ROOT / name
        if path.is_file() and not name.endswith(skipped) and path != Path(__file__):
            assert not pattern.search(path.read_text(encoding="utf-8", errors="ignore")), name
