"""Errors: one family, each with a sentence for the bench."""

import pytest

from bellcrank.errors import (
    BellcrankError,
    KnowledgeFault,
    NotAllowedNow,
    NotFound,
    NotUnderstood,
    OutOfRange,
    StorageFault,
)


@pytest.mark.parametrize("kind", [NotUnderstood, OutOfRange, NotFound, NotAllowedNow, KnowledgeFault, StorageFault])
def test_every_error_carries_its_sentence_and_its_field(kind):
    refusal = kind("Blade length is -0.5 m; it must be above zero.", "length")
    assert isinstance(refusal, BellcrankError)
    assert str(refusal) == refusal.sentence == "Blade length is -0.5 m; it must be above zero."
    assert refusal.field == "length"
    assert kind("No field.").field is None
