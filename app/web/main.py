"""Puts the web together: settings, rules, history, routes, error pages."""

from __future__ import annotations

import gc
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import anyio.to_thread
from fastapi import FastAPI
from starlette.staticfiles import StaticFiles

from app.exchange.photos import PhotoFolder
from app.history.engine import open_history
from app.settings import Settings
from app.web.boards import Boards
from app.web.errors import add_error_pages, answer_wrong
from app.web.guard import Guard
from app.web.routes import (
    board,
    closing,
    components,
    earlier_work,
    find,
    open_case,
    people,
    photos,
    proof,
    putting_back,
    record,
    rule_changes,
    rule_new,
    rules,
    vehicle_family,
    vehicles,
    void,
)
from app.web.routes import (
    settings as shop_settings,
)
from app.web.rule_book import RuleBook
from app.web.showing import STATIC, make_environment

COLLECT_FROM = 100_000
"""So many new objects before a collection."""
THREADS = 4
"""More threads only fight for the interpreter: with 40 of them the same pages took twice as long (measured)."""


def create_app(settings: Settings | None = None) -> FastAPI:
    """The pages on a history that is there already: `proofbay serve` migrates first."""
    settings = settings or Settings()
    app = FastAPI(title="Proofbay", docs_url=None, redoc_url=None, openapi_url=None, lifespan=_ready)
    app.state.rule_book = RuleBook(settings.rules_dir, settings.own_rules_dir)
    app.state.history = open_history(settings.database, settings.site_id)
    app.state.environment = make_environment()
    app.state.boards = Boards()
    app.state.photos = PhotoFolder(settings.photos_dir)
    for room in (
        find,
        people,
        vehicles,
        open_case,
        board,
        record,
        void,
        closing,
        proof,
        earlier_work,
        putting_back,
        photos,
        components,
        rule_new,
        rules,
        rule_changes,
        shop_settings,
        vehicle_family,
    ):
        app.include_router(room.router)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    add_error_pages(app)
    app.add_middleware(Guard, refuse=answer_wrong)
    return app


@asynccontextmanager
async def _ready(_: FastAPI) -> AsyncIterator[None]:
    """Few threads; and what was loaded for good is left out of garbage collection.

    Otherwise each collection while a board is built walks all the rules again (a quarter of the time, measured); and
    with the usual threshold there are hundreds of collections in one board (another tenth).
    """
    gc.freeze()
    gc.set_threshold(COLLECT_FROM, 20, 20)
    anyio.to_thread.current_default_thread_limiter().total_tokens = THREADS
    yield
