"""Whether a paper that somebody brings is a copy of what was issued, and whether it is unchanged.

The file is read in memory and not kept. The answer names the record and no person.
"""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.forms.copy_check import CopyCheckForm
from jobs.paper.copies import check_file, check_hash
from jobs.views.access import signed_in


@signed_in()
def copy_check(request: HttpRequest) -> HttpResponse:
    """The form, and what came out."""
    if request.method != "POST":
        return render(request, "jobs/copy_check.html", {"form": CopyCheckForm()})
    form = CopyCheckForm(request.POST, request.FILES)
    if not form.is_valid():
        return render(request, "jobs/copy_check.html", {"form": form}, status=422)
    told = form.cleaned_data
    checked = check_file(told["copy"]) if told["copy"] else check_hash(told["digits"])
    said = {"form": CopyCheckForm(), "checked": checked, "typed": told["digits"]}
    return render(request, "jobs/copy_check.html", said)
