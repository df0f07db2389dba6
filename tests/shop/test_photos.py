import io
import os

import pytest
from PIL import Image

from bellcrank.errors import NotFound, NotUnderstood, OutOfRange, StorageFault
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.photos import add_photo, photo_file

ORIENTATION, GPS = 0x0112, 0x8825  # EXIF tags


def picture(size=(60, 40), kind="JPEG", colour="teal", mode="RGB", **how):
    out = io.BytesIO()
    Image.new(mode, size, colour).save(out, kind, **how)
    return out.getvalue()


def kept(shop, number, photo):
    return Image.open(io.BytesIO(photo_file(shop, number, photo).read_bytes()))


def files(shop):
    return [path for path in shop.folder.rglob("*") if path.is_file() and "photos" in path.parts]


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_keeps_a_photo_with_the_job(shop, job, kind):
    photo = add_photo(shop, job, f"deck.{kind.lower()}", picture(kind=kind), "Ina")
    line = job_sheet(shop, job).photos[0]
    assert (line.id, line.width, line.height) == (photo, 60, 40)
    assert kept(shop, job, photo).format == "JPEG"


def test_a_large_photo_is_shrunk_to_what_shows_a_serial_plate(shop, job):
    photo = add_photo(shop, job, "deck.jpg", picture((3000, 1500)))
    assert kept(shop, job, photo).size == (2048, 1024)


def test_a_photo_taken_with_the_phone_on_its_side_stands_upright(shop, job):
    exif = Image.Exif()
    exif[ORIENTATION] = 6  # turned a quarter
    photo = add_photo(shop, job, "deck.jpg", picture((60, 40), exif=exif))
    assert kept(shop, job, photo).size == (40, 60)


def test_nothing_of_the_place_it_was_taken_is_kept(shop, job):
    exif = Image.Exif()
    exif.get_ifd(GPS)[1] = "N"
    exif[0x010F] = "camera maker"
    photo = add_photo(shop, job, "deck.jpg", picture(exif=exif))
    assert not kept(shop, job, photo).getexif()
    assert b"camera maker" not in photo_file(shop, job, photo).read_bytes()


def test_what_is_hidden_behind_the_picture_is_not_kept(shop, job):
    photo = add_photo(shop, job, "deck.jpg", picture() + b"<script>alert(1)</script>")
    assert b"script" not in photo_file(shop, job, photo).read_bytes()


def test_a_see_through_picture_lies_on_white_paper(shop, job):
    photo = add_photo(shop, job, "sketch.png", picture(kind="PNG", mode="RGBA", colour=(0, 0, 0, 0)))
    assert min(kept(shop, job, photo).getpixel((5, 5))) > 250


def test_the_same_photo_twice_is_one_file(shop, job):
    add_photo(shop, job, "a.jpg", picture())
    add_photo(shop, job, "b.jpg", picture())
    assert (len(files(shop)), len(job_sheet(shop, job).photos)) == (1, 2)


def test_a_photo_taken_back_is_not_shown(shop, job):
    add_photo(shop, job, "a.jpg", picture())
    take_back(shop, job)
    assert job_sheet(shop, job).photos == ()


def test_refuses_a_photo_of_forty_megabytes_with_what_to_do(shop, job):
    with pytest.raises(OutOfRange, match=r"deck\.jpg has 40 MB; it must have 25 MB at most\. Take it anew"):
        add_photo(shop, job, "deck.jpg", picture() + bytes(40 * 2**20))
    assert job_sheet(shop, job).photos == ()


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"Dear diary",
        b"%!PS-Adobe-3.0 EPSF-3.0\n",
        b"\xff\xd8\xff\xe0",
        b"GIF89a" + bytes(50),
        b"\x89PNG\r\n\x1a\n",
    ],
)
def test_refuses_a_file_that_is_no_picture_whatever_its_name_says(shop, job, data):
    with pytest.raises(NotUnderstood, match=r"The file deck\.jpg is not a picture"):
        add_photo(shop, job, "deck.jpg", data)
    assert files(shop) == []


@pytest.mark.parametrize("share", [0.3, 0.6, 0.9])
def test_refuses_a_damaged_photo(shop, job, share):
    whole = picture((400, 300), "PNG")
    noisy = Image.effect_noise((400, 300), 90)
    out = io.BytesIO()
    noisy.save(out, "JPEG")
    for data in (whole, out.getvalue()):
        with pytest.raises(NotUnderstood):
            add_photo(shop, job, "deck.jpg", data[: int(len(data) * share)])


def test_refuses_a_small_file_that_unfolds_to_a_huge_picture(shop, job):
    out = io.BytesIO()
    Image.new("1", (10_000, 10_000)).save(out, "PNG")
    with pytest.raises(OutOfRange, match="more than 50 million points"):
        add_photo(shop, job, "deck.png", out.getvalue())


def test_a_hostile_file_name_leads_nowhere(shop, job):
    photo = add_photo(shop, job, "../../../etc/passwd\x00.jpg", picture())
    assert photo_file(shop, job, photo).is_relative_to(shop.folder / "photos")


def test_a_photo_is_given_for_its_own_job_only(shop, job):
    photo = add_photo(shop, job, "deck.jpg", picture())
    other = take_in(shop, Story(complaints=("hunts",)))
    with pytest.raises(NotFound, match=f"Job {other} has no photo {photo}"):
        photo_file(shop, other, photo)


def test_no_photo_is_kept_for_a_job_that_is_not_there(shop):
    with pytest.raises(NotFound):
        add_photo(shop, 999, "deck.jpg", picture())
    assert files(shop) == []


def test_a_full_disk_leaves_no_half_photo(shop, job, monkeypatch):
    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StorageFault, match=r"cannot be kept .+ \(No space left on device\)"):
        add_photo(shop, job, "deck.jpg", picture())
    assert files(shop) == []
    assert job_sheet(shop, job).photos == ()
