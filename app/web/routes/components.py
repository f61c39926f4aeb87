"""The page that shows every component."""

from __future__ import annotations

from fastapi import APIRouter, Response

from app.web.given import Show
from app.web.views.components_page import components_page
from app.web.who import Framed

router = APIRouter()


@router.get("/components")
def show_components(show: Show, framed: Framed) -> Response:
    return show("components", components_page(framed("Components")))
