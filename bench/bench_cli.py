"""How long the command takes to answer: wall time of whole processes, best and median of several runs.

Run with ``python bench/bench_cli.py``. To reach: --help under 150 ms on a quiet machine.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time

RUNS = 9
COMMANDS = (
    ("--version",),
    ("--help",),
    ("torque", "--thread", "1/4-20", "--class", "G5", "--into", "die-cast aluminium", "--engaged", "10mm"),
    ("jobs",),
    ("next", "201"),
    ("job", "201"),
)


def seconds(words: tuple[str, ...]) -> float:
    """Time one run of the command as a person starts it."""
    start = time.perf_counter()
    subprocess.run([sys.executable, "-m", "bellcrank", *words], check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def main() -> None:
    """Time every command on a shop with one job."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ["BELLCRANK_DATA"] = folder
        seconds(("take-in", "kicks back on the cord", "--complaint", "kicks-back", "--fact", "hit-something=yes"))
        for words in COMMANDS:
            times = [seconds(words) for _ in range(RUNS)]
            told = f"best {min(times) * 1e3:5.0f} ms, median {statistics.median(times) * 1e3:5.0f} ms"
            print(f"{' '.join(words)[:48]:<50} {told}")


if __name__ == "__main__":
    main()
