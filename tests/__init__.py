"""Tests: one folder for every package, and those that look at the whole."""
