"""A tap sent again counts once: the phone marks each with a key of its own, the shop keeps it with what was written."""

import re
from dataclasses import replace

from bellcrank.errors import NotUnderstood
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.taps import KeptBefore, OneTapStorage, tap_is_kept

KEY = re.compile(r"[0-9a-f]{32}")  # 128 random bits


def for_one_tap(shop: Shop, key: str) -> Shop:
    """Give the shop for the tap with this key: what is written first through it is written once for that key.

    Parameters
    ----------
    shop : Shop
        The open shop.
    key : str
        32 letters of 0-9 and a-f, drawn by the phone for this tap alone.

    Raises
    ------
    KeptBefore
        The tap was kept before, now or when it is written.
    NotUnderstood
        The key is not such a key.
    """
    if not KEY.fullmatch(key):
        raise NotUnderstood("The mark of this tap does not read right, so nothing was changed. Tap it again.")
    with shop.storage.reading() as connection:
        if tap_is_kept(connection, key):
            raise KeptBefore(key)
    return replace(shop, storage=OneTapStorage(shop.storage, key, shop.now()))
