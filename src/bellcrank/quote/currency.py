"""How many digits a currency has after the point: most have two, some none, some three."""

USUAL_PLACES = 2
PLACES = {  # ISO 4217:2015, table A.1, minor unit; from memory
    **dict.fromkeys(("BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF"), 0),
    **dict.fromkeys(("UGX", "VND", "VUV", "XAF", "XOF", "XPF"), 0),
    **dict.fromkeys(("BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"), 3),
}


def places_of(currency: str) -> int:
    """Give the digits after the point of a currency's smallest coin.

    >>> places_of("EUR"), places_of("JPY"), places_of("KWD")
    (2, 0, 3)
    """
    return PLACES.get(currency, USUAL_PLACES)
