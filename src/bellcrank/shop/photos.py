"""Photos of a job: checked, turned upright, shrunk, freed of where they were taken, kept once."""

import hashlib
import io
import os
import warnings
from pathlib import Path
from uuid import uuid4

from PIL import Image, ImageOps

from bellcrank.errors import NotFound, NotUnderstood, OutOfRange, StorageFault
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.events import add_event
from bellcrank.shop.storage.jobs import read_job
from bellcrank.shop.storage.things import add_photo_row, read_photos
from bellcrank.shop.texts import clean_line

LARGEST_BYTES = 25 * 2**20
LARGEST_PIXELS = 50_000_000
LONGEST_SIDE = 2048  # [px] enough to read a serial plate
FORMATS = ("JPEG", "PNG", "WEBP")
QUALITY = 85
PAPER = (255, 255, 255)  # what shows where a picture is see-through
# What the picture library raises for a damaged file; it does not keep to one error.
DAMAGED = (OSError, SyntaxError, ValueError, TypeError, KeyError, IndexError, EOFError, ArithmeticError, MemoryError)


def check_photo(file_name: str, data: bytes) -> None:
    """Refuse a file that is too large or no picture, before anything is kept."""
    name = clean_line(file_name, "The file name", field="photo") or "the file"
    if len(data) > LARGEST_BYTES:
        raise OutOfRange(
            f"The photo {name} has {len(data) / 2**20:.0f} MB; it must have {LARGEST_BYTES // 2**20} MB at most. "
            "Take it anew with a lower setting, or send a smaller copy.",
            "photo",
        )
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(data), formats=FORMATS) as picture:
                size = picture.size
                picture.verify()
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise _too_many_pixels(name) from None
    except DAMAGED:
        raise NotUnderstood(
            f"The file {name} is not a picture, whatever its name says. Send a JPEG, PNG or WebP photo.", "photo"
        ) from None
    if size[0] * size[1] > LARGEST_PIXELS:
        raise _too_many_pixels(name)


def add_photo(shop: Shop, number: int, file_name: str, data: bytes, by: str = "", *, operation: str = "") -> int:
    """Keep a photo with the job, at a step where one is named, and give its id."""
    check_photo(file_name, data)
    name = clean_line(file_name, "The file name", field="photo")
    with shop.storage.reading() as connection:
        read_job(connection, number)
    try:
        small, size = _upright_and_small(data)
    except DAMAGED:
        raise NotUnderstood(f"The photo {name} is damaged. Take it again.", "photo") from None
    digest = hashlib.sha256(small).hexdigest()
    _keep(_path(shop, digest), small)
    now = shop.now()
    with shop.storage.writing() as connection:
        job = read_job(connection, number)
        photo_id = add_photo_row(connection, job.id, digest, size, name, now)
        at = {"operation": operation} if operation else {}
        add_event(connection, job.id, "photo", {"photo": photo_id, **at}, by=by, now=now)
    return photo_id


def photo_file(shop: Shop, number: int, photo_id: int) -> Path:
    """Give the file of a photo of this job."""
    with shop.storage.reading() as connection:
        photos = read_photos(connection, read_job(connection, number).id)
    kept = next((one for one in photos if one.id == photo_id), None)
    if kept is None or not _path(shop, kept.sha256).exists():
        raise NotFound(f"Job {number} has no photo {photo_id}. Look at the photos on its sheet.")
    return _path(shop, kept.sha256)


def _path(shop: Shop, name: str) -> Path:
    return shop.folder / "photos" / name[:2] / f"{name}.jpg"


def _keep(path: Path, data: bytes) -> None:
    """Write a file whole or not at all: a half-written one would pass for the photo ever after."""
    if path.exists():
        return
    half = path.with_suffix(f".{uuid4().hex}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        with half.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        half.replace(path)
    except OSError as fault:
        half.unlink(missing_ok=True)
        raise StorageFault(
            f"The photo cannot be kept in {path.parent} ({fault.strerror}). Nothing was changed. Make room on the "
            "disk, then add it again."
        ) from None


def _upright_and_small(data: bytes) -> tuple[bytes, tuple[int, int]]:
    with Image.open(io.BytesIO(data), formats=FORMATS) as picture:
        picture.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
        upright = ImageOps.exif_transpose(picture)
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    out = io.BytesIO()
    plain = _on_paper(upright)
    plain.save(out, "JPEG", quality=QUALITY)  # written anew: nothing of the place or camera comes along
    return out.getvalue(), plain.size


def _on_paper(picture: Image.Image) -> Image.Image:
    if not picture.has_transparency_data:
        return picture.convert("RGB")
    layer = picture.convert("RGBA")
    paper = Image.new("RGB", layer.size, PAPER)
    paper.paste(layer, mask=layer.getchannel("A"))
    return paper


def _too_many_pixels(name: str) -> OutOfRange:
    return OutOfRange(
        f"The photo {name} has more than {LARGEST_PIXELS // 1_000_000} million points. Send a smaller copy.", "photo"
    )
