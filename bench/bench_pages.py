"""How long the server takes for a page, as percentiles, and as a ratio to the lightest page in the same run.

Target: job page under 50 ms at the 95th percentile; first load under 100 kB beside photos.
"""

import gzip
import statistics
import tempfile
import time
from pathlib import Path

from starlette.testclient import TestClient

from bellcrank.bootstrap import open_shop
from bellcrank.shop.demo import load_demo
from bellcrank.web.app import STATIC, create_app

ROUNDS = 200


def main() -> None:
    """Measure each page on the demo shop."""
    with tempfile.TemporaryDirectory() as folder:
        shop = open_shop(Path(folder))
        load_demo(shop)
        with TestClient(create_app(shop, ("testserver",))) as client:
            base = measure(client, "/alive")
            print(f"{'/alive':28} p50 {base[0]:6.2f} ms  p95 {base[1]:6.2f} ms  (baseline)")
            for path in ("/", "/take-in", "/jobs/201", "/jobs/202", "/jobs/202/steps", "/jobs/203/hand-back"):
                median, late, size = measure(client, path)
                told = (
                    f"p50 {median:6.2f} ms  p95 {late:6.2f} ms  x{median / base[0]:5.1f}  {size / 1024:5.1f} kB packed"
                )
                print(f"{path:28} {told}")
            median, late = after_a_tap(client)
            print(f"{'/jobs/201 after a tap':28} p50 {median:6.2f} ms  p95 {late:6.2f} ms  x{median / base[0]:5.1f}")
        shop.close()
    first = sum(len(gzip.compress(path.read_bytes())) for path in STATIC.iterdir() if path.suffix in (".js", ".css"))
    first += sum(path.stat().st_size for path in STATIC.glob("*.woff2"))
    print(f"style, scripts and letters of the first load: {first / 1000:.0f} kB")


def after_a_tap(client: TestClient) -> tuple[float, float]:
    """Give the time of the job page right after something new was recorded, when nothing is weighed yet."""
    times = []
    taps = [("spark-tester", r) for r in ("jumps", "weak", "none")] + [
        ("noises", r) for r in ("none", "knock", "scrape")
    ]
    taps += [("smoke", r) for r in ("none", "black", "blue")] + [("fuel-look", r) for r in ("fresh", "sour")]
    for check, result in taps * 4:
        client.post("/jobs/201/found", data={"check": check, "result": result}, follow_redirects=False)
        start = time.perf_counter()
        client.get("/jobs/201")
        times.append(1000 * (time.perf_counter() - start))
    return statistics.median(times), statistics.quantiles(times, n=20)[-1]


def measure(client: TestClient, path: str) -> tuple[float, float, int]:
    """Give median and 95th percentile of the time of a page, and its packed size."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        answer = client.get(path)
        times.append(1000 * (time.perf_counter() - start))
        assert answer.status_code == 200
    return statistics.median(times), statistics.quantiles(times, n=20)[-1], len(gzip.compress(answer.content))


if __name__ == "__main__":
    main()
