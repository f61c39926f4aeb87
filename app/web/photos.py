"""Photos sent with a form, and their addresses."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import UploadFile

from app.exchange.photos import FIELD, PhotoFolder
from app.problem import Problem


async def _sent(request: Request) -> bytes:
    """The picture sent with the form; nothing where none was chosen."""
    form = await request.form()
    found = form.get(FIELD)
    return await found.read() if isinstance(found, UploadFile) else b""


async def _folder(request: Request) -> PhotoFolder:
    folder: PhotoFolder = request.app.state.photos
    return folder


Photos = Annotated[PhotoFolder, Depends(_folder)]
SentPhoto = Annotated[bytes, Depends(_sent)]


def kept(data: bytes, before: str, photos: PhotoFolder) -> str | Problem:
    """The name of the picture that came with a form, or came `before` with the same form refused; "" for none."""
    if data:
        return photos.keep(data)
    return before if photos.photo(before) else ""


def photo_address(name: str) -> str:
    return f"/photos/{name}" if name else ""
