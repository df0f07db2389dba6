"""Packs that hang together too tightly."""

import pytest

from bellcrank.bootstrap import open_library
from bellcrank.diagnosis.weighable import too_wide
from bellcrank.stats import weighing

PACKS = open_library().packs.values()


@pytest.mark.parametrize("pack", PACKS, ids=lambda pack: pack.kind)
def test_every_shipped_pack_can_be_weighed_from_every_complaint(pack):
    assert too_wide(pack) == ()


@pytest.mark.parametrize("pack", PACKS, ids=lambda pack: pack.kind)
def test_names_each_complaint_when_the_links_alone_are_too_much(pack, monkeypatch):
    monkeypatch.setattr(weighing, "MOST_OPEN", 0)
    told = too_wide(pack)
    assert len(told) == len(pack.complaints)
    assert "Drop links that are hardly likely" in told[0]
