"""Blades: how fast the tip moves, what energy is in it, how soon it must stand still.

A physics layer beside fastening; knows measuring, stats, units and sources, nothing above.
"""
