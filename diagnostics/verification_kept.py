"""The verification as a tablet keeps it, in words; nobody's name is in it."""

from typing import Any

from django.db.models import Prefetch

from diagnostics.evidence.shown import Shown
from diagnostics.evidence.twins import Twin
from diagnostics.shop_told import ShopTold
from diagnostics.verification import (
    Verification,
    conditions_told,
    looks_told,
    verified_by,
)
from diagnostics.weighing import Around
from diagnostics.work_done import last_touched
from jobs.models import Job


def with_verification() -> tuple[Any, ...]:
    """What jobs have to come with, to be told by `verification_told` without a query."""
    return (
        Prefetch("conditions", conditions_told()),
        Prefetch("verified", looks_told(), to_attr="looks_that_stand"),
    )


def verification_told(job: Job, around: Around, shop: ShopTold) -> dict[str, Any] | None:
    """What a tablet shows without the shop server; None while nothing was changed on the car."""
    if not last_touched(around.states):
        return None
    looks = job.looks_that_stand  # type: ignore[attr-defined]  # by with_verification
    conditions = list(job.conditions.all())
    seen = verified_by(around, conditions, looks, shop, with_verdict=False)
    return {
        "shown": [shown_told(one) for one in seen.shown],
        "twins": [twin_told(one) for one in seen.twins],
        "said": said(seen),
        "several": seen.several,
        "cold": cold_told(seen),
    }


def shown_told(one: Shown) -> dict[str, Any]:
    """One thing to show; `kinds` are the tests that speak of it."""
    return {
        "words": one.item.words,
        "standing": one.words,
        "is_shown": one.is_shown,
        "because": one.because if one.item.by else "",  # a look at caps names who looked
        "kind": one.kind,
        "kinds": [by.kind for by in one.item.by],
        "code": one.item.code,
    }


def twin_told(one: Twin) -> dict[str, str]:
    """One twin in a line."""
    rows = "; ".join(
        f"{row.words}: {row.then} then"
        + (f", {row.now} now" if one.now else "")
        + (f" ({row.apart})" if row.apart else "")
        for row in one.rows
    )
    if one.now is None:
        why = one.why_not
    elif one.compared:
        why = ""
    else:
        why = "Not under the same conditions, so not compared."
    return {"name": one.name, "said": f"{rows}. {why}".strip()}


def said(seen: Verification) -> str:
    """How many were shown."""
    return f"{seen.done} of {len(seen.shown)} shown"


def cold_told(seen: Verification) -> dict[str, Any] | None:
    """Why it is not showable, and when to come back; None: it is, or nobody knows."""
    if not (seen.cold and seen.not_showable):
        return None
    return {
        "words": seen.cold.words,
        "lines": [*seen.cold.reasons, f"When to come back: {seen.cold.come_back}"],
    }
