"""The first page of an empty shop: its name, its currency and its owner.

Open only while there is no shop, only on the machine that serves it, and only with the one-time
word that the start command printed.
"""

import uuid

from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from jobs.entries import SHOP
from jobs.forms.shop import BeginForm
from jobs.logbook import Told, enter
from jobs.models import Person, Shop
from jobs.models.people import OWNER
from jobs.pins import hash_password, hash_pin
from jobs.views.tablet import from_this_machine, remember_tablet, sign_in_here
from shopac.one_time import BEGIN, forget_word, has_word, told_word


class NotBegun(Exception):
    """The shop was not set up, so its first owner is not written either."""


@sensitive_post_parameters("pin", "password", "password_again", "token")
@require_http_methods(["GET", "HEAD", "POST"])
def begin(request: HttpRequest) -> HttpResponse:
    """Show the form to whoever has the word; set the shop up; sign its owner in.

    Raises:
        Http404: asked from another machine, which learns nothing.

    """
    if not from_this_machine(request):
        raise Http404("There is no such page.")
    if Shop.objects.exists() or not has_word(request, BEGIN):
        return render(request, "shopac/begin.html", {"form": None}, status=403)
    form = BeginForm(request.POST if request.method == "POST" else None)
    if not form.is_bound:
        return show(request, form)
    if not form.is_valid():
        return show(request, form, status=422)
    try:
        owner = set_up(form)
    except NotBegun:
        return render(request, "shopac/begin.html", {"form": None}, status=403)
    forget_word(BEGIN)
    sign_in_here(request, owner)
    response = redirect("board")
    remember_tablet(request, response)
    return response


def show(request: HttpRequest, form: BeginForm, status: int = 200) -> HttpResponse:
    """The form, with the word it was opened with."""
    said = {"form": form, "word": told_word(request)}
    return render(request, "shopac/begin.html", said, status=status)


def set_up(form: BeginForm) -> Person:
    """Write the first owner, then the shop as that owner's entry, both or neither.

    The owner's row is the only one that no entry made: an entry needs an author, and here there is
    none yet. What was told of the shop goes through the logbook like everything after it.

    Raises:
        NotBegun: somebody else was first.

    """
    told = form.cleaned_data
    key = uuid.uuid4()
    with transaction.atomic():
        owner = Person.objects.create(
            name=told["owner"],
            role=OWNER,
            pin=hash_pin(told["pin"], key) if told["pin"] else "",
            password=hash_password(told["password"], key),
        )
        fields = {name: [told[name]] for name in ("name", "address", "currency", "paper")}
        if not enter(SHOP, Told(key, SHOP.version, None, fields, owner, sender=owner)).stands:
            raise NotBegun
    return owner
