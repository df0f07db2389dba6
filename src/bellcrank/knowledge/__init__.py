"""What is known about machines: faults, checks, parts, fasteners, specs, sources.

Layer: above the physics, below diagnosis, teardown and handback.
"""
