"""The shop's own settings."""

from dataclasses import fields

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.errors import BellcrankError
from bellcrank.shop.settings import Settings, read_settings, write_settings
from bellcrank.shop.tools import keep_tools, tool_lines
from bellcrank.web.forms import Form, OpenShop
from bellcrank.web.rendering import go, show
from bellcrank.web.views.plain import NO_PROBLEM, Problem
from bellcrank.web.views.settings import SettingsPage, ToolsPage

router = APIRouter()


def _typed(settings: Settings) -> dict[str, str]:
    return {field.name: str(getattr(settings, field.name)) for field in fields(settings)}


@router.get("/settings")
def settings(shop: OpenShop, saved: str = "") -> Response:
    """The settings as they are."""
    return show("settings.html", SettingsPage("Settings", _typed(read_settings(shop)), NO_PROBLEM, saved == "yes"))


@router.post("/settings")
def save(shop: OpenShop, form: Form) -> Response:
    """Save the settings; a refusal keeps what was typed."""
    try:
        write_settings(shop, form.typed())
    except BellcrankError as refusal:
        problem = Problem(refusal.sentence, refusal.field or "", form.typed())
        return show("settings.html", SettingsPage("Settings", form.typed(), problem, False), 422)
    return go("/settings?saved=yes")


@router.get("/settings/tools")
def tools(shop: OpenShop, saved: str = "") -> Response:
    """The tools that not every shop has, and which of them are here."""
    currency = read_settings(shop).currency
    return show("tools.html", ToolsPage("Tools this shop has", tool_lines(shop), currency, saved == "yes"))


@router.post("/settings/tools")
def save_tools(shop: OpenShop, form: Form) -> Response:
    """Save which tools are here."""
    keep_tools(shop, form.texts("here"))
    return go("/settings/tools?saved=yes")
