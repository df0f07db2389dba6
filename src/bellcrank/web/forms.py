"""What came in with a request: text fields and files, read once, typed text kept."""

from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Path, Request
from starlette.datastructures import UploadFile

from bellcrank.shop.premises import Shop
from bellcrank.shop.taps import for_one_tap

TAP = "idempotency-key"  # header a phone marks a tap with that it may have to send again
LARGEST_NUMBER = 2**31 - 1
JobNumber = Annotated[int, Path(ge=1, le=LARGEST_NUMBER)]


@dataclass(frozen=True, slots=True)
class SentFile:
    """A file that was sent with a form."""

    name: str
    data: bytes


@dataclass(frozen=True, slots=True)
class SentForm:
    """The fields of a form as typed."""

    fields: tuple[tuple[str, str], ...]
    files: tuple[SentFile, ...]

    def text(self, name: str) -> str:
        """Give what was typed in a field, "" when it was left empty."""
        return next((value for key, value in self.fields if key == name), "").strip()

    def texts(self, name: str) -> tuple[str, ...]:
        """Give every value of a field that may stand several times."""
        return tuple(value for key, value in self.fields if key == name and value)

    def starting(self, prefix: str) -> dict[str, str]:
        """Give the fields whose names start so, without the start."""
        return {key.removeprefix(prefix): value for key, value in self.fields if key.startswith(prefix) and value}

    def typed(self) -> dict[str, str]:
        """Give everything typed, to show it again."""
        return dict(self.fields)


async def _read_form(request: Request) -> SentForm:
    fields: list[tuple[str, str]] = []
    files: list[SentFile] = []
    async with request.form(max_files=20, max_fields=300, max_part_size=2**20) as form:
        for key, value in form.multi_items():
            if isinstance(value, UploadFile):
                if value.filename:
                    files.append(SentFile(value.filename, await value.read()))
            else:
                fields.append((key, value))
    return SentForm(tuple(fields), tuple(files))


def _open_shop(request: Request) -> Shop:
    shop: Shop = request.app.state.shop
    key = request.headers.get(TAP)
    return shop if key is None or request.method != "POST" else for_one_tap(shop, key)


def _is_kept_tap(request: Request) -> bool:
    return TAP in request.headers


Form = Annotated[SentForm, Depends(_read_form)]
OpenShop = Annotated[Shop, Depends(_open_shop)]
KeptTap = Annotated[bool, Depends(_is_kept_tap)]  # it was kept on the phone and sent by its script
