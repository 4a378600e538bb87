"""Writing an owner's word about a tablet."""

from django.contrib.sessions.models import Session
from django.utils import timezone

from jobs.logbook import Refused
from jobs.models import Entry, Tablet

ON = "tablet"  # where jobs/views/tablet.py keeps in a session on which tablet it began


def change_tablet(entry: Entry, tablet: Tablet, change: str, name: str = "") -> None:
    """Name it, revoke it, or let it back.

    Raises:
        Refused: it is what it is to become.

    """
    if change == "name":
        tablet.name, tablet.named_by, tablet.named_at = name, entry.author, entry.happened_at
    elif change == "revoke":
        if tablet.revoked_at:
            raise Refused("This tablet is revoked already.")
        tablet.revoked_by, tablet.revoked_at = entry.author, entry.happened_at
        end_sessions(tablet)
    elif change == "back":
        if not tablet.revoked_at:
            raise Refused("This tablet is not revoked.")
        tablet.revoked_by = tablet.revoked_at = None
    # Only these: a contact may be written down at the same moment.
    tablet.save(update_fields=["name", "named_by", "named_at", "revoked_by", "revoked_at"])


def end_sessions(tablet: Tablet) -> None:
    """End what somebody is signed in to on that tablet; what does not tell its tablet, too."""
    for session in Session.objects.filter(expire_date__gt=timezone.now()):
        told = session.get_decoded()
        if "_auth_user_id" in told and told.get(ON, str(tablet.key)) == str(tablet.key):
            session.delete()
