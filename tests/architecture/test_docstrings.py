"""Every physics function says what it takes and gives, with units, and where it is from."""

import inspect
import re

import pytest

from .physics import physics_functions

SECTION = re.compile(r"^(\w+)\n-+\n", re.MULTILINE)
ENTRY = re.compile(r"^(\w+) : .+\n((?: {4}.+\n?)+)", re.MULTILINE)
UNIT = re.compile(r"\[[^\[\]]+\]$")


def sections(function):
    parts = SECTION.split(inspect.getdoc(function) or "")
    return dict(zip(parts[1::2], parts[2::2], strict=True))


@pytest.mark.parametrize("function", physics_functions(), ids=lambda one: f"{one.__module__}.{one.__name__}")
class TestAPhysicsFunction:
    def test_documents_its_arguments_in_order_each_with_a_unit(self, function):
        entries = ENTRY.findall(sections(function).get("Parameters", ""))
        assert [name for name, _ in entries] == list(inspect.signature(function).parameters)
        for name, description in entries:
            assert UNIT.search(description.strip()), f"{name} has no unit"

    def test_gives_its_value_with_a_unit(self, function):
        assert UNIT.search(sections(function).get("Returns", "").strip())

    def test_says_where_it_is_from(self, function):
        assert sections(function).get("References", "").strip()

    def test_has_an_example_to_check_by_hand(self, function):
        assert ">>> " in sections(function).get("Examples", "")


def test_the_physics_is_found_at_all():
    assert len(physics_functions()) > 20
