"""Statistics without machines: exact inference in networks of faults and findings.

Bottom layer beside measuring: imports nothing of ours but errors.
"""
