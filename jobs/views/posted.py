"""What a post carried: as an entry, to be shown to whoever typed it, and to be posted again."""

import uuid
from typing import NamedTuple

from django.http import HttpRequest

from jobs.forms.sign_in import SignInAgain
from jobs.logbook import NotAnEntry, Told
from jobs.models import Person
from jobs.photos import posted_files, sent_files, too_many
from jobs.told import WAS
from jobs.views.tablet import this_tablet

# Never shown and never handed back: they are typed anew.
SECRET = frozenset({"pin", "password", "password_again", "token"})
NOT_TYPED = frozenset(
    "csrfmiddlewaretoken key corrects rev button next consent_text consent_about consent_before"
    " consent_asked work_text signature".split()
)


class Line(NamedTuple):
    """One field of a post."""

    name: str
    value: str

    @property
    def words(self) -> str:
        """The field's name as people read it."""
        return self.name.replace("_", " ").capitalize()


def told_from_post(request: HttpRequest, version: int, job_key: uuid.UUID | None = None) -> Told:
    """The entry in a page's own post, when no script sent it: its author is who is signed in.

    A form that lost its key (a page kept on a tablet, posted without script) gets a new one.

    Raises:
        NotAnEntry: the key is no key; more or larger photos than one entry takes.

    """
    post = request.POST
    try:
        key = uuid.UUID(post["key"]) if post.get("key") else uuid.uuid4()
        corrects = uuid.UUID(post["corrects"]) if post.get("corrects") else None
    except ValueError:
        raise NotAnEntry("This form’s key cannot be read; open the form again.") from None
    author = request.user
    if not isinstance(author, Person):
        raise NotAnEntry("Nobody is signed in.")
    photos = posted_files(request)
    wrong = photos_wrong(request)
    if wrong:
        raise NotAnEntry(wrong)
    return Told(
        key=key,
        version=version,
        job_key=job_key,
        fields={name: post.getlist(name) for name in post},
        author=author,
        sender=author,
        tablet=this_tablet(request),
        photos=sent_files(photos),
        corrects=corrects,
    )


def photos_wrong(request: HttpRequest) -> str:
    """What is wrong with the number and the size of the files of a post; empty: nothing."""
    sizes = [file.size or 0 for _, file in posted_files(request)]
    return too_many(len(sizes), max(sizes, default=0))


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
