"""The loop pumped down: how deep, how long, and how it held. What the rise shows, a test tells."""

import uuid
from typing import Any

from django.http import HttpRequest
from django.http.response import HttpResponseBase

from diagnostics.physics.pressure import Absolute
from diagnostics.physics.units import from_si, shown, with_unit
from diagnostics.physics.vacuum import needle_best
from jobs.entries import EVACUATION, WAITING
from jobs.forms.evacuation import EvacuationForm, air_here
from jobs.forms.waiting import MINUTES
from jobs.models import Job
from jobs.models.evacuations import HELD_ROWS, PUMPED_ROWS
from jobs.views.access import signed_in
from jobs.views.loop_work import loop_work_page


@signed_in()
def evacuation(request: HttpRequest) -> HttpResponseBase:
    """One evacuation."""
    return loop_work_page(request, EVACUATION, EvacuationForm, nothing, beside)


def nothing(job: Job) -> dict[str, str]:  # noqa: ARG001  each vacuum is read anew
    """What it begins with."""
    return {}


def beside(job: Job | None) -> dict[str, Any]:
    """The rows of readings, how long a timer may run, what a needle can show here at best."""
    best = from_si(-needle_best(Absolute(air_here())).pa, "inHg")
    return {
        "needle_best": with_unit(shown(best, 1), "inHg"),
        "timer_key": uuid.uuid4() if job else "",
        "pumped_rows": PUMPED_ROWS,
        "held_rows": HELD_ROWS,
        "timer_minutes": MINUTES,
        "timer": WAITING,
    }
