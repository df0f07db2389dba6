"""The shop's own business: customers, machines, jobs, money, history.

Layer: above everything that computes, below papers and the faces. SQL stands in ``storage`` only.
"""
