"""Safe to give back? Which proofs a machine needs, how each answer is judged, and whether it may go as ready.

Layer: above diagnosis and teardown, beside quote, below shop.
"""
