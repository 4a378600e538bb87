"""A customer who asks to be forgotten: name, phone and address are taken out everywhere."""

import uuid
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from jobs import forget
from jobs.entries import REDACT
from jobs.forms.redact import RedactForm
from jobs.logbook import enter
from jobs.models import Customer, Photo, Record
from jobs.models.people import OWNER
from jobs.models.records import kept_years
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.history import NOT_HERE, asked_customer
from jobs.views.posted import told_from_post


@signed_in(OWNER)
def redact(request: HttpRequest) -> HttpResponse:
    """What goes, what stays, and why it is done.

    Raises:
        Http404: the address names no customer.

    """
    customer = asked_customer(request)
    if customer is None:
        raise Http404(NOT_HERE)
    stays = customer.merged_into or customer
    if stays != customer or stays.redacted_at:
        return redirect(f"{reverse('history')}?customer={stays.key}")

    def show(form: Any) -> HttpResponse:
        return render(request, "jobs/redact.html", said(request, customer, form))

    if request.method != "POST":
        return show(RedactForm())
    return answer(request, enter(REDACT, told_from_post(request, REDACT.version)), show)


def said(request: HttpRequest, customer: Customer, form: Any) -> dict[str, Any]:
    """What the page shows."""
    keys = list(customer.jobs.values_list("key", flat=True))
    photos = Photo.objects.filter(job_key__in=keys).select_related("entry").order_by("id")
    personal = [forget.photo_name(one) for one in photos if one.personal]
    posted = request.method == "POST"
    return {
        "customer": customer,
        "form": form,
        "photos": [(forget.photo_name(one), one) for one in photos],
        "chosen": request.POST.getlist("photos") if posted else personal,
        "jobs": len(keys),
        "records": Record.objects.filter(job__customer=customer, let_go_at=None).count(),
        "years": kept_years(),
        "key": request.POST.get("key") or uuid.uuid4(),
    }
