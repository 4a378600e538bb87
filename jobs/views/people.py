"""The people of the shop: who works here, what they may, and what keeps them from signing in."""

import uuid
from collections.abc import Mapping
from typing import Any

from django import forms
from django.contrib.auth import update_session_auth_hash
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST, require_safe

from jobs.entries import QUALIFICATION
from jobs.forms.people import NewName, NewPassword, NewPerson, NewPin, NewRole
from jobs.forms.qualification import QualificationForm, typed_in
from jobs.logbook import EntryKind, NotAnEntry, Outcome, Told, enter
from jobs.models import Person, Photo, Qualification
from jobs.models.people import OWNER, TECHNICIAN
from jobs.models.qualifications import HIGH_VOLTAGE, REFRIGERANT, holds
from jobs.models.wordings import in_shop_time
from jobs.people_entries import PERSON, PERSON_CHANGE
from jobs.pins import hash_password, hash_pin, is_locked, pin_state
from jobs.told import as_key
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_original
from jobs.views.posted import told_from_post
from jobs.views.tablet import from_this_machine, pins_work, this_tablet

CHANGE_FORMS: dict[str, type[forms.Form]] = {
    "pin": NewPin,
    "password": NewPassword,
    "role": NewRole,
    "name": NewName,
}


@require_safe
@signed_in(OWNER)
def people(request: HttpRequest) -> HttpResponse:
    """Everybody in a list; or one of them, with what can be changed."""
    told = request.GET.get("person", "")
    if not told:
        return show_all(request, NewPerson())
    person = person_of(told)
    corrected = asked_original(request, person.qualifications.filter(superseded_by=None))
    return show_one(request, person, card=QualificationForm(initial=begun(person, corrected)))


@require_POST
@sensitive_post_parameters("pin", "password")
@signed_in(OWNER)
def people_add(request: HttpRequest) -> HttpResponse:
    """Somebody new."""
    form = NewPerson(request.POST)
    if not form.is_valid():
        return show_all(request, form, status=422)
    typed = form.cleaned_data
    outcome = tell(request, PERSON, {"name": typed["name"], "role": typed["role"]}, typed)
    return answer(request, outcome, lambda entry: show_all(request, with_errors(form, entry)))


@require_POST
@sensitive_post_parameters("pin", "password")
@signed_in(OWNER)
def people_change(request: HttpRequest) -> HttpResponse:
    """One change to a person: name, role, PIN, password; unlocked, gone, back, sign-ins ended."""
    person = person_of(request.POST.get("person", ""))
    change = request.POST.get("change", "")
    form = CHANGE_FORMS.get(change, forms.Form)(request.POST)
    if not form.is_valid():
        return show_one(request, person, {change: form}, status=422)
    fields = {"person": str(person.key), "change": change}
    if change in ("name", "role"):
        fields[change] = form.cleaned_data[change]
    outcome = tell(request, PERSON_CHANGE, fields, form.cleaned_data)
    if outcome.stands and person == request.user and change in ("pin", "password"):
        person.refresh_from_db()
        update_session_auth_hash(request, person)  # the change is theirs: it does not end this
    return answer(
        request,
        outcome,
        lambda entry: show_one(request, person, {change: with_errors(form, entry)}),
    )


@require_POST
@signed_in(OWNER)
def people_qualify(request: HttpRequest) -> HttpResponse:
    """A card of somebody's; one that names another takes its place."""
    person = person_of(request.POST.get("person", ""))
    outcome = enter(QUALIFICATION, told_from_post(request, QUALIFICATION.version))
    return answer(request, outcome, lambda form: show_one(request, person, card=form))


def begun(person: Person, corrected: Qualification | None) -> dict[str, Any]:
    """What the form of a card begins with."""
    return {"person": person.key} | (typed_in(corrected) if corrected else {})


def tell(
    request: HttpRequest, kind: EntryKind, fields: dict[str, str], typed: Mapping[str, Any]
) -> Outcome:
    """Enter it, with PIN and password as hashes. Only what is named here becomes an entry.

    Raises:
        NotAnEntry: the form's key cannot be read.

    """
    key = as_key(request.POST.get("key", ""))
    if key is None:
        raise NotAnEntry("This form’s key cannot be read; open the form again.")
    if typed.get("pin"):
        fields["pin_hash"] = hash_pin(typed["pin"], key)
    if typed.get("password"):
        fields["password_hash"] = hash_password(typed["password"], key)
    owner = request.user
    if not isinstance(owner, Person):
        raise NotAnEntry("Nobody is signed in.")
    told = Told(
        key=key,
        version=kind.version,
        job_key=None,
        fields={name: [value] for name, value in fields.items()},
        author=owner,
        sender=owner,
        tablet=this_tablet(request),
    )
    return enter(kind, told)


def person_of(told: str) -> Person:
    """The person of a key.

    Raises:
        Http404: it is no key, or nobody's.

    """
    key = as_key(told)
    if key is None:
        raise Http404("This link’s person cannot be read.")
    return get_object_or_404(Person, key=key)


def with_errors(form: forms.Form, entry: forms.Form) -> forms.Form:
    """The page's form with what the entry's form found; what has no field stands on top."""
    for name, sentences in entry.errors.items():
        field = {"pin_hash": "pin", "password_hash": "password"}.get(name, name)
        form.add_error(field if field in form.fields else None, list(sentences))
    return form


def show_all(request: HttpRequest, form: forms.Form, status: int = 200) -> HttpResponse:
    """The list, and the form for somebody new."""
    listed = Person.objects.order_by("-is_active", "name").prefetch_related("qualifications")
    people = list(listed)
    said = {
        "people": [(person, state(person), cards(person)) for person in people],
        "may_today": may_today(people),
        "form": form,
        "key": request.POST.get("key") or uuid.uuid4(),
        "pins_work": pins_work(request),
        "on_server": from_this_machine(request),
    }
    return render(request, "jobs/people.html", said, status=status)


def show_one(
    request: HttpRequest,
    person: Person,
    bound: Mapping[str, forms.Form] | None = None,
    status: int = 200,
    card: forms.Form | None = None,
) -> HttpResponse:
    """One person and what can be changed; each change is a form with a key of its own."""
    initial = {"name": person.name, "role": person.role}
    bound = bound or {}
    changes = [
        (
            change,
            bound.get(change) or form(initial=initial),
            request.POST.get("key") if change in bound else uuid.uuid4(),
        )
        for change, form in CHANGE_FORMS.items()
        if change != "password" or person.role != TECHNICIAN
    ]
    said = {
        "person": person,
        "state": state(person),
        "locked": is_locked(person),
        "changes": changes,
        "problems": [text for form in bound.values() for text in form.non_field_errors()],
        "key": uuid.uuid4(),
        "myself": person == request.user,
        "cards": cards(person, everything=True),
        "card": card or QualificationForm(initial=begun(person, None)),
        "card_key": request.POST.get("key") if card and card.is_bound else uuid.uuid4(),
        "corrects": request.POST.get("corrects") or request.GET.get("corrects", ""),
        "photo_again": bool(card and card.is_bound and request.FILES),
    }
    return render(request, "jobs/people.html", said, status=status)


def state(person: Person) -> list[str]:
    """What there is to know about somebody's signing in, as sentences."""
    if not person.is_active:
        return ["No longer works here."]
    found = []
    if not person.pin:
        found.append("No PIN.")
    if person.role != TECHNICIAN and not person.has_usable_password():
        found.append("No password.")
    if person.locked_at:
        when = in_shop_time(person.locked_at)
        found.append(f"PIN locked since {when}, after eight misses in a row.")
    elif pin_state(person):
        found.append(pin_state(person))
    if person.passes_from:
        found.append(f"Sign-ins before {in_shop_time(person.passes_from)} are ended.")
    return found


def cards(person: Person, *, everything: bool = False) -> list[dict[str, Any]]:
    """Somebody's qualifications as of today; with `everything`, photos and superseded ones too."""
    today = timezone.localdate()
    rows = [one for one in person.qualifications.all() if everything or one.stands]
    photos: dict[int | None, list[Photo]] = {}
    if everything:
        of = [one.pictured_id for one in rows if one.pictured_id]
        for photo in Photo.objects.filter(entry__in=of).order_by("entry_id", "number"):
            photos.setdefault(photo.entry_id, []).append(photo)
    return [
        {
            "row": one,
            "until": one.until_words(today),
            "over": one.stands and not one.valid_on(today),
            "photos": photos.get(one.pictured_id, []),
        }
        for one in rows
    ]


def may_today(people: list[Person]) -> list[tuple[str, list[str]]]:
    """Who may do today what needs a qualification: what it is, and their names."""
    today = timezone.localdate()
    asked = {REFRIGERANT: "Refrigerant work today", HIGH_VOLTAGE: "High-voltage work today"}
    here = [one for one in people if one.is_active]
    return [
        (words, [one.name for one in here if holds(one.qualifications.all(), kind, today)])
        for kind, words in asked.items()
    ]
