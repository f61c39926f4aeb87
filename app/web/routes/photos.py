"""Kept pictures, by name."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path, Response
from fastapi.responses import FileResponse
from starlette.exceptions import HTTPException

from app.web.photos import Photos

router = APIRouter()
FOR_EVER = {"Cache-Control": "private, max-age=31536000, immutable"}


@router.get("/photos/{name}")
def show_photo(name: Annotated[str, Path(max_length=80)], photos: Photos) -> Response:
    found = photos.photo(name)
    if found is None:
        raise HTTPException(404)
    return FileResponse(found.path, media_type=found.media, headers=FOR_EVER)
