"""Turning a view into a page."""

from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from bellcrank.web.views.plain import TroublePage

_ENVIRONMENT = Environment(
    loader=FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
    auto_reload=False,
)


def show(template: str, page: Any, status: int = 200) -> Response:
    """Render a view with its template."""
    return HTMLResponse(_ENVIRONMENT.get_template(template).render(page=page), status_code=status)


def go(address: str) -> Response:
    """Send the browser on after something was saved, so that a reload saves nothing twice."""
    return RedirectResponse(address, status_code=303)


def show_trouble(request: Request, sentence: str, status: int) -> Response:
    """Show a refusal as a page with the way back."""
    return show("trouble.html", TroublePage(title="That did not work", sentence=sentence), status)
