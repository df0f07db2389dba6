"""A demo shop in a harbour town: three mowers at three stages and two seasons of closed jobs, all of it invented."""

from dataclasses import replace
from datetime import timedelta

from bellcrank.shop.billing import issue_invoice, propose_lines, record_agreement
from bellcrank.shop.demo_past import add_past
from bellcrank.shop.fill_sheet import bench_sheet, job_sheet
from bellcrank.shop.findings import record_finding, record_repair
from bellcrank.shop.hand import record_readings
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import read_record
from bellcrank.shop.release import record_proof
from bellcrank.shop.settings import Settings, read_settings, write_settings
from bellcrank.shop.work import IN, OUT, choose_target, tick, way_for

BY = "Ina"
SETTINGS = {
    "shop_name": "Slipway Small Engines",
    "address": "3 Slipway Lane\nTern Harbour",
    "phone": "555 0142",
    "mechanic": BY,
    "parts_tax": "19",
    "labour_tax": "19",
}
YESTERDAY, THIS_MORNING = timedelta(hours=18), timedelta(hours=2)
STEPS_TICKED = 3  # of the way in to the carburettor, on the machine that is half way

MOORING_RING = Story(
    complaint_words="Ran onto a mooring ring sunk in the quay lawn last week. Since then it throws the cord back now "
    "and then.",
    complaints=("kicks-back",),
    facts={"hit-something": "yes"},
    name="Zofia Łoboda",
    phone="555 0107",
    address="Harbour office, West Quay",
    maker="Ternwick",
    model="Kittiwake 46",
    serial="TK46-01873",
    engine_card="overhead-valve-160",
    agreed_limit="140",
)
STOOD_OVER_WINTER = Story(
    complaint_words="Stood in the boathouse over winter with the tank full. Runs, but the speed goes up and down.",
    complaints=("hunts",),
    facts={"sat-over-winter": "yes"},
    name="王海",
    phone="555 0119",
    maker="Saltmarsh",
    model="Avocet 53",
    serial="SA53-4410",
    engine_card="overhead-valve-190",
    agreed_limit="120",
)
WILL_NOT_STOP = Story(
    complaint_words="The blade goes on turning when the bar is let go. The insurance man saw it.",
    complaints=("wont-stop",),
    name="Ωmega Moorings Ltd",
    phone="555 0163",
    email="yard@omega-moorings.example",
    maker="Brackenholm",
    model="Skua 51",
    serial="BS51-0092",
    engine_card="overhead-valve-160",
    agreed_limit="90",
)
READINGS = {  # of the wrench, on screws tightened by feel
    "M6": ("10.5 N·m", "11 N·m", "10 N·m", "11.5 N·m", "10.5 N·m", "11 N·m"),
    "1/4-20": ("95 in·lb", "100 in·lb", "105 in·lb", "98 in·lb", "102 in·lb"),
    "M8": ("21 N·m", "24 N·m", "22 N·m", "23 N·m", "22 N·m"),
}
GOOD_ANSWERS = {"yes-no": {"answer": "yes"}, "plug-lead-last": {"answer": "yes"}}
TIP_SPEED = {"speed": "3050 rpm", "blade": "510 mm"}
THUMBED_STOP = {"times": "2.8 2.9 2.8", "timing": "stopwatch"}  # too close to 3 s for a thumb: it must be filmed


def load_demo(shop: Shop) -> str:
    """Fill an empty shop with the demo and say so; a shop that has jobs is left alone."""
    bench = bench_sheet(shop)
    if bench.on_the_bench or bench.waiting or bench.ready or bench.gone:
        return "This shop has jobs already, so the demo was not loaded."
    if read_settings(shop) == Settings():
        write_settings(shop, SETTINGS)
    for thread, readings in READINGS.items():
        record_readings(shop, thread, readings, person=BY)
    kind = next(iter(shop.library.packs))
    add_past(shop, kind, BY)
    yesterday, this_morning = _earlier(shop, YESTERDAY), _earlier(shop, THIS_MORNING)
    struck, hunting, running_on = (
        take_in(yesterday, story) for story in (MOORING_RING, STOOD_OVER_WINTER, WILL_NOT_STOP)
    )
    _go_half_way(this_morning, hunting)
    _nearly_finish(this_morning, running_on)
    return f"The demo shop is open with jobs {struck}, {hunting} and {running_on}."


def _earlier(shop: Shop, by: timedelta) -> Shop:
    """Give the same shop with its clock put back."""
    return replace(shop, now=lambda: shop.now() - by)


def _go_half_way(shop: Shop, number: int) -> None:
    record_finding(shop, number, "fuel-look", "sour", BY)
    record_finding(shop, number, "half-choke", "smooth", BY)
    choose_target(shop, number, "carburettor", by=BY)
    _tick(shop, number, IN, at_most=STEPS_TICKED)


def _nearly_finish(shop: Shop, number: int) -> None:
    """Mend the brake and prove all but the blade stop, which a thumb on a stopwatch cannot settle."""
    record_finding(shop, number, "stops-on-release", "late", BY)
    choose_target(shop, number, "brake", by=BY)
    _tick(shop, number, IN)
    record_finding(shop, number, "brake-look", "worn", BY)
    _tick(shop, number, OUT)
    record_repair(shop, number, "flywheel-brake", "cured", BY)
    record_agreement(shop, number, limit="140", how="Ms Roe of the yard, by phone, 555 0163", by=BY)
    propose_lines(shop, number, BY)
    for line in job_sheet(shop, number).release.lines:
        by_item = {"stop-time": THUMBED_STOP, "tip-speed": TIP_SPEED}
        answer = by_item.get(line.id) or GOOD_ANSWERS.get(line.answer)
        if answer:
            record_proof(shop, number, line.id, answer, BY)
    issue_invoice(shop, number, BY)


def _tick(shop: Shop, number: int, direction: str, at_most: int | None = None) -> None:
    way = way_for(shop, read_record(shop, number))
    for operation in way.left(direction)[:at_most] if way else ():
        tick(shop, number, direction, operation, done=True, by=BY)
