"""What every request must pass and every answer carries: known host, own origin, bounded size, strict headers."""

from collections.abc import Iterable
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_BODY = 100 * 2**20  # [B] leaves room for a photo that is refused with a sentence of its own
SAFE_METHODS = {"GET", "HEAD"}
HEADERS = {
    "content-security-policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
        "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
}


class Guard:
    """Refuse foreign hosts, foreign origins and endless bodies; add the headers that keep a page to itself."""

    def __init__(self, app: ASGIApp, hosts: Iterable[str]) -> None:
        self.app = app
        self.hosts = frozenset(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or refuse it in a sentence."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        refusal = self._refusal(scope["method"], Headers(scope=scope))
        if refusal:
            await refusal(scope, receive, _with_headers(send))
            return
        await self.app(scope, _bounded(receive), _with_headers(send))

    def _refusal(self, method: str, headers: Headers) -> PlainTextResponse | None:
        host = headers.get("host", "")
        if (urlsplit(f"//{host}").hostname or "") not in self.hosts:
            return PlainTextResponse("This address is not the bench's. Open the address Bellcrank printed.", 421)
        if method in SAFE_METHODS:
            return None
        if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return PlainTextResponse("This was sent from another site, so nothing was changed.", 403)
        origin = headers.get("origin")
        if origin and urlsplit(origin).netloc != host:
            return PlainTextResponse("This was sent from another site, so nothing was changed.", 403)
        if int(headers.get("content-length") or 0) > LARGEST_BODY:
            return PlainTextResponse("That is more than 100 MB, so it was not taken. Send one photo at a time.", 413)
        return None


def _with_headers(send: Send) -> Send:
    async def sender(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
            headers.setdefault("cache-control", "no-store")
        await send(message)

    return sender


def _bounded(receive: Receive) -> Receive:
    taken = 0

    async def receiver() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > LARGEST_BODY:
            return {"type": "http.disconnect"}
        return message

    return receiver
