"""A new password for an owner who forgot theirs.

Open only on the machine that serves, and only with the one-time word that a start with
--new-password printed; that word ends with the next start.
"""

import uuid

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from jobs.forms.people import OwnersPassword
from jobs.logbook import Outcome, Told, enter
from jobs.models import Person
from jobs.models.people import OWNER
from jobs.people_entries import PERSON_CHANGE
from jobs.pins import hash_password
from jobs.views.tablet import from_this_machine, remember_tablet, sign_in_here
from shopac.one_time import NEW_PASSWORD, forget_word, has_word, told_word


@sensitive_post_parameters("password", "password_again", "token")
@require_http_methods(["GET", "HEAD", "POST"])
def new_password(request: HttpRequest) -> HttpResponse:
    """Show the form to whoever has the word; give the password; sign that owner in.

    Raises:
        Http404: asked from another machine, which learns nothing.

    """
    if not from_this_machine(request):
        raise Http404("There is no such page.")
    if not has_word(request, NEW_PASSWORD):
        return show(request, None, status=403)
    owners = Person.objects.filter(role=OWNER, is_active=True)
    form = OwnersPassword(request.POST if request.method == "POST" else None, list(owners))
    if not form.is_bound:
        return show(request, form)
    if not form.is_valid():
        return show(request, form, status=422)
    owner = owners.get(key=form.cleaned_data["owner"])
    outcome = give(owner, form.cleaned_data["password"])
    if not outcome.stands:
        form.add_error(None, outcome.why)
        return show(request, form, status=409)
    forget_word(NEW_PASSWORD)
    owner.refresh_from_db()
    sign_in_here(request, owner)
    response = redirect("board")
    remember_tablet(request, response)
    return response


def show(request: HttpRequest, form: OwnersPassword | None, status: int = 200) -> HttpResponse:
    """The form, with the word it was opened with; without a form, how to get another link."""
    said = {"form": form, "word": told_word(request)}
    return render(request, "shopac/new_password.html", said, status=status)


def give(owner: Person, password: str) -> Outcome:
    """Enter the change as the owner's own; the entry says that it came by the link."""
    key = uuid.uuid4()
    fields = {
        "person": [str(owner.key)],
        "change": ["password"],
        "by": ["new_password"],
        "password_hash": [hash_password(password, key)],
    }
    told = Told(key, PERSON_CHANGE.version, None, fields, owner, sender=owner)
    return enter(PERSON_CHANGE, told)
