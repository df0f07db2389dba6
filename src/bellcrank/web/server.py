"""Serving the bench page on this computer: one process, one address, a clean end."""

import logging
import os
import socket
import sys
import webbrowser
from collections.abc import Callable
from pathlib import Path

import uvicorn

from bellcrank.bootstrap import keep_compiled
from bellcrank.errors import NotAllowedNow
from bellcrank.shop.premises import Shop
from bellcrank.web.app import create_app

HOST = "127.0.0.1"
LOG_NAME = "bellcrank.log"  # the same file the commands write to
FIRST_PORT, PORTS_TO_TRY = 8765, 20


def serve(shop: Shop, *, port: int | None, open_browser: bool, say: Callable[[str], None]) -> None:
    """Serve the bench page until Ctrl-C; ``port`` None takes the first free one from 8765 on."""
    keep_compiled()
    listener = _listen(port)
    address = f"http://{HOST}:{listener.getsockname()[1]}/"
    _log_to(shop.folder / LOG_NAME)
    config = uvicorn.Config(
        create_app(shop), log_config=None, access_log=False, server_header=False, timeout_graceful_shutdown=3
    )
    say(f"The bench is open at {address}")
    say(_show(address) if open_browser else "Open that address in a browser.")
    say("Ctrl-C closes it; everything is saved as it is tapped.")
    server = uvicorn.Server(config)
    try:
        server.run(sockets=[listener])
    except KeyboardInterrupt:
        server.should_exit = True
    say("Closed.")


def _log_to(path: Path) -> None:
    """Keep what goes wrong inside in a file beside the shop's data: it is nothing for the person at the bench."""
    keeper = logging.FileHandler(path, encoding="utf-8", delay=True)
    keeper.setFormatter(logging.Formatter("%(asctime)s %(name)s %(levelname)s %(message)s"))
    for name in ("bellcrank", "uvicorn"):
        logger = logging.getLogger(name)
        logger.setLevel(logging.WARNING)
        logger.propagate = False
        logger.handlers = [keeper]


def _listen(port: int | None) -> socket.socket:
    wanted = [port] if port is not None else range(FIRST_PORT, FIRST_PORT + PORTS_TO_TRY)
    for number in wanted:
        listener = socket.socket()
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((HOST, number))
        except OSError:
            listener.close()
            continue
        listener.listen(128)
        return listener
    tried = str(port) if port is not None else f"{FIRST_PORT} to {FIRST_PORT + PORTS_TO_TRY - 1}"
    raise NotAllowedNow(
        f"Port {tried} is taken: Bellcrank may already be open on it. Use that one, or choose another with --port."
    )


def _show(address: str) -> str:
    """Ask a browser to show the page; without a screen none is asked, as a text browser would take the terminal."""
    has_screen = sys.platform != "linux" or bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
    try:
        shown = has_screen and webbrowser.open(address)
    except webbrowser.Error:
        shown = False
    if shown:
        return "A browser was asked to show it."
    return "No browser was found here: open that address in one."
