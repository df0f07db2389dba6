"""Papers: job sheet, quote, invoice, tag; one file each, typeset to PDF.

Layer: above shop, below the faces.
"""
