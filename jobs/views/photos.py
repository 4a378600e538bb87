"""The photos of a job, and their bytes for those who are signed in."""

import re

from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from jobs.kept_bytes import place
from jobs.models import Photo
from jobs.views.access import signed_in
from jobs.views.asked import asked_job

DIGEST = re.compile(r"[0-9a-f]{64}")


@require_safe
@signed_in()
def photos(request: HttpRequest) -> HttpResponse:
    """Every photo of one job in the order they arrived, unreadable ones with their reason."""
    job = asked_job(request)
    kept = Photo.objects.filter(job_key=job.key).select_related("entry__author").order_by("id")
    return render(request, "jobs/photos.html", {"job": job, "photos": kept})


@require_safe
@signed_in()
def photos_shown(_request: HttpRequest, digest: str) -> FileResponse:
    """The re-encoded picture of that hash. Its bytes never change, so a browser may keep them."""
    if not Photo.objects.filter(stored_sha256=digest).exists():
        raise Http404("No such photo.")
    response = stored(digest, "photos", ".jpg", "image/jpeg")
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return response


@require_safe
@signed_in()
def photos_original(_request: HttpRequest, digest: str) -> FileResponse:
    """The bytes as sent of a file that could not be shown: to be saved, never opened in place."""
    photo = Photo.objects.filter(sent_sha256=digest, stored_sha256="").order_by("id").first()
    if photo is None:
        raise Http404("No such file.")
    response = stored(digest, "originals", "", "application/octet-stream")
    response.headers["Content-Disposition"] = f'attachment; filename="original-{digest[:12]}.bin"'
    response.headers["Content-Security-Policy"] = "sandbox; default-src 'none'"
    return response


def stored(digest: str, folder: str, ending: str, content_type: str) -> FileResponse:
    """The bytes of that hash.

    Raises:
        Http404: no hash, or the file is gone from the disk.

    """
    if not DIGEST.fullmatch(digest):
        raise Http404("No such photo.")
    try:
        return FileResponse(place(folder, digest, ending).open("rb"), content_type=content_type)
    except FileNotFoundError:
        raise Http404("The file of this photo is not on the shop server’s disk any more.") from None
