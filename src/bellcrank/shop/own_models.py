"""The list of what this shop keeps of how machines come apart: found at a step or recorded whole, and its files."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.errors import NotFound
from bellcrank.knowledge.assembly_tables import assembly_toml
from bellcrank.shop.machine_model import model_from
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import RECORDED
from bellcrank.shop.storage.own_models import KeptModel, mark_own_model_taken_back, read_own_models


@dataclass(frozen=True, slots=True)
class OwnModelLine:
    """Something kept for every machine like one."""

    id: int
    what: str  # captured, recorded
    kind: str  # of machine
    kind_words: str
    maker: str  # both "" for every machine of the kind
    model: str
    words: str
    parts: tuple[str, ...]  # that a recorded model leads to
    job: int  # where it came from
    made_at: str  # ISO 8601, UTC
    made_by: str
    stands: bool
    taken_back_by: str


def own_model_lines(shop: Shop) -> tuple[OwnModelLine, ...]:
    """Give what is kept, in the order it was made, also what was taken back."""
    with shop.storage.reading() as connection:
        kept = read_own_models(connection)
    return tuple(_line(shop, one) for one in kept)


def take_back_model(shop: Shop, model_id: int, by: str = "") -> str:
    """Take back what is kept and give its words; the machine it was found on keeps it. Taken back, it stays so."""
    now = shop.now()
    with shop.storage.writing() as connection:
        one = next((each for each in read_own_models(connection) if each.id == model_id), None)
        if one is None:
            raise NotFound(f"Nothing is kept under {model_id}. Look at the list of what this shop keeps.", "id")
        if one.stands:
            mark_own_model_taken_back(connection, model_id, by=by, now=now)
    return one.words


def model_files(shop: Shop) -> Mapping[str, str]:
    """Give the recorded models as files of a pack: texts by kind and file."""
    with shop.storage.reading() as connection:
        kept = [one for one in read_own_models(connection) if one.stands and one.what == RECORDED]
    if not kept:
        raise NotFound("No model was recorded here yet, so there is nothing to write.")
    models = {(one.like.kind, model.id): model for one in kept for model in (model_from(one),)}
    return {f"{kind}/assembly-{name}.toml": assembly_toml(model) for (kind, name), model in models.items()}


def _line(shop: Shop, one: KeptModel) -> OwnModelLine:
    pack = shop.library.packs.get(one.like.kind)
    return OwnModelLine(
        id=one.id,
        what=one.what,
        kind=one.like.kind,
        kind_words=pack.words if pack else one.like.kind,
        maker=one.like.maker,
        model=one.like.model,
        words=one.words,
        parts=tuple(model_from(one).targets) if one.what == RECORDED else (),
        job=one.job_number,
        made_at=one.made_at.isoformat(),
        made_by=one.made_by,
        stands=one.stands,
        taken_back_by=one.taken_back_by,
    )
