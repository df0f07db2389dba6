"""Tests of cutting."""
