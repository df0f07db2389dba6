"""Teardown: the least-time way in to a part, the way back out, and a torque for every fastener on it.

Layer: beside diagnosis, above knowledge; pure.
"""
