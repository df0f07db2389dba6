"""Worth repairing, for how much? The price of what is on the sheet, and the range of what it may come to.

Layer: above diagnosis and teardown, beside handback, below shop.
"""
