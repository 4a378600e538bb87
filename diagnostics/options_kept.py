"""The ways of a job as a tablet keeps them: in words, without prices, as they were last worked out.

Worked out only where somebody is about to decide or has: every open car would take too long.
"""

from collections.abc import Iterable
from typing import Any

from django.db.models import Prefetch

from diagnostics.decided import last_of, who_and_when
from diagnostics.models import Decision, PricesTyped
from diagnostics.offering import ways
from diagnostics.offers_told import kept_words, parted, told
from diagnostics.price_sheet import ShopPrices, sheet_of
from diagnostics.prices_asked import names_of
from diagnostics.weighing import Around
from jobs.models import Job

DECIDING = ("deciding", "repairing")


def with_decisions() -> Iterable["Prefetch[Any]"]:
    """What is read with jobs for it."""
    return (
        Prefetch("prices_typed", PricesTyped.objects.select_related("entry")),
        Prefetch("decisions", Decision.objects.select_related("entry__author")),
    )


def decision_told(job: Job) -> str:
    """The decision that counts, in one line; empty: none. Its job came with its decisions."""
    last = last_of(job.decisions.all())
    return f"{last.words}. {who_and_when(last)}" if last else ""


def options_told(job: Job, around: Around, prices: ShopPrices) -> dict[str, Any] | None:
    """The ways in words and the fields they ask for; None: nobody is about to decide."""
    rows = list(job.prices_typed.all())
    if not (rows or job.stage in DECIDING or job.decisions.all()):
        return None
    sheet = sheet_of(job, rows, prices)
    found = ways(around, sheet)
    main, _others, none = parted(told(found, sheet, around.steps, around.states))
    groups = names_of([one.offer for one in (*main, *none)] if main else [], owner=False)
    return {
        "ways": [
            {
                "code": one.offer.code,
                "words": one.offer.words,
                "mark": one.offer.mark,
                "said": kept_words(one),
            }
            for one in (*main, *none)
        ],
        "asked": [name for group in groups.values() for name in group],
    }
