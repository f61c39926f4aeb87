"""What every answer carries and what no request may do: content policy, body size, posts from elsewhere."""

from __future__ import annotations

from collections.abc import Callable
from urllib.parse import urlsplit

from fastapi import Request, Response
from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_BODY = 4_000_000
LARGEST_WITH_PHOTO = 12_000_000
NO_STYLE_AT_ALL = "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='"
"""The hash of an empty text: htmx writes style="" onto elements it settles, and nothing else is let through."""

POLICY = (
    f"default-src 'self'; style-src 'self' 'unsafe-hashes' {NO_STYLE_AT_ALL}; "
    "frame-ancestors 'none'; base-uri 'none'; form-action 'self'; object-src 'none'"
)
SAFE = ("GET", "HEAD", "OPTIONS")


class TooLarge(Exception):
    """More was sent than any form of ours can hold."""


class Foreign(Exception):
    """A post that did not come from our own pages."""


class Guard:
    """Adds the headers of every answer; counts what comes in; refuses posts from other sites."""

    def __init__(self, app: ASGIApp, refuse: Callable[[Request, Exception], Response]) -> None:
        self._app = app
        self._refuse = refuse

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        refusal = _refusal(scope)
        inner = self._app if refusal is None else self._refuse(Request(scope), refusal)
        await inner(scope, _counted(receive, _largest(Headers(scope=scope))), _dressed(send, scope["path"]))


def _refusal(scope: Scope) -> Exception | None:
    """Why this request is not taken at all, or None."""
    headers = Headers(scope=scope)
    if int(headers.get("content-length") or 0) > _largest(headers):
        return TooLarge()
    if scope["method"] not in SAFE and _comes_from_elsewhere(headers):
        return Foreign()
    return None


def _comes_from_elsewhere(headers: Headers) -> bool:
    origin = headers.get("origin")
    if origin is None:
        return headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none")
    return urlsplit(origin).netloc != headers.get("host")


def _largest(headers: Headers) -> int:
    """Forms with a file may be larger."""
    with_file = headers.get("content-type", "").startswith("multipart/form-data")
    return LARGEST_WITH_PHOTO if with_file else LARGEST_BODY


def _counted(receive: Receive, largest: int) -> Receive:
    seen = 0

    async def counting() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > largest:
            raise TooLarge
        return message

    return counting


def _dressed(send: Send, path: str) -> Send:
    async def dressing(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            headers["Content-Security-Policy"] = POLICY
            headers["X-Content-Type-Options"] = "nosniff"
            headers["Referrer-Policy"] = "same-origin"
            if path.startswith("/static/"):
                headers["Cache-Control"] = "public, max-age=31536000, immutable"
        await send(message)

    return dressing
