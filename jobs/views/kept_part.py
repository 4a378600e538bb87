"""A part of a page that is made anew only when something new was told.

Every change is an entry, so what a page says of a job stays as it is until one comes that it may
rest on. What goes by the clock makes it old after a minute.
"""

import re
import uuid
from collections.abc import Callable

from django.core.cache import cache
from django.http import HttpRequest
from django.middleware.csrf import get_token
from django.utils import timezone
from django.utils.safestring import SafeString, mark_safe

from jobs.models import Job
from jobs.models.jobs import last_told

BY_THE_CLOCK = 60  # seconds
UNTIL_TOLD = 3600
TOKEN = re.compile(r'(name="csrfmiddlewaretoken" value=")[^"]*')
KEY = re.compile(r'(name="key" value=")[^"]+')


def kept_until_told(
    request: HttpRequest, job: Job, make: Callable[[], tuple[str, bool]]
) -> SafeString:
    """The part as it was made last, with form tokens and entries' keys of its own.

    `make` returns it, and whether anything in it goes by the clock.
    """
    person, today = getattr(request.user, "pk", None), timezone.localdate()
    kept = f"told.{job.key}.{last_told(job)}.{person}.{today}"
    part = cache.get(kept)
    if part is None:
        part, by_the_clock = make()
        cache.set(kept, part, BY_THE_CLOCK if by_the_clock else UNTIL_TOLD)
    return fresh(part, get_token(request))


def fresh(part: str, token: str) -> SafeString:
    """A part with this form token, and another key in each of its forms."""
    with_token = TOKEN.sub(rf"\g<1>{token}", part)
    return mark_safe(KEY.sub(lambda found: f"{found[1]}{uuid.uuid4()}", with_token))  # noqa: S308
