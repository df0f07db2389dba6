"""What holds for every figure: readable, printable in black, nothing over anything, a text twin, no inline style."""

import re
from itertools import combinations

import pytest

from bellcrank.fastening.window import recommend_torque
from bellcrank.figures.theme import wrapped
from bellcrank.figures.torque_window import torque_window_figure
from tests.fastening.joints import CAST, STEEL, joint

from .drawn import SVG, bars, read_svg, size, texts

FIGURES = {
    "hex head": torque_window_figure(recommend_torque(joint()), "N·m"),
    "flange head, inch pounds": torque_window_figure(recommend_torque(joint(head="flange")), "in·lb"),
    "short thread": torque_window_figure(recommend_torque(joint(head="flange", engaged=0.005)), "ft·lb"),
    "long thread": torque_window_figure(recommend_torque(joint("M5", engaged=0.05, under_head=STEEL)), "kgf·m"),
    "a nut": torque_window_figure(recommend_torque(joint("5/8-18", into=None, under_head=STEEL)), "in·lb"),
    "by hand": torque_window_figure(recommend_torque(joint("M4", tightened_by="hand feel")), "N·m"),
}


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
