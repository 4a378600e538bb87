"""The tablets of the shop: when each was last heard of, and what it had not sent then."""

import uuid
from datetime import datetime, timedelta
from typing import Any, NamedTuple

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from jobs.forms.tablets import TabletName
from jobs.logbook import enter
from jobs.models import Tablet
from jobs.models.people import OWNER
from jobs.models.wordings import in_shop_time
from jobs.people_entries import TABLET_CHANGE
from jobs.told import as_key
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.posted import told_from_post
from jobs.views.tablet import this_tablet

# A tablet with something unsent that was not heard of for so long stands out; one with nothing
# unsent and no name that was not heard of for so long stands apart. Our judgement.
SILENT = timedelta(days=1)
LONG_GONE = timedelta(days=30)


class Row(NamedTuple):
    """One tablet as the list has it: what stands out first, then what it last told."""

    tablet: Tablet
    out: str
    last: str
    told: list[str]
    here: bool


@require_safe
@signed_in(OWNER)
def tablets(request: HttpRequest) -> HttpResponse:
    """All of them, newest contact first; or one, to be named, revoked or let back."""
    told = request.GET.get("tablet", "")
    if told:
        return show_one(request, tablet_of(told))
    now, here = timezone.now(), this_tablet(request)
    rows = [row_of(one, now, here) for one in listed()]
    kept = [row for row in rows if not is_old(row.tablet, now)]
    said = {"rows": kept, "old": [row for row in rows if is_old(row.tablet, now)]}
    return render(request, "jobs/tablets.html", said)


@require_POST
@signed_in(OWNER)
def tablets_change(request: HttpRequest) -> HttpResponse:
    """Name a tablet, revoke it, let it back."""
    tablet = tablet_of(request.POST.get("tablet", ""))
    outcome = enter(TABLET_CHANGE, told_from_post(request, TABLET_CHANGE.version))
    return answer(request, outcome, lambda form: show_one(request, tablet, form))


def listed() -> list[Tablet]:
    """Newest contact first; those never heard of last."""
    rows = list(Tablet.objects.select_related("named_by", "revoked_by"))
    never = datetime.min.replace(tzinfo=timezone.get_default_timezone())
    return sorted(rows, key=lambda one: (one.last_contact or never, one.pk), reverse=True)


def tablet_of(told: str) -> Tablet:
    """The tablet of a key.

    Raises:
        Http404: it is no key, or no tablet's.

    """
    key = as_key(told)
    if key is None:
        raise Http404("This link’s tablet cannot be read.")
    return get_object_or_404(Tablet.objects.select_related("named_by", "revoked_by"), key=key)


def show_one(request: HttpRequest, tablet: Tablet, bound: Any = None) -> HttpResponse:
    """One tablet, with what it told and what can be done."""
    now = timezone.now()
    form = TabletName(initial={"name": tablet.name})
    problems = []
    if bound is not None:
        form = TabletName(request.POST)
        form.is_valid()
        for name, sentences in bound.errors.items():
            if name in form.fields and name not in form.errors:
                form.add_error(name, sentences)
            elif name not in form.fields:
                problems += sentences
    said = {
        "tablet": tablet,
        "row": row_of(tablet, now, this_tablet(request)),
        "facts": facts(tablet),
        "form": form,
        "problems": problems,
        "name_key": request.POST.get("key") if bound is not None else uuid.uuid4(),
        "key": uuid.uuid4(),
    }
    return render(request, "jobs/tablets.html", said)


def row_of(tablet: Tablet, now: datetime, here: uuid.UUID | None) -> Row:
    """A tablet's line in the list."""
    last = last_words(tablet, now)
    out = stands_out(tablet, now)
    return Row(tablet, out, last, told_words(tablet, now), tablet.key == here)


def stands_out(tablet: Tablet, now: datetime) -> str:
    """What an owner has to see first; empty: nothing."""
    if tablet.revoked_at:
        left = f" It had {entries(tablet.unsent)} unsent, as it last told." if tablet.unsent else ""
        return f"Revoked by {tablet.revoked_by}, {in_shop_time(tablet.revoked_at)}.{left}"
    silent = is_silent(tablet, now)
    if tablet.unsent and silent and tablet.last_contact:
        gone = since_words(now - tablet.last_contact)
        return f"Not heard of for {gone}, with {entries(tablet.unsent)} unsent as it last told."
    if tablet.waiting:
        wait = "waits" if tablet.waiting == 1 else "wait"
        return f"{entries(tablet.waiting)} there {wait} for a person, as it last told."
    return ""


def is_silent(tablet: Tablet, now: datetime) -> bool:
    """Whether it was not heard of for a day or more."""
    return tablet.last_contact is None or now - tablet.last_contact >= SILENT


def is_old(tablet: Tablet, now: datetime) -> bool:
    """Whether it may stand apart: long gone, nameless, with nothing to tell of."""
    if tablet.name or tablet.unsent or tablet.revoked_at:
        return False
    return tablet.last_contact is None or now - tablet.last_contact >= LONG_GONE


def last_words(tablet: Tablet, now: datetime) -> str:
    """When it was last heard of."""
    if tablet.last_contact is None:
        return "Not heard of yet."
    gone = now - tablet.last_contact
    if timedelta(0) <= gone < timedelta(minutes=2):
        return "Heard of just now."
    ago = f" ({since_words(gone)} ago)" if gone > timedelta(0) else ""
    return f"Last heard of {in_shop_time(tablet.last_contact)}{ago}."


def told_words(tablet: Tablet, now: datetime) -> list[str]:
    """What it had not sent, as it last told."""
    if tablet.unsent is None or tablet.told_at is None:
        return ["It has not told what it keeps."]
    last = tablet.last_contact or now
    at = f", {in_shop_time(tablet.told_at)}" if last - tablet.told_at > timedelta(minutes=2) else ""
    if not tablet.unsent:
        return [f"Nothing unsent, as it last told{at}."]
    photos = (
        f", {counted(tablet.photos or 0, 'photo', 'photos')} with them" if tablet.photos else ""
    )
    found = [f"{entries(tablet.unsent)} unsent{photos}, as it last told{at}."]
    if tablet.oldest_at:
        found.append(f"The oldest was kept {in_shop_time(tablet.oldest_at)}.")
    return found


def facts(tablet: Tablet) -> list[tuple[str, str]]:
    """What else is known of it: (what, in words)."""
    asked = {True: "Yes, by its browser’s word.", False: LOSES, None: "Not told."}
    size = "Not told." if tablet.kept_bytes is None else bytes_words(tablet.kept_bytes)
    named = ""
    if tablet.named_by and tablet.named_at:
        named = f"{tablet.named_by}, {in_shop_time(tablet.named_at)}"
    return [
        ("Browser, as it says", tablet.browser or "Not told."),
        ("Version of its scripts", tablet.version or "Not told."),
        ("PINs", "Work there by an owner’s word." if tablet.pins else "Not by an owner’s word."),
        ("All it keeps, by its own count", size),
        ("Lasting storage", asked[tablet.persisted]),
        ("Size on its screen", px_words(tablet)),
        ("Named by", named or "Nobody yet."),
        ("Key", str(tablet.key)),
    ]


LOSES = "No: its browser may clear what is kept when the tablet runs short of room."


def px_words(tablet: Tablet) -> str:
    """Pixels to the millimeter, where they were chosen."""
    if tablet.px_per_mm is None:
        return "Not chosen: as it comes."
    return f"{tablet.px_per_mm} px to the millimeter, as chosen there."


def bytes_words(size: int) -> str:
    """A number of bytes as people read it; a megabyte is a million."""
    if size < 1000:
        return counted(size, "byte", "bytes")
    return f"{size / 1000:.0f} kB" if size < 1_000_000 else f"{size / 1_000_000:.1f} MB"


def since_words(gone: timedelta) -> str:
    """How long: 5 minutes, 3 hours, 4 days; whole ones that went by."""
    minutes = int(gone.total_seconds() // 60)
    if minutes < 60:
        return counted(minutes, "minute", "minutes")
    if minutes < 48 * 60:
        return counted(minutes // 60, "hour", "hours")
    return counted(gone.days, "day", "days")


def entries(count: int | None) -> str:
    """4 entries."""
    return counted(count or 0, "entry", "entries")


def counted(count: int, one: str, many: str) -> str:
    """1 photo, 2 photos."""
    return f"{count} {one if count == 1 else many}"
