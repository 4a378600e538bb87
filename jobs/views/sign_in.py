"""Signing in and out; on a shared tablet, the change of person."""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render, resolve_url
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from jobs.contacts import revoked
from jobs.forms.sign_in import ByPassword, ByPin
from jobs.models import Person
from jobs.models.people import OWNER
from jobs.views.access import signed_in
from jobs.views.tablet import (
    from_this_machine,
    let_pins_work,
    pins_work,
    remember_tablet,
    revoked_words,
    session_since,
    sign_in_here,
    sign_out_here,
    stop_pins,
    this_tablet,
)


@sensitive_post_parameters("pin", "password")
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """Tap a name and type the PIN, or type name and password.

    Names and PINs are for the shop's own tablets (`pins_work`); elsewhere there is only the form
    for a password. With `kept` in the address it is the page that a tablet keeps: it has no name on
    it, and its script lets somebody pick theirs while the server is away.
    """
    if request.method != "POST" and "kept" in request.GET:
        return render(request, "jobs/sign_in.html", {"kept": True})
    by_pin = pins_work(request) and request.POST.get("by", request.GET.get("by")) != "password"
    if request.method == "POST":
        form = (ByPin if by_pin else ByPassword)(request.POST)
        if not form.is_valid():
            return show(request, form, by_pin, status=422)
        sign_in_here(request, form.who)
        response = redirect(way_on(request))
        remember_tablet(request, response)
        return response
    tapped = request.GET.get("person", "")
    if by_pin and tapped:
        return show(request, ByPin(initial={"person": tapped}), by_pin)
    return show(request, None if by_pin else ByPassword(), by_pin)


def people_with_pin() -> list[Person]:
    """Whose names may be tapped where PINs work."""
    return list(Person.objects.filter(is_active=True).exclude(pin=""))


def show(
    request: HttpRequest, form: ByPin | ByPassword | None, by_pin: bool, status: int = 200
) -> HttpResponse:
    """The page: names to tap, or with a form the PIN of one of them, or name and password."""
    people = people_with_pin() if by_pin else []
    tapped = None
    if isinstance(form, ByPin):
        tapped = next((one for one in people if str(one.key) == form["person"].value()), None)
        if tapped:
            form["pin"].label = f"PIN of {tapped.name}"
        else:
            form = None
    said = {
        "form": form,
        "people": people,
        "tapped": tapped,
        "by_pin": by_pin,
        "pins_work": pins_work(request),
        "revoked": revoked_words(revoked(this_tablet(request))),
        "next": request.POST.get("next", request.GET.get("next", "")),
        "since": session_since(request),
        "on_server": from_this_machine(request),
    }
    return render(request, "jobs/sign_in.html", said, status=status)


def way_on(request: HttpRequest) -> str:
    """The page somebody wanted before signing in, if it is one of ours."""
    told = request.POST.get("next", "")
    ours = url_has_allowed_host_and_scheme(
        told, allowed_hosts={request.get_host()}, require_https=request.is_secure()
    )
    return told if ours else resolve_url(settings.LOGIN_REDIRECT_URL)


@require_POST
def sign_in_leave(request: HttpRequest) -> HttpResponse:
    """Sign out. What is kept on the tablet stays there, and the tablet stays known.

    A page names the session it shows: a sign-out that a tablet tells late ends nobody else's.
    """
    if request.POST.get("since", session_since(request)) == session_since(request):
        sign_out_here(request)
    return redirect("sign_in")


@require_POST
@signed_in(OWNER)
def sign_in_tablet(request: HttpRequest) -> HttpResponse:
    """Name this browser a tablet of the shop, where PINs work; or take that back."""
    response = redirect("people")
    owner = request.user
    if request.POST.get("button") == "stop":
        stop_pins(response)
    elif isinstance(owner, Person):
        let_pins_work(request, response, owner)
    return response
