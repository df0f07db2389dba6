"""Bellcrank: from the story at the door of a small-engine repair shop to a signed-off machine."""

__version__ = "0.1.0"
