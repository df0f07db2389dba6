"""Every error a person at the bench may meet; lowest layer, imports nothing of ours.

BellcrankError
├── NotUnderstood      what was typed cannot be read: type it another way
├── OutOfRange         it was read, but cannot be so: measure or type again
├── NotFound           there is no such job, check, part ...: pick another
├── NotAllowedNow      the order of the work forbids it: do what the sentence names first
├── KnowledgeFault     a knowledge pack contradicts itself: mend the named file and line
└── StorageFault       the shop's file cannot be read or written: the sentence says what to do
"""


class BellcrankError(Exception):
    """A refusal with one sentence for the person at the bench.

    Parameters
    ----------
    sentence : str
        What, what we got, what it must be, what to do.
    field : str, optional
        Name of the form field or option the sentence is about, for showing it at the field.
    """

    def __init__(self, sentence: str, field: str | None = None) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.field = field


class NotUnderstood(BellcrankError):
    """What was typed cannot be read."""


class OutOfRange(BellcrankError):
    """What was typed was read, but cannot be so."""


class NotFound(BellcrankError):
    """There is no such thing."""


class NotAllowedNow(BellcrankError):
    """The order of the work forbids this step now."""


class KnowledgeFault(BellcrankError):
    """A knowledge pack contradicts itself or cannot be read."""


class StorageFault(BellcrankError):
    """The shop's own file cannot be read or written."""
