"""The web application: routes, templates, the guard, and how a refusal looks."""

import logging
from pathlib import Path

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

from bellcrank.errors import BellcrankError, NotFound
from bellcrank.shop.one_pull import one_pull
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.taps import KeptBefore
from bellcrank.web.guard import Guard
from bellcrank.web.pages import (
    bench,
    capture,
    cord,
    hand,
    handback,
    job,
    learnt,
    models,
    money,
    numbers,
    numbers_others,
    own,
    papers,
    pulls,
    record,
    replay,
    settings,
    ways,
    why,
    work,
)
from bellcrank.web.pulls_at_work import PullsAtWork
from bellcrank.web.rendering import show_trouble

HOSTS = ("127.0.0.1", "localhost", "::1")
STATIC = Path(__file__).parent / "static"
LOG = logging.getLogger("bellcrank")


class Shelf(StaticFiles):
    """Static files; the browser keeps them, for their address carries a mark of what is in them."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """Give the file with a long shelf life."""
        response = await super().get_response(path, scope)
        response.headers["cache-control"] = "public, max-age=86400"
        return response


def create_app(shop: Shop, hosts: tuple[str, ...] = HOSTS) -> FastAPI:
    """Build the application on an open shop."""
    app = FastAPI(
        title="Bellcrank",
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        middleware=[Middleware(Guard, hosts=hosts), Middleware(GZipMiddleware, minimum_size=600)],
    )
    app.state.shop = shop
    app.state.pulls = PullsAtWork(shop.library, one_pull)
    for page in (
        bench,
        job,
        why,
        replay,
        cord,
        work,
        capture,
        record,
        models,
        ways,
        handback,
        money,
        papers,
        numbers,
        hand,
        pulls,
        numbers_others,
        learnt,
        own,
        settings,
    ):
        app.include_router(page.router)
    app.mount("/static", Shelf(directory=STATIC), name="static")
    _answer_refusals(app)
    return app


def _answer_refusals(app: FastAPI) -> None:
    @app.exception_handler(KeptBefore)
    def kept_before(request: Request, tap: KeptBefore) -> Response:
        return Response(status_code=204)  # sent again because the answer was lost: it stands, once

    @app.exception_handler(NotFound)
    def not_found(request: Request, refusal: NotFound) -> Response:
        return show_trouble(request, refusal.sentence, 404)

    @app.exception_handler(BellcrankError)
    def refused(request: Request, refusal: BellcrankError) -> Response:
        return show_trouble(request, refusal.sentence, 422)

    @app.exception_handler(RequestValidationError)
    def not_read(request: Request, refusal: RequestValidationError) -> Response:
        if any("number" in one["loc"] for one in refusal.errors()):
            return show_trouble(request, "A job number is a whole number, like 214. Pick the job from the bench.", 404)
        return show_trouble(request, "This address does not read right. Go back to the bench and pick again.", 404)

    @app.exception_handler(HTTPException)
    def no_such_page(request: Request, refusal: HTTPException) -> Response:
        if refusal.status_code == 404:
            return show_trouble(request, "There is nothing at this address. Go back to the bench.", 404)
        return show_trouble(request, f"That did not go through: {refusal.detail}.", refusal.status_code)

    @app.exception_handler(Exception)
    def broken(request: Request, fault: Exception) -> Response:
        LOG.error("%s %s", request.method, request.url.path, exc_info=fault)
        return show_trouble(
            request, "Something in Bellcrank itself went wrong; nothing you saved before is lost. Try once more.", 500
        )
