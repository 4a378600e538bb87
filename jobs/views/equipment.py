"""The shop's instruments and machines: all, one, and which of them lie beside this tablet."""

import uuid
from typing import Any

from django import forms
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from jobs.entries import EQUIPMENT, EQUIPMENT_CHECK, EQUIPMENT_TABLET
from jobs.forms.equipment import ACCURACY, MAKES_RECOVERY, CheckForm, EquipmentForm, typed_in
from jobs.logbook import enter
from jobs.models import Check, Equipment, Photo
from jobs.models.equipment import READS, beside
from jobs.models.people import BAY, OWNER
from jobs.told import as_key
from jobs.views.access import role_of, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_key, asked_original
from jobs.views.posted import told_from_post
from jobs.views.tablet import this_tablet


@require_safe
@signed_in()
def equipment(request: HttpRequest) -> HttpResponse:
    """All instruments; one of them (`thing`); for an owner also the form of a new one (`new`)."""
    key = asked_key(request, "thing")
    if key:
        return show_one(request, thing_of(key))
    if request.GET.get("new") and is_owner(request):
        return show_new(request, EquipmentForm())
    return show_all(request)


@require_POST
@signed_in(OWNER)
def equipment_enter(request: HttpRequest) -> HttpResponse:
    """A new instrument, or one of the list as it is now."""
    outcome = enter(EQUIPMENT, told_from_post(request, EQUIPMENT.version))
    told = request.POST.get("thing", "")

    def show(form: Any) -> HttpResponse:
        thing = Equipment.objects.filter(key=posted_key(told)).first() if told else None
        return show_one(request, thing, form) if thing else show_new(request, form)

    return answer(request, outcome, show)


@require_POST
@signed_in(OWNER)
def equipment_check(request: HttpRequest) -> HttpResponse:
    """A check that was made, or the correction of one."""
    thing = thing_of(posted_key(request.POST.get("thing", "")))
    outcome = enter(EQUIPMENT_CHECK, told_from_post(request, EQUIPMENT_CHECK.version))
    return answer(request, outcome, lambda form: show_one(request, thing, check=form))


@require_POST
@signed_in(*BAY)
def equipment_tablet(request: HttpRequest) -> HttpResponse:
    """Which instruments lie beside this tablet."""
    outcome = enter(EQUIPMENT_TABLET, told_from_post(request, EQUIPMENT_TABLET.version))
    return answer(request, outcome, lambda form: show_all(request, form))


def posted_key(told: str) -> uuid.UUID:
    """The key of a thing from a post.

    Raises:
        Http404: it is none.

    """
    key = as_key(told)
    if key is None:
        raise Http404("This form’s instrument cannot be read. Open the page again.")
    return key


def thing_of(key: uuid.UUID) -> Equipment:
    """The thing of a key.

    Raises:
        Http404: the list has none.

    """
    return get_object_or_404(Equipment.objects.prefetch_related("checks"), key=key)


def is_owner(request: HttpRequest) -> bool:
    """Whether an owner asks."""
    return role_of(request) == OWNER


def show_all(request: HttpRequest, form: forms.Form | None = None) -> HttpResponse:
    """The list, and what lies beside this tablet."""
    today = timezone.localdate()
    things = list(Equipment.objects.prefetch_related("checks"))
    tablet = this_tablet(request)
    used = [one for one in things if not one.out_of_use(today)]
    mine = {one.key for one in beside(tablet, used)}
    said = {
        "listed": [line(one) for one in (*used, *(one for one in things if one not in used))],
        "on_tablet": [(one, one.key in mine) for one in used if one.reads],
        "tablet": tablet,
        "laid": bool(request.GET.get("beside")),
        "may_choose": role_of(request) in BAY,
        "may_edit": is_owner(request),
        "problems": form.errors.values() if form else [],
        "key": uuid.uuid4(),
    }
    return render(request, "jobs/equipment.html", said)


def line(thing: Equipment) -> dict[str, Any]:
    """A thing as the list shows it."""
    today = timezone.localdate()
    return {
        "thing": thing,
        "check": thing.check_words(today),
        "over": bool(thing.overdue_on(today)) and not thing.out_of_use(today),
        "gone": thing.out_of_use(today),
    }


def show_new(request: HttpRequest, form: forms.Form) -> HttpResponse:
    """The form of a thing that is not in the list yet."""
    said = {
        "new": True,
        "form": form,
        **asked_by_kind(form),
        "key": request.POST.get("key") or uuid.uuid4(),
        "photo_again": bool(request.FILES),
    }
    return render(request, "jobs/equipment.html", said)


def show_one(
    request: HttpRequest,
    thing: Equipment,
    form: forms.Form | None = None,
    check: forms.Form | None = None,
) -> HttpResponse:
    """One thing with its checks; for an owner the forms to check and to change it."""
    corrected = asked_original(request, thing.checks.filter(superseded_by=None))
    first = typed_in(thing)
    change = form or EquipmentForm(initial=first)
    said = {
        **line(thing),
        "checks": [one for one in thing.checks.all() if one.counts],
        "photos": Photo.objects.filter(entry=thing.pictured_id).order_by("number"),
        "may_edit": is_owner(request),
        "form": change,
        **asked_by_kind(change),
        "form_open": bool(form),
        "key": request.POST.get("key") if form else uuid.uuid4(),
        "check_form": check or CheckForm(initial=begun(thing, corrected)),
        "check_open": bool(check or corrected),
        "check_key": request.POST.get("key") if check else uuid.uuid4(),
        "corrects": request.POST.get("corrects") or (corrected.key if corrected else ""),
        "photo_again": bool(request.FILES),
    }
    return render(request, "jobs/equipment.html", said)


def asked_by_kind(form: forms.Form) -> dict[str, Any]:
    """The form's fields for accuracies by quantity, and which kinds have which."""
    names = [name for name in form.fields if name.startswith(ACCURACY)]
    return {
        "accuracies": [(name.removeprefix(ACCURACY), form[name]) for name in names],
        "reads": READS,
        "recovers": MAKES_RECOVERY,
    }


def begun(thing: Equipment, corrected: Check | None) -> dict[str, Any]:
    """What the form of a check begins with."""
    told = {"checked_on": corrected.checked_on, "until": corrected.until} if corrected else {}
    return {"thing": thing.key} | told
