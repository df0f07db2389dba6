"""The commands of the terminal, each the twin of a page; top layer, beside web.

A command reads what was typed, calls one function of the house and shows its answer as text or as JSON.
"""
