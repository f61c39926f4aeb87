"""The one way out: whole pages for a browser, parts for htmx, and the frame that every page has."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from fastapi import Request, Response
from fastapi.responses import HTMLResponse, RedirectResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from app.settings import PROJECT

STATIC = PROJECT / "static"
PLAIN = {"Vary": "HX-Request-Type, Accept", "Cache-Control": "no-store"}


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands around every page. `person`: who is working, "" when nobody has said so."""

    title: str
    person: str
    here: str


def make_environment() -> Environment:
    """Templates are strict (an unknown name fails) and escape everything."""
    environment = Environment(
        loader=FileSystemLoader(PROJECT / "templates"),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals["asset"] = asset
    return environment


@lru_cache(maxsize=16)
def asset(name: str) -> str:
    """Address of a static file; it changes with the content, so browsers may keep the file for ever."""
    digest = hashlib.sha256((STATIC / Path(name)).read_bytes()).hexdigest()
    return f"/static/{name}?v={digest[:12]}"


class Show:
    """Made per request. Shows `templates/pages/<page>.html`, or the part alone to whoever asked for a part."""

    def __init__(self, request: Request) -> None:
        self._environment: Environment = request.app.state.environment
        self._wants_part = wants_part(request)

    def __call__(
        self, page: str, view: object, *, part: str = "", also: Sequence[str] = (), status: int = 200
    ) -> Response:
        """The page with this view; for htmx `part`, followed by the `also` parts, each swapped into its own place."""
        if not (self._wants_part and part):
            return self._answer(self._render(f"pages/{page}.html", view), status)
        parts = (self._render(f"parts/{part}.html", view), *(self._beside(name, view) for name in also))
        return self._answer("\n".join(parts), status)

    def saved(self, page: str, view: object, *, part: str, to: str, also: Sequence[str] = ()) -> Response:
        """After a write: the fresh parts for htmx, "see other" for a browser without script."""
        if self._wants_part:
            return self(page, view, part=part, also=also)
        return RedirectResponse(to, status_code=303, headers=PLAIN)

    def moved(self, to: str) -> Response:
        """After a write that leads to another page; htmx follows by itself."""
        if self._wants_part:
            return Response(status_code=200, headers={**PLAIN, "HX-Redirect": to})
        return RedirectResponse(to, status_code=303, headers=PLAIN)

    def _beside(self, name: str, view: object) -> str:
        """A further part, for its own place; `name` is one of ours and needs no escaping."""
        body = self._render(f"parts/{name}.html", view)
        return f'<hx-partial hx-target="#{name}" hx-swap="outerMorph">{body}</hx-partial>'

    def _render(self, template: str, view: object) -> str:
        return self._environment.get_template(template).render(view=view)

    def _answer(self, text: str, status: int) -> Response:
        return HTMLResponse(text, status_code=status, headers=PLAIN)


def wants_part(request: Request) -> bool:
    return request.headers.get("HX-Request-Type") == "partial"
