"""The photos of a job, by place; one photo; and their bytes for those who are signed in."""

import re
import uuid
from collections import Counter
from typing import Any

from django.db.models import Q, QuerySet
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from jobs.entries import PHOTO_FILED, QUALIFICATION
from jobs.forms.photo import FiledForm
from jobs.kept_bytes import place
from jobs.logbook import enter
from jobs.models import Entry, Job, Photo
from jobs.models.ac_places import NOT_FILED, WORDS
from jobs.models.people import OWNER
from jobs.models.photos import photos_of
from jobs.views.access import role_of, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job
from jobs.views.posted import told_from_post

DIGEST = re.compile(r"[0-9a-f]{64}")
UNFILED = "none"  # in the address: photos that are not filed at a place


@require_safe
@signed_in()
def photos(request: HttpRequest) -> HttpResponse:
    """The photos of one job by their places, or those of one place; unreadable ones with why."""
    job = asked_job(request)
    asked = request.GET.get("place", "")
    all_of_job = list(photos_of(job))
    counts = Counter(one.place for one in all_of_job)
    told = "" if asked == UNFILED else asked
    shown = [one for one in all_of_job if not asked or one.place == told]
    said = {
        "job": job,
        "system": job.vehicle.system,
        "counts": counts,
        "address": f"{reverse('photos')}?job={job.key}",
        "unfiled": counts[""],
        "count": len(all_of_job),
        "asked": asked,
        "asked_words": NOT_FILED if asked == UNFILED else WORDS.get(asked, asked),
        "groups": by_place(shown),
    }
    return render(request, "jobs/photos.html", said)


def by_place(shown: list[Photo]) -> list[tuple[str, list[Photo]]]:
    """Photos under the words of their place, in the order of the places; not filed ones last."""
    order = [*WORDS, *sorted({one.place for one in shown} - WORDS.keys() - {""}), ""]
    groups = ((code, [one for one in shown if one.place == code]) for code in order)
    return [(listed[0].place_words, listed) for _code, listed in groups if listed]


@signed_in()
def photos_view(request: HttpRequest, entry: uuid.UUID, number: int) -> HttpResponse:
    """One photo large, the one before and the one after it, and where it is filed."""
    rows = Photo.objects.select_related("entry__author", "filed_by__author", "superseded_by")
    shown = rows.filter(entry__key=entry, number=number).first()
    if shown is None or shown.job_key is None:
        raise Http404("No such photo.")
    jobs = Job.objects.select_related("customer", "vehicle__system")
    asked = jobs.filter(key=shown.job_key).first()
    if asked is None:
        raise Http404("No such photo.")
    if request.method == "POST":
        outcome = enter(PHOTO_FILED, told_from_post(request, PHOTO_FILED.version, asked.key))
        return answer(request, outcome, lambda form: show(request, asked, shown, form))
    names = ("place", "about", "note", "personal")
    initial = {name: getattr(shown, name) for name in names} | {
        "step": str(shown.step_key or ""),
        "of": str(shown.entry.key),
        "number": shown.number,
    }
    return show(request, asked, shown, FiledForm(job_key=asked.key, initial=initial))


def show(request: HttpRequest, job: Job, shown: Photo, form: Any) -> HttpResponse:
    """The page of one photo."""
    standing = list(photos_of(job))
    ids = [one.pk for one in standing]
    at = ids.index(shown.pk) if shown.pk in ids else -1
    said = {
        "job": job,
        "system": job.vehicle.system,
        "photo": shown,
        "at": at + 1,
        "count": len(standing),
        "before": standing[at - 1] if at > 0 else None,
        "after": standing[at + 1] if 0 <= at < len(standing) - 1 else None,
        "filings": filings(shown),
        "form": form,
        "kind": PHOTO_FILED,
        "corrects": "",
        "key": request.POST.get("key") or uuid.uuid4(),
    }
    return render(request, "jobs/photos.html", said)


def filings(shown: Photo) -> list[tuple[str, Entry]]:
    """Where it was filed, and by whom, the last one last; each in words."""
    told = Entry.objects.filter(
        Q(kind="photo_filed", fields__of=[str(shown.entry.key)])
        | Q(kind="photo", pk=shown.entry_id),
        job_key=shown.job_key,
    ).select_related("author")
    rows = told.order_by("happened_at", "id")
    mine = [
        one for one in rows if one.fields.get("number", [str(shown.number)]) == [str(shown.number)]
    ]
    return [(said_in(one), one) for one in mine]


def said_in(entry: Entry) -> str:
    """What an entry said of the place and the photo, in words."""

    def told(name: str) -> str:
        return str(entry.fields.get(name, [""])[0])

    as_told = Photo(place=told("place"), about=told("about"), note=told("note"))
    return ". ".join(one for one in (as_told.place_words, as_told.about_words) if one)


@require_safe
@signed_in()
def photos_shown(request: HttpRequest, digest: str) -> FileResponse:
    """The re-encoded picture of that hash, or its small copy.

    Its bytes never change, so a browser may keep them.
    """
    known = Q(stored_sha256=digest) | Q(small_sha256=digest)
    if not for_them(request, digest).filter(known).exists():
        raise Http404("No such photo.")
    response = stored(digest, "photos", ".jpg", "image/jpeg")
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return response


@require_safe
@signed_in()
def photos_original(request: HttpRequest, digest: str) -> FileResponse:
    """The bytes as sent of a file that could not be shown: to be saved, never opened in place."""
    asked = for_them(request, digest).filter(sent_sha256=digest, stored_sha256="")
    photo = asked.order_by("id").first()
    if photo is None:
        raise Http404("No such file.")
    response = stored(digest, "originals", "", "application/octet-stream")
    response.headers["Content-Disposition"] = f'attachment; filename="original-{digest[:12]}.bin"'
    response.headers["Content-Security-Policy"] = "sandbox; default-src 'none'"
    return response


def for_them(request: HttpRequest, digest: str) -> QuerySet[Photo]:
    """The photos that somebody may look at by a hash: those of people's cards are the owner's.

    What is no hash is asked of no database and no folder.
    """
    if not DIGEST.fullmatch(digest):
        return Photo.objects.none()
    rows = Photo.objects.all()
    return rows if role_of(request) == OWNER else rows.exclude(entry__kind=QUALIFICATION.name)


def stored(digest: str, folder: str, ending: str, content_type: str) -> FileResponse:
    """The bytes of a hash that a photo has.

    Raises:
        Http404: the file is gone from the disk.

    """
    try:
        return FileResponse(place(folder, digest, ending).open("rb"), content_type=content_type)
    except FileNotFoundError:
        raise Http404("The file of this photo is not on the shop server’s disk any more.") from None
