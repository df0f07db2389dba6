from bellcrank.shop.demo import load_demo
from bellcrank.shop.fill_sheet import bench_sheet, job_sheet
from bellcrank.shop.settings import read_settings, write_settings


def test_the_demo_fills_an_empty_shop(shop):
    assert load_demo(shop) == "The demo shop is open with jobs 201, 202 and 203."
    bench = bench_sheet(shop)
    assert [line.number for line in bench.waiting] == [201]
    assert {line.number for line in bench.on_the_bench} == {202, 203}


def test_loading_it_twice_changes_nothing(shop):
    load_demo(shop)
    before = [job_sheet(shop, number) for number in (201, 202, 203)]
    assert load_demo(shop) == "This shop has jobs already, so the demo was not loaded."
    assert [job_sheet(shop, number) for number in (201, 202, 203)] == before


def test_a_shop_with_a_job_of_its_own_is_left_alone(shop, job):
    load_demo(shop)
    assert [line.number for line in bench_sheet(shop).waiting] == [job]
    assert read_settings(shop).shop_name == "Your shop"


def test_a_shop_that_has_a_name_keeps_it(shop):
    write_settings(shop, {"shop_name": "Ours"})
    load_demo(shop)
    assert read_settings(shop).shop_name == "Ours"


def test_nothing_in_the_demo_happened_after_now(shop):
    load_demo(shop)
    now = shop.now().isoformat()
    for number in (201, 202, 203):
        assert max(line.at for line in job_sheet(shop, number).events) < now
