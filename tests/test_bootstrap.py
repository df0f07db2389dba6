import subprocess
import sys
from datetime import UTC, datetime

import pytest

from bellcrank.bootstrap import open_shop
from bellcrank.errors import StorageFault
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.intake import Story, take_in

HEAVY = ("alembic", "fastapi", "starlette", "jinja2", "pydantic", "PIL", "typst", "scipy", "sqlalchemy.orm")


def test_opens_a_new_shop_in_a_new_folder(tmp_path):
    shop = open_shop(tmp_path / "a" / "b")
    assert take_in(shop, Story(complaint_words="won't start")) == 201
    shop.close()


def test_opens_the_shop_again_where_it_was_left(tmp_path):
    shop = open_shop(tmp_path)
    number = take_in(shop, Story(complaint_words="won't start", name="王海"))
    shop.close()
    again = open_shop(tmp_path)
    assert job_sheet(again, number).customer.name == "王海"
    again.close()


def test_two_open_shops_on_one_folder_see_each_other(tmp_path):
    bench, desk = open_shop(tmp_path), open_shop(tmp_path)
    assert take_in(bench, Story(complaints=("hunts",))) == 201
    assert take_in(desk, Story(complaints=("hunts",))) == 202
    assert job_sheet(bench, 202).number == 202
    bench.close()
    desk.close()


def test_the_clock_is_the_one_handed_in(tmp_path):
    shop = open_shop(tmp_path, now=lambda: datetime(2031, 5, 6, tzinfo=UTC))
    assert job_sheet(shop, take_in(shop, Story(complaints=("hunts",)))).taken_in_at.startswith("2031-05-06")
    shop.close()


def test_a_folder_that_cannot_be_used_is_refused_in_words(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(StorageFault, match="Start with a folder you may write to"):
        open_shop(tmp_path / "file")


def test_opening_the_shop_waits_for_nothing_it_does_not_need(tmp_path):
    program = (
        "import sys; from pathlib import Path; from bellcrank.bootstrap import open_shop; "
        f"open_shop(Path({str(tmp_path)!r})); print([name for name in {HEAVY!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
