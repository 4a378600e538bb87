"""What becomes of the old parts, asked before they leave the bay."""

from typing import Any

from django.http import HttpRequest, HttpResponse

from jobs.entries import OLD_PART
from jobs.forms.old_part import OldPartForm
from jobs.models import Job
from jobs.models.old_parts import chosen
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def old_part(request: HttpRequest) -> HttpResponse:
    """One answer for all of them, and what is wished for one in words."""
    return part_page(request, OLD_PART, OldPartForm, filled)


def filled(job: Job) -> dict[str, Any]:
    """What counts now: another answer takes its place, and both stay."""
    last = chosen(job.old_part_choices.all())
    return {"choice": last.choice, "where": last.where} if last else {}
