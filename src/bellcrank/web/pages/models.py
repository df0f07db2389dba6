"""What this shop keeps of how machines come apart: listed, taken back, written out."""

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.shop.own_models import model_files, own_model_lines, take_back_model
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import JobNumber, OpenShop
from bellcrank.web.rendering import go, show, zipped
from bellcrank.web.views.record import models_page

router = APIRouter()
HERE = "/own/models"


@router.get(HERE)
def models(shop: OpenShop) -> Response:
    """List what is kept."""
    return show("models.html", models_page(own_model_lines(shop)))


@router.get(f"{HERE}.zip")
def files(shop: OpenShop) -> Response:
    """Give the recorded models as files of a pack."""
    return zipped(model_files(shop), "own-models")


@router.post(HERE + "/{number}/take-back")
def taken_back(number: JobNumber, shop: OpenShop) -> Response:
    """Take back what is kept under a number."""
    take_back_model(shop, number, read_settings(shop).mechanic)
    return go(HERE)
