"""Photos on disk: each kept whole under the name of its content, so that the same picture is kept once."""

from __future__ import annotations

import errno
import hashlib
import re
from dataclasses import dataclass
from pathlib import Path

from app.history.errors import NoRoom
from app.problem import Problem

LARGEST_PHOTO = 10_000_000
FIELD = "photo"
NAME = re.compile(r"[0-9a-f]{64}\.(jpg|png|webp)")
MEDIA = {"jpg": "image/jpeg", "png": "image/png", "webp": "image/webp"}


@dataclass(frozen=True, slots=True)
class Photo:
    """A kept picture: where it lies and what it is."""

    path: Path
    media: str


@dataclass(frozen=True, slots=True)
class PhotoFolder:
    folder: Path

    def keep(self, data: bytes) -> str | Problem:
        """The name under which the picture is kept now; refused where it is none, or too large."""
        kind = kind_of(data)
        if kind is None:
            return Problem(FIELD, "This file is not a picture.", "Send a JPEG, PNG or WebP picture.")
        if len(data) > LARGEST_PHOTO:
            most = f"At most {LARGEST_PHOTO // 1_000_000} MB; send it smaller."
            return Problem(FIELD, f"The picture has {len(data) / 1e6:.0f} MB.", most)
        name = f"{hashlib.sha256(data).hexdigest()}.{kind}"
        self._write(name, data)
        return name

    def photo(self, name: str) -> Photo | None:
        """A kept picture by its name; None where there is none."""
        path = self.folder / name
        if not NAME.fullmatch(name) or not path.is_file():
            return None
        return Photo(path, MEDIA[name.rpartition(".")[2]])

    def _write(self, name: str, data: bytes) -> None:
        """Written beside and then renamed, so that no half picture ever stands under a name."""
        path = self.folder / name
        if path.is_file():
            return
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            fresh = path.with_suffix(".new")
            fresh.write_bytes(data)
            fresh.replace(path)
        except OSError as error:
            if error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EIO):
                raise NoRoom from error
            raise


def kind_of(data: bytes) -> str | None:
    """What the content says it is, whatever the file was called (the first bytes that each format prescribes)."""
    if data.startswith(b"\xff\xd8\xff"):
        return "jpg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "webp"
    return None
