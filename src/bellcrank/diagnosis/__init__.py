"""Diagnosis: which fault, which check next, and why, in shop words.

Layer: beside teardown, above knowledge; pure.
"""
