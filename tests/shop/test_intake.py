import subprocess
import sys

import pytest

from bellcrank.errors import NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.fill_sheet import bench_sheet, job_sheet
from bellcrank.shop.intake import Story, suggest_complaints, take_in
from bellcrank.shop.settings import write_settings


def test_the_complaint_alone_makes_a_numbered_job(shop):
    assert take_in(shop, Story(complaint_words="makes a noise")) == 201


def test_numbers_follow_each_other(shop):
    assert [take_in(shop, Story(complaints=("hunts",))) for _ in range(3)] == [201, 202, 203]


def test_the_sheet_tells_the_story_as_it_was_told(shop):
    number = take_in(
        shop,
        Story(
            complaint_words="throws the cord back",
            complaints=("kicks-back",),
            facts={"hit-something": "yes"},
            name="Zofia Wałęsa",
            phone="555 0100",
            maker="Harrow & Tarn",
            model="Tern 46",
            serial="HT-0046",
            agreed_limit="120",
        ),
    )
    sheet = job_sheet(shop, number)
    assert (sheet.state, sheet.complaint_words) == ("waiting", "throws the cord back")
    assert sheet.customer.name == "Zofia Wałęsa"
    assert sheet.machine.words == "Harrow & Tarn Tern 46 walk-behind mower"
    assert sheet.facts == ("hit something: yes",)
    assert str(sheet.price.agreed_limit) == "120"


def test_refuses_a_story_without_a_complaint_and_makes_no_job(shop):
    with pytest.raises(NotUnderstood, match="The complaint is missing") as refusal:
        take_in(shop, Story(name="Ola", complaint_words=" \n "))
    assert refusal.value.field == "complaint_words"
    assert bench_sheet(shop).waiting == ()


def test_words_that_name_a_complaint_are_taken_as_it(shop):
    number = take_in(shop, Story(complaint_words="It will not start since Sunday"))
    assert job_sheet(shop, number).complaints == ("won't start",)


def test_words_that_name_no_complaint_make_a_job_that_asks_for_one(shop):
    sheet = job_sheet(shop, take_in(shop, Story(complaint_words="it is poorly")))
    assert (sheet.complaints, sheet.next, sheet.causes) == ((), (), ())


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        ("It leaks fuel on the garage floor", "fuel-leak"),
        ("it won't drive, the belt slips", "wont-drive"),
        ("uses oil, leaks some too", "uses-oil"),
        ("vibrates", "vibrates"),
    ],
)
def test_a_leak_and_a_drive_are_known_by_their_words(shop, words, complaint):
    assert suggest_complaints(shop.library.packs["walk-behind-mower"], words) == (complaint,)


@pytest.mark.parametrize("words", ["", "the cat sat on the mat", "王"])
def test_nothing_is_guessed_from_other_words(shop, words):
    assert suggest_complaints(shop.library.packs["walk-behind-mower"], words) == ()


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        ("saw bogs", "bogs"),
        ("Bogged down in the first cut", "bogs"),
        ("the chain turns at idle", "turns-at-idle"),
        ("head turning at idle!", "turns-at-idle"),
        ("Chain runs dry since Monday", "oils-badly"),
        ("stopped when it was hot", "stops-hot"),
        ("cord won't go back", "cord-wont-pull"),
        ("it will not stop", "wont-stop"),
    ],
)
def test_finds_the_complaint_of_a_saw_in_her_words(shop, words, complaint):
    assert suggest_complaints(shop.library.packs["two-stroke-handheld"], words) == (complaint,)


@pytest.mark.parametrize("words", ["nothing but noise", "the cord is blue", "chain is new", "won't"])
def test_half_of_a_complaint_s_words_is_not_the_complaint(shop, words):
    assert suggest_complaints(shop.library.packs["two-stroke-handheld"], words) == ()


def test_what_a_mower_never_does_is_not_found_for_a_mower(shop):
    assert suggest_complaints(shop.library.packs["walk-behind-mower"], "saw bogs") == ()


def test_a_saw_is_taken_in_with_its_own_complaints_and_facts(shop):
    told = Story(complaint_words="saw bogs", kind="two-stroke-handheld", facts={"which-machine": "saw"})
    sheet = job_sheet(shop, take_in(shop, told))
    assert sheet.machine.words == "Two-stroke hand-held"
    assert sheet.complaints == ("bogs: no power on the throttle",)
    assert sheet.facts == ("which machine: saw",)


def test_a_fact_of_another_kind_of_machine_is_refused(shop):
    with pytest.raises(NotFound, match="There is no fact “tipped-over”"):
        take_in(shop, Story("saw bogs", kind="two-stroke-handheld", facts={"tipped-over": "yes"}))


@pytest.mark.parametrize(
    ("story", "match"),
    [
        (Story(complaints=("sings",)), "There is no complaint “sings”"),
        (Story(complaints=("hunts",), facts={"shoe-size": "yes"}), "There is no fact “shoe-size”"),
        (Story(complaints=("hunts",), facts={"hit-something": "maybe"}), "does not answer"),
        (Story(complaints=("hunts",), kind="submarine"), "There is no kind of machine “submarine”"),
        (Story(complaints=("hunts",), engine_card="v12"), "There is no engine card “v12”"),
    ],
)
def test_refuses_what_is_not_known_and_names_what_is(shop, story, match):
    with pytest.raises(NotFound, match=match):
        take_in(shop, story)


@pytest.mark.parametrize("field", ["name", "phone", "email", "address", "maker", "model", "serial"])
def test_refuses_half_a_letter_at_its_field(shop, field):
    with pytest.raises(NotUnderstood, match="half a letter") as refusal:
        take_in(shop, Story(complaints=("hunts",), **{field: "\ud800"}))
    assert refusal.value.field == field


def test_a_hostile_name_is_kept_as_the_letters_it_is(shop):
    name = "Robert'); DROP TABLE job;-- <script>alert(1)</script>"
    number = take_in(shop, Story(complaints=("hunts",), name=f"\x00{name}\x1b"))
    assert job_sheet(shop, number).customer.name == name


def test_refuses_a_story_longer_than_a_letter(shop):
    with pytest.raises(OutOfRange, match="4000 at most"):
        take_in(shop, Story(complaint_words="x" * 4001))


@pytest.mark.parametrize("limit", ["-5", "lots", "1.200"])
def test_refuses_a_limit_that_cannot_be_read_and_makes_no_job(shop, limit):
    with pytest.raises((NotUnderstood, OutOfRange)) as refusal:
        take_in(shop, Story(complaints=("hunts",), agreed_limit=limit))
    assert refusal.value.field == "agreed_limit"
    assert bench_sheet(shop).waiting == ()


def test_no_limit_is_no_agreement(shop):
    assert job_sheet(shop, take_in(shop, Story(complaints=("hunts",), agreed_limit=" "))).price.agreed_limit is None


def test_what_was_told_is_signed_by_the_mechanic_of_the_settings(shop):
    write_settings(shop, {"mechanic": "Ina"})
    assert {event.by for event in job_sheet(shop, take_in(shop, Story(complaints=("hunts",)))).events} == {"Ina"}


TAKE_IN_MANY = """
import sys
from pathlib import Path
from bellcrank.bootstrap import open_shop
from bellcrank.shop.intake import Story, take_in

shop = open_shop(Path(sys.argv[1]))
sys.stdin.readline()
for _ in range(10):
    print(take_in(shop, Story(complaints=("hunts",))))
"""


def test_two_programs_that_take_machines_in_at_once_give_no_number_twice(shop):
    command = [sys.executable, "-c", TAKE_IN_MANY, str(shop.folder)]
    doors = [subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) for _ in range(2)]
    for door in doors:
        door.stdin.write("go\n")
        door.stdin.flush()
    numbers = [int(line) for door in doors for line in door.communicate()[0].split()]
    assert sorted(numbers) == list(range(201, 221))
