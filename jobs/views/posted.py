"""What a post carried: to be shown to whoever typed it, and to be posted again."""

from typing import NamedTuple

from django.http import HttpRequest

from jobs.forms.sign_in import SignInAgain
from jobs.told import WAS

# Never shown and never handed back: they are typed anew.
SECRET = frozenset({"pin", "password", "password_again", "token"})
NOT_TYPED = frozenset(
    {"csrfmiddlewaretoken", "key", "corrects", "rev", "button", "next", "consent_text"}
)


class Line(NamedTuple):
    """One field of a post."""

    name: str
    value: str

    @property
    def words(self) -> str:
        """The field's name as people read it."""
        return self.name.replace("_", " ").capitalize()


def lines(request: HttpRequest) -> list[Line]:
    """All that was posted, but for tokens and secrets."""
    return [
        Line(name, value)
        for name, values in request.POST.lists()
        if name not in SECRET
        and name != "csrfmiddlewaretoken"
        and not name.startswith(SignInAgain.PREFIX)
        for value in values
    ]


def typed(request: HttpRequest) -> list[Line]:
    """What a person typed or tapped."""
    return [
        line
        for line in lines(request)
        if line.value and line.name not in NOT_TYPED and not line.name.startswith(WAS)
    ]


def secrets_typed(request: HttpRequest) -> bool:
    """Whether a PIN or password was among it, which has to be typed again."""
    return any(request.POST.get(name) for name in SECRET)


def files(request: HttpRequest) -> dict[str, str]:
    """The files by their field, as a list of their names; they have to be chosen again."""
    return {
        field: ", ".join((file.name or "a photo")[:80] for file in listed)
        for field, listed in request.FILES.lists()
    }
