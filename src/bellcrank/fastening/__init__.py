"""Threads, stripping, torque and tension: what a bolted joint will take.

A physics layer beside cutting; knows measuring, stats, units and sources, nothing above.
"""
