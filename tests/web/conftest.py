"""A shop served on a free port in this process, and a real browser to look at it."""

import os
import shutil
import socket
import threading
import time
from datetime import UTC, datetime

import pytest
import uvicorn
from starlette.testclient import TestClient

from bellcrank.bootstrap import open_shop
from bellcrank.shop.demo import load_demo
from bellcrank.web.app import create_app

BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture
def shop(tmp_path):
    """The demo shop in a folder of its own."""
    opened = open_shop(tmp_path / "shop", now=lambda: datetime(2026, 5, 4, 9, 30, tzinfo=UTC))
    load_demo(opened)
    yield opened
    opened.close()


@pytest.fixture
def client(shop):
    with TestClient(create_app(shop, ("testserver",)), follow_redirects=False) as made:
        yield made


@pytest.fixture
def address(shop):
    """The address the demo shop is served at."""
    listener = socket.socket()
    listener.bind(("127.0.0.1", 0))
    server = uvicorn.Server(uvicorn.Config(create_app(shop), log_level="warning", access_log=False))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    yield f"http://127.0.0.1:{listener.getsockname()[1]}"
    server.should_exit = True
    thread.join(timeout=10)


@pytest.fixture(scope="session")
def browser():
    """A real Chromium."""
    from playwright.sync_api import sync_playwright  # noqa: PLC0415  only the page tests need it

    path = os.environ.get("CHROME") or next(filter(None, map(shutil.which, BROWSERS)), None)
    assert path, "The page tests need Chromium: apt-get install chromium, or set CHROME."
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield started
        started.close()


@pytest.fixture
def open_page(browser, address):
    """Open pages of a given size; every request that leaves the host or message on the console fails the test."""
    contexts, complaints = [], []

    def opener(width, height, **options):
        context = browser.new_context(viewport={"width": width, "height": height}, **options)
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(10_000)
        page.on("console", lambda m: complaints.append(m.text) if m.type in ("error", "warning") else None)
        page.on("pageerror", lambda e: complaints.append(str(e)))
        page.on("request", lambda r: complaints.append(r.url) if not r.url.startswith(("data:", address)) else None)
        page.goto(address)
        return page

    yield opener
    for context in contexts:
        context.close()
    refused = [text for text in complaints if "422" not in text and "404" not in text]
    assert not refused
