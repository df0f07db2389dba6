"""Where numbers come from."""

import pytest

from bellcrank.sources import Basis, Source, Status


def test_a_basis_is_spelt_as_it_is_shown():
    assert [str(one) for one in Basis] == ["published", "table", "computed", "own shop", "guess"]


def test_a_status_is_read_from_the_words_in_a_pack():
    assert Status("common practice, no source") is Status.COMMON_PRACTICE


def test_an_unknown_basis_is_no_basis():
    with pytest.raises(ValueError, match="hearsay"):
        Basis("hearsay")


def test_a_source_cannot_be_changed_after_it_was_read():
    source = Source("h28", "FED-STD-H28/2B", "Table II.B.1", Status.VERIFIED)
    with pytest.raises(AttributeError):
        source.status = Status.FROM_MEMORY
