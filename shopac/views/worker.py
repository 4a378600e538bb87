"""The worker that keeps pages and files on a tablet; at the root, so that it sees every page."""

import json

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from diagnostics.evidence.catalogue import KINDS
from shopac.version import VERSION


@require_safe
def worker(request: HttpRequest) -> HttpResponse:
    """The script, asked for anew each time: a stale worker could keep a shop on old pages."""
    said = {
        "version": VERSION,
        "pages": json.dumps(kept_pages()),
        "first": json.dumps(reverse("board")),
        "instead": json.dumps({reverse("steps"): reverse("job")}),
        "notice": json.dumps(reverse("offline")),
        "files": json.dumps(settings.STATIC_URL),
    }
    response = render(request, "shopac/worker.js", said, content_type="text/javascript")
    response.headers["Cache-Control"] = "no-cache"
    return response


def program_version(_request: HttpRequest) -> dict[str, str]:
    """For every template: of which version the page and its scripts are."""
    return {"program_version": VERSION}


def kept_pages() -> list[str]:
    """Addresses of pages that are the same for every job, and so are kept once each."""
    names = ["job", "intake", "customer", "vehicle", "system", "consent", "repair", "photo"]
    names += ["place", "waiting", "handover", "tag", "conditions", "screen", "unsent"]
    names += ["oil", "evacuation"]
    names += ["recovery", "charge", "machine_cycle"]
    names += ["verdict", "verification", "options", "decision", "named", "old_part"]
    names += ["loop_parts", "taken_out"]
    pages = [*(reverse(name) for name in names)]
    pages += [f"{reverse(name)}?kept" for name in ("board", "find", "sign_in")]
    return pages + [reverse("step", args=[kind]) for kind in KINDS]
