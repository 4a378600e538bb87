"""Who may open a page: checked at every view."""

from collections.abc import Callable
from functools import wraps

from django.conf import settings
from django.contrib.auth.views import redirect_to_login
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.shortcuts import render

from jobs.models import Person
from jobs.models.people import ROLES

View = Callable[..., HttpResponseBase]


def signed_in(*roles: str) -> Callable[[View], View]:
    """Let in people of these roles (none named: any role); others see who may, or sign in first."""
    allowed = frozenset(roles) or frozenset(ROLES)

    def wrap(view: View) -> View:
        @wraps(view)
        def guarded(request: HttpRequest, *args: object, **kwargs: object) -> HttpResponseBase:
            person = request.user
            if not isinstance(person, Person):
                return redirect_to_login(request.get_full_path(), settings.LOGIN_URL)
            if person.role not in allowed:
                who = " or ".join(ROLES[role].lower() for role in ROLES if role in allowed)
                return render(request, "jobs/not_for_you.html", {"who": who}, status=403)
            return view(request, *args, **kwargs)

        guarded.roles = allowed  # type: ignore[attr-defined]
        return guarded

    return wrap
