"""Serving the bench page on this computer: one process, one address, a clean end."""

import logging
import socket
import webbrowser

import click
import uvicorn

from bellcrank.errors import NotAllowedNow
from bellcrank.shop.premises import Shop
from bellcrank.web.app import create_app

HOST = "127.0.0.1"
PORTS_TO_TRY = 20


def serve(shop: Shop, *, port: int | None, first_port: int = 8765, open_browser: bool = True) -> None:
    """Serve the bench page until Ctrl-C; ``port`` None takes the first free one from ``first_port`` on."""
    listener = _listen(port, first_port)
    address = f"http://{HOST}:{listener.getsockname()[1]}/"
    logging.getLogger("uvicorn.error").setLevel(logging.WARNING)
    config = uvicorn.Config(
        create_app(shop), log_level="warning", access_log=False, server_header=False, timeout_graceful_shutdown=3
    )
    click.echo(f"The bench is open at {address}")
    click.echo(_show(address) if open_browser else "Open that address in a browser.")
    click.echo("Ctrl-C closes it; everything is saved as it is tapped.")
    server = uvicorn.Server(config)
    try:
        server.run(sockets=[listener])
    except KeyboardInterrupt:
        server.should_exit = True
    click.echo("Closed.")


def _listen(port: int | None, first_port: int) -> socket.socket:
    wanted = [port] if port is not None else range(first_port, first_port + PORTS_TO_TRY)
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
    tried = str(port) if port is not None else f"{first_port} to {first_port + PORTS_TO_TRY - 1}"
    raise NotAllowedNow(
        f"Port {tried} is taken: Bellcrank may already be open on it. Use that one, or choose another with --port."
    )


def _show(address: str) -> str:
    try:
        shown = webbrowser.open(address)
    except webbrowser.Error:
        shown = False
    if shown:
        return "A browser was asked to show it."
    return "No browser was found here: open that address in one."
