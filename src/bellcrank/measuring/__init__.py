"""A measured value with its uncertainty, and whether it meets a limit.

Below the physics, above stats, units and sources.
"""
