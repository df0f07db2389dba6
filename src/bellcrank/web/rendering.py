"""Turning a view into a page."""

import hashlib
import io
import zipfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from bellcrank.web.views.plain import TroublePage

HERE = Path(__file__).parent
MARK_LETTERS = 10


def _mark(name: str) -> str:
    """Give a static file's address with a mark of what is in it, so that an update is another address."""
    digest = hashlib.sha256((HERE / "static" / name).read_bytes()).hexdigest()
    return f"/static/{name}?v={digest[:MARK_LETTERS]}"


_ENVIRONMENT = Environment(
    loader=FileSystemLoader(HERE / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
    auto_reload=False,
)
_ENVIRONMENT.globals.update(
    look=_mark("bench.css"),
    touch=_mark("bench.js"),
    store=_mark("kept_store.js"),
    forms=_mark("kept_forms.js"),
    keep=_mark("kept.js"),
    walk=_mark("steps.js"),
    scrub=_mark("pull.js"),
    exchange=_mark("htmx-4.0.1.min.js"),
    badge=_mark("bellcrank.svg"),
)


def show(template: str, page: Any, status: int = 200) -> Response:
    """Render a view with its template."""
    return HTMLResponse(_ENVIRONMENT.get_template(template).render(page=page), status_code=status)


def go(address: str) -> Response:
    """Send the browser on after something was saved, so that a reload saves nothing twice."""
    return RedirectResponse(address, status_code=303)


def zipped(files: Mapping[str, str], name: str) -> Response:
    """Give text files packed in one to save, the same bytes every time."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for file, text in files.items():
            archive.writestr(zipfile.ZipInfo(file), text)
    headers = {"content-disposition": f'attachment; filename="{name}.zip"'}
    return Response(packed.getvalue(), media_type="application/zip", headers=headers)


def show_trouble(request: Request, sentence: str, status: int) -> Response:
    """Show a refusal as a page with the way back."""
    return show("trouble.html", TroublePage(title="That did not work", sentence=sentence), status)
