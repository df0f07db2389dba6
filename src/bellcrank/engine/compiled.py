"""Compiling the few functions of the pull that are called millions of times.

Measured: the same equations run some hundred times faster than in plain Python (``bench/bench_pull.py``). The plain
function stays the text to read; with ``NUMBA_DISABLE_JIT=1`` it is also what runs.
"""

from collections.abc import Callable
from typing import ParamSpec, TypeVar, cast

from numba import config, njit

FREEDOMS = {"contract", "nsz", "arcp"}  # rounding of the last digit only: no sum is reordered, nothing is approximated
Told = ParamSpec("Told")
Answer = TypeVar("Answer")


def compiled(function: Callable[Told, Answer]) -> Callable[Told, Answer]:
    """Compile a function on first use; other threads run while it runs.

    Put into each function that calls it, so that an engine's many numbers are not handed over again and again: a third
    more pulls in a second. Kept for the next start only in a folder of its own for these very equations
    (:func:`bellcrank.bootstrap.keep_compiled`): beside the file, a change in one file would not be seen from another.
    """
    keep = bool(vars(config)["CACHE_DIR"])
    compiler = njit(cache=keep, nogil=True, error_model="numpy", forceinline=True, fastmath=FREEDOMS)
    return cast(Callable[Told, Answer], compiler(function))
