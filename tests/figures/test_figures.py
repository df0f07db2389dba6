"""What holds for every figure: readable, printable in black, nothing over anything, a text twin, no inline style."""

import re
from itertools import combinations

import pytest

from bellcrank.fastening.clamp_limits import Part
from bellcrank.fastening.joint import Washer
from bellcrank.fastening.strength import Material
from bellcrank.fastening.window import recommend_torque
from bellcrank.figures.joint import joint_figure
from bellcrank.figures.theme import wrapped
from bellcrank.figures.torque_window import torque_window_figure
from bellcrank.sources import Basis
from tests.fastening.joints import CAST, STEEL, joint

from .drawn import SVG, bars, read_svg, refuse_a_muddle, size, texts
from .of_engine import ENGINES
from .others import OTHERS

STRONG = Material("strong", "strong steel", 2000e6, 1200e6, 2000e6, 1.0, Basis.GUESS, "test")

FIGURES = {
    "hex head": torque_window_figure(recommend_torque(joint()), "N·m"),
    "flange head, inch pounds": torque_window_figure(recommend_torque(joint(head="flange")), "in·lb"),
    "short thread": torque_window_figure(recommend_torque(joint(head="flange", engaged=0.005)), "ft·lb"),
    "long thread": torque_window_figure(recommend_torque(joint("M5", engaged=0.05, under_head=STEEL)), "kgf·m"),
    "a nut": torque_window_figure(recommend_torque(joint("5/8-18", into=None, under_head=STEEL)), "in·lb"),
    "by hand": torque_window_figure(recommend_torque(joint("M4", tightened_by="hand feel")), "N·m"),
}
JOINTS = {
    Part.FACE: joint(),
    Part.BOLT: joint("5/8-18", into=None, under_head=STEEL),
    Part.HOLE: joint(head="flange", engaged=0.005),
    Part.OWN_THREAD: joint("M6", into=STRONG, under_head=STRONG, engaged=0.003),
    Part.WASHER: joint(under_head=STEEL, washer=Washer(0.012, 0.0066, 0.0016, CAST)),
    Part.GASKET: joint(most_clamp=1500.0),
    Part.NECK: joint(neck=0.003, under_head=STEEL),
}
SECTIONS = {part: joint_figure(one, recommend_torque(one).limits[0]) for part, one in JOINTS.items()}
SECTIONS["long"] = joint_figure(
    joint("M5", engaged=0.05, under_head=STEEL, head="pan"), recommend_torque(joint("M5", engaged=0.05)).limits[0]
)
FIGURES |= {f"section, {name}": drawn for name, drawn in SECTIONS.items()} | OTHERS | ENGINES


@pytest.fixture(params=FIGURES, scope="module")
def figure(request):
    return FIGURES[request.param]


def test_no_words_lie_over_other_words(figure):
    for one, other in combinations(texts(figure), 2):
        assert not one.meets(other), f"{one.words} over {other.words}"


def test_no_words_lie_over_a_bar(figure):
    for one in texts(figure):
        for bar in bars(figure):
            assert not one.meets(bar), f"{one.words} over a bar"


def test_everything_is_inside_the_drawing(figure):
    width, height = size(figure)
    for one in (*texts(figure), *bars(figure)):
        assert one.left >= 0, one
        assert one.right <= width, one
        assert one.top >= 0, one
        assert one.bottom <= height, one


@pytest.mark.parametrize("name", [*SECTIONS, *OTHERS, *ENGINES])
def test_no_line_runs_through_words_and_no_leads_cross(name):
    refuse_a_muddle((SECTIONS | OTHERS | ENGINES)[name])


def test_the_letters_keep_their_size_on_a_phone(figure):
    width, _ = size(figure)
    sizes = [float(one.get("font-size")) * 390 / width for one in read_svg(figure).iter(f"{SVG}text")]
    assert min(sizes) >= 16


def test_a_screen_reader_gets_a_title_and_a_text_twin(figure):
    root = read_svg(figure)
    title, told = root[0], root[1]
    assert (title.tag, told.tag) == (f"{SVG}title", f"{SVG}desc")
    assert title.text
    assert told.text
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == f"{title.get('id')} {told.get('id')}"


def test_the_security_policy_of_the_page_lets_it_through(figure):
    assert not re.search(r"style=|<style|<script|\son\w+=|href", figure)


def test_it_prints_in_black(figure):
    colours = set(re.findall(r'(?:fill|stroke)="([^"]+)"', figure))
    assert colours <= {"currentColor", "none"}


def test_the_torque_figure_states_the_finding():
    root = read_svg(FIGURES["hex head"])
    assert root[0].text.replace("\u00a0", " ") == "The die-cast aluminium under the head limits this joint to 6.4 N·m"
    assert "the bolt itself" in root[1].text


def test_the_governing_limit_is_the_one_in_full_ink():
    window = recommend_torque(joint())
    names = ("drawn-governs", "drawn-limit")
    drawn = [one for one in read_svg(FIGURES["hex head"]).iter(f"{SVG}rect") if one.get("class") in names]
    assert [one.get("class") for one in drawn] == [names[0]] + [names[1]] * (len(window.limits) - 1)
    assert [one.get("fill") for one in drawn] == ["currentColor"] + ["none"] * (len(window.limits) - 1)


def test_the_longer_bar_is_the_higher_limit():
    lengths = [one.right for one in bars(FIGURES["hex head"]) if one.words in ("drawn-governs", "drawn-limit")]
    assert lengths == sorted(lengths)


def test_two_figures_on_a_page_have_their_own_ids():
    window = recommend_torque(joint(under_head=CAST))
    assert 'id="blade-t"' in torque_window_figure(window, "N·m", "blade")


def test_a_long_word_stands_on_a_line_of_its_own():
    assert wrapped("a " + "m" * 60 + " b") == ("a", "m" * 60, "b")


@pytest.mark.parametrize("part", JOINTS)
def test_the_section_puts_the_part_that_limits_into_full_ink_and_names_it(part):
    root = read_svg(SECTIONS[part])
    limit = recommend_torque(JOINTS[part]).limits[0]
    assert limit.part is part
    assert root[0].text == f"The limit here: {limit.words}"
    assert root[1].text.endswith(f"because it limits the joint: {limit.words}.")
    inked = [one for one in root.iter(f"{SVG}path") if one.get("fill") == "currentColor"]
    assert inked
    assert {one.get("class") for one in inked} == {"drawn-governs"}
    named = [one.text for one in root.iter(f"{SVG}text") if one.get("x") == "238" and one.get("font-weight") == "bold"]
    assert " ".join(named) == f"Limit: {part}"


@pytest.mark.parametrize("name", SECTIONS)
def test_the_section_leaves_the_names_clear(name):
    root = read_svg(SECTIONS[name])
    width, height = size(SECTIONS[name])
    for one in root.iter(f"{SVG}path"):
        numbers = [float(each) for each in re.findall(r"-?[0-9.]+", one.get("d"))]
        assert min(numbers) >= 0
        assert max(numbers) <= max(width, height)
        if one.get("class") != "drawn-lead":
            places = re.findall(r"[MLH](-?[0-9.]+)", one.get("d"))
            assert max(map(float, places)) < 238
