"""What routes are given: the clock, the history, the rules, the way out."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated

from fastapi import Depends, Path, Request

from app.history.history import History as OpenHistory
from app.rules.library import Rules
from app.web.rule_book import RuleBook
from app.web.showing import Show as ShowPage


async def _history(request: Request) -> OpenHistory:
    history: OpenHistory = request.app.state.history
    return history


async def _rules(request: Request) -> Rules:
    book: RuleBook = request.app.state.rule_book
    return book.rules


async def _now() -> datetime:
    return datetime.now(UTC)


History = Annotated[OpenHistory, Depends(_history)]
CurrentRules = Annotated[Rules, Depends(_rules)]
Now = Annotated[datetime, Depends(_now)]
Show = Annotated[ShowPage, Depends(ShowPage)]
OnFile = Annotated[str, Path(min_length=1, max_length=64, pattern=r"^[A-Za-z0-9-]+$")]
"""An id in an address: of a vehicle, a case, a visit, an entry."""
