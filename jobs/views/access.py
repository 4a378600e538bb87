"""Who may open a page: checked at every view."""

from collections.abc import Callable
from functools import wraps

from django.conf import settings
from django.contrib.auth.views import redirect_to_login
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render

from jobs.forms.sign_in import SignInAgain
from jobs.models import Person
from jobs.models.people import ROLES
from jobs.views.posted import typed
from jobs.views.tablet import pins_work, remember_tablet, sign_in_here

View = Callable[..., HttpResponseBase]


class SignInEnded(Exception):
    """Nobody is signed in (any more) and something was posted; the page `held_post` answers.

    `form` is the one by which somebody tried to sign for it, if anybody did.
    """

    def __init__(self, form: SignInAgain | None = None) -> None:
        super().__init__("Nobody is signed in.")
        self.form = form


def signed_in(*roles: str) -> Callable[[View], View]:
    """Let in people of these roles (none named: any role); others see who may, or sign in first.

    A post without a sign-in is not lost: it is shown again with a question for the PIN and comes
    back here together with it.
    """
    allowed = frozenset(roles) or frozenset(ROLES)

    def wrap(view: View) -> View:
        @wraps(view)
        def guarded(request: HttpRequest, *args: object, **kwargs: object) -> HttpResponseBase:
            again = SignInAgain.sent_with(request.POST)
            if again:
                sign_in_again(request)
            person = request.user
            if not isinstance(person, Person):
                return nobody(request)
            if person.role not in allowed:
                response: HttpResponseBase = not_for_you(request, allowed)
            else:
                response = view(request, *args, **kwargs)
            if again:
                remember_tablet(request, response)
            return response

        guarded.roles = allowed  # type: ignore[attr-defined]
        return guarded

    return wrap


def role_of(request: HttpRequest | None) -> str:
    """The role of whoever asks; empty: nobody is signed in."""
    person = request.user if request else None
    return person.role if isinstance(person, Person) else ""


def sign_in_again(request: HttpRequest) -> None:
    """Sign in with the PIN or password that came with a post, and take them out of it.

    Raises:
        SignInEnded: they were not right.

    """
    form = SignInAgain(request.POST, pins=pins_work(request))
    if not form.is_valid():
        raise SignInEnded(form)
    sign_in_here(request, form.person)
    request.POST = SignInAgain.without(request.POST)  # type: ignore[assignment]


def nobody(request: HttpRequest) -> HttpResponseBase:
    """What a page answers when nobody is signed in.

    Raises:
        SignInEnded: something was posted.

    """
    if request.method == "POST":
        raise SignInEnded
    if asks_for_part(request):  # of a page somebody types in: leave it as it is
        return HttpResponse("Sign in again to see this.", status=401)
    return redirect_to_login(request.get_full_path(), settings.LOGIN_URL)


def asks_for_part(request: HttpRequest) -> bool:
    """Whether a part of a page is asked for, by its script."""
    return bool(getattr(request, "htmx", False))


def not_for_you(request: HttpRequest, allowed: frozenset[str]) -> HttpResponse:
    """The page that says whose work this is, and shows what was typed."""
    who = " or ".join(ROLES[role].lower() for role in ROLES if role in allowed)
    said = {"who": who, "typed": typed(request)}
    return render(request, "jobs/not_for_you.html", said, status=403)
