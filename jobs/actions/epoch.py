"""Beginning a new epoch: what tablets were told of the database holds no more."""

from django.utils import timezone

from jobs.models import Epoch


def begin(why: str) -> Epoch:
    """Begin a new epoch; `why` is told to the owner, in at most 300 characters."""
    return Epoch.objects.create(began_at=timezone.now(), why=why[:300])
