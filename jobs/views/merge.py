"""Two customers or two cars in the list that are one: find the other, look at both, choose."""

import uuid
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from jobs import search
from jobs.entries import MERGE
from jobs.forms.merge import MergeForm
from jobs.logbook import enter
from jobs.models import Customer, Job, Vehicle
from jobs.models.people import DESK, OWNER
from jobs.models.said import EMPTY, SAID, as_said
from jobs.models.wordings import shop_day
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_key
from jobs.views.history import NOT_HERE, asked_car, asked_customer, cars_of, found
from jobs.views.posted import told_from_post

CANDIDATES_MAX = 20
PLATES_MAX = 3  # of a customer's newest cars
CUSTOMER_SAID = ("name", "phone", "address")
CAR_SAID = ("plate", "vin", "make_model", "model_year")
SYSTEM_SAID = (
    *("drive", "displacement", "voltage", "switched_side", "refrigerant", "label_charge_mg"),
    *("branches", "coil_milliohm", "gap_low_um", "gap_high_um"),
)


@dataclass(frozen=True)
class Side:
    """One of the two, with the job of the last visit and how many there were."""

    row: Any
    jobs: int
    last: Job | None

    @property
    def visits(self) -> str:
        """How often, and when last."""
        times = f"{self.jobs} job{'' if self.jobs == 1 else 's'}"
        if self.last is None:
            return times
        return f"{times}, the last on {shop_day(self.last.opened_at)}"


@dataclass(frozen=True)
class Line:
    """What is known of both, in words."""

    words: str
    one: str
    other: str

    @property
    def differs(self) -> bool:
        """Whether both say something, and not the same."""
        return bool(self.one and self.other and self.one != self.other)


@signed_in(DESK, OWNER)
def merge(request: HttpRequest) -> HttpResponse:
    """Without a second one in the address: the way to find it.

    Raises:
        Http404: the address names neither customer nor car, or one that is not here.

    """
    row: Customer | Vehicle | None = asked_customer(request) or asked_car(request)
    if row is None:
        raise Http404(NOT_HERE)
    about = "customer" if isinstance(row, Customer) else "vehicle"
    if row.merged_into:
        return redirect(f"{reverse('history')}?{about}={row.merged_into.key}")
    other_key = asked_key(request, "other")
    if other_key is None:
        return show_candidates(request, about, row)
    other = found(type(row).objects.all(), other_key)

    def show(form: Any) -> HttpResponse:
        one_side, other_side = side(row), side(other)
        said = {
            "form": form,
            "about": about,
            "sides": [one_side, other_side],
            "lines": lines(about, one_side, other_side),
            "key": request.POST.get("key") or uuid.uuid4(),
        }
        return render(request, "jobs/merge.html", said)

    if request.method != "POST":
        return show(MergeForm())
    job_key = newest_of(about, (row, other))
    return answer(request, enter(MERGE, told_from_post(request, MERGE.version, job_key)), show)


def show_candidates(request: HttpRequest, about: str, row: Any) -> HttpResponse:
    """Those that may be the other one: what was looked for, else what is alike."""
    typed = request.GET.get("words", "")[: search.TYPED_MAX]
    asked = [search.asked_words(typed)] if typed.strip() else alike(about, row)
    listed: dict[Any, Job] = {}
    for words in asked:
        for job in search.find(words).jobs if words else ():
            one = row_of(about, job)
            if one.pk != row.pk:
                listed.setdefault(one.pk, job)
    jobs = list(listed.values())[:CANDIDATES_MAX]
    said = {
        "about": about,
        "row": row,
        "typed": typed,
        "candidates": [(row_of(about, job), job) for job in jobs],
    }
    return render(request, "jobs/merge.html", said)


def row_of(about: str, job: Job) -> Any:
    """A job's customer or car."""
    return job.customer if about == "customer" else job.vehicle


def alike(about: str, row: Any) -> list[list[str]]:
    """What to look for without being asked: same name, phone or car, same plate or VIN."""
    if about == "customer":
        plates = [[search.fold(one.plate)] for one in cars_of(row)[:PLATES_MAX]]
        name = search.folded_words(row.name)[: search.WORDS_MAX]
        return [name, [search.fold(row.phone)], *plates]
    return [[search.fold(text)] if text else [] for text in (row.plate, row.vin)]


def side(row: Any) -> Side:
    """One of the two with its visits."""
    return Side(row, row.jobs.count(), row.jobs.order_by("-id").first())


def newest_of(about: str, rows: Iterable[Any]) -> uuid.UUID | None:
    """The job that the entry is about: the newest open one of either, else the newest."""
    jobs = Job.objects.filter(**{f"{about}__in": list(rows)}).order_by("-id")
    still_open = jobs.exclude(stage="closed").values_list("key", flat=True).first()
    return still_open or jobs.values_list("key", flat=True).first()


def lines(about: str, one: Side, other: Side) -> list[Line]:
    """What is known of both, what is known of neither left out."""
    if about == "customer":
        told = compared(CUSTOMER_SAID, one.row, other.row, lambda row: row)
    else:
        told = compared(CAR_SAID, one.row, other.row, lambda row: row)
        told += compared(SYSTEM_SAID, one.row, other.row, lambda row: row.system)
    return [*told, Line("Visits", one.visits, other.visits)]


def compared(names: Iterable[str], one: Any, other: Any, part: Callable[[Any], Any]) -> list[Line]:
    """Some columns of both in words."""
    found_lines = []
    for name in names:
        texts = [said_of(name, getattr(part(row), name)) for row in (one, other)]
        if any(texts):
            found_lines.append(Line(SAID.get(name, name.capitalize()), *texts))
    return found_lines


def said_of(name: str, value: Any) -> str:
    """A column's value in words; empty: not known."""
    return "" if value in EMPTY else as_said(name, {name: value})
