"""What the bench shows: every job with what it waits for."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BenchLine:
    """One job on the bench page."""

    number: int
    machine: str
    complaint: str
    customer: str
    next: str
    since: str
    state: str


@dataclass(frozen=True, slots=True)
class BenchSheet:
    """Today's bench: what is on it, what waits, what is ready to go."""

    on_the_bench: tuple[BenchLine, ...]
    waiting: tuple[BenchLine, ...]
    ready: tuple[BenchLine, ...]
    gone: tuple[BenchLine, ...]
