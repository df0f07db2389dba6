"""Tests of figures."""
