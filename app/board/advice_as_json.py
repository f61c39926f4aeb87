"""The advice as plain JSON values."""

from __future__ import annotations

from collections.abc import Iterable

from app.advice.costs import TestHere, Work
from app.advice.of_case import CaseAdvice, RepairStep, TestStep
from app.advice.repairs import RepairHere
from app.advice.while_open import WhileOpen
from app.board.advise import BoardAdvice
from app.board.as_json import Json


def advice_as_json(advice: BoardAdvice) -> dict[str, Json]:
    """Costs are money at `labour_rate`; None under `kind` where nothing can be advised."""
    steps, prices = advice.steps, advice.prices
    return {
        "kind": steps.kind.value if steps else None,
        "currency": prices.currency,
        "labour_rate": prices.labour_rate,
        "none_of_these_hours": prices.none_of_these_hours,
        **(_steps(steps) if steps else {}),
        "while_open": _open(advice.open),
    }


def _steps(steps: CaseAdvice) -> dict[str, Json]:
    return {
        "expected_cost": steps.expected,
        "plain_order_cost": steps.base,
        "already_cured": steps.gone,
        "not_cured_by_these": steps.left,
        "tests": [_test(step) for step in steps.tests],
        "repairs": [_repair(step) for step in steps.repairs],
        "plain_order": _repairs(steps.order),
        "not_told_apart": _repairs(steps.alike),
    }


def _test(step: TestStep) -> dict[str, Json]:
    said: dict[str, Json] = {"expected_cost": step.expected, "information_bits": step.bits, "equal": step.equal}
    return {**_here(step.here), **_work(step.work), **said}


def _repair(step: RepairStep) -> dict[str, Json]:
    said: dict[str, Json] = {"expected_cost": step.expected, "cures": step.cures, "equal": step.equal}
    return {**_named(step.repair), **_work(step.work), **said}


def _here(here: TestHere) -> dict[str, Json]:
    return {"test": here.test.id, "place": list(here.places)}


def _named(repair: RepairHere) -> dict[str, Json]:
    return {"operation": repair.operation.id, "place": list(repair.places), "parts": list(repair.parts)}


def _repairs(repairs: Iterable[RepairHere]) -> list[Json]:
    return [_named(repair) for repair in repairs]


def _work(work: Work) -> dict[str, Json]:
    return {
        "minutes": work.minutes,
        "reach_minutes": work.reach,
        "restore_minutes": work.restore,
        "cost": work.money,
        "parts_without_price": list(work.unpriced),
    }


def _open(found: WhileOpen) -> dict[str, Json]:
    return {
        "tests": [{**_here(one.here), **_work(one.work)} for one in found.tests],
        "duties": [
            {"job": one.job.number, "operation": one.job.job.operation, "duty": one.duty.id} for one in found.duties
        ],
        "renewals": [{**_named(one.repair), **_work(one.work), "there": one.there} for one in found.renewals],
    }
