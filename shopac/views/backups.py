"""The owner's page of backups: the last one, whether it can be restored, where it lies, and more.

A backup and a drill are made by a process of their own; the page says how far it is. Neither is an
entry: nothing of the shop's changes by them. Nothing on the page asks the database.
"""

import shutil
import subprocess
import sys
import threading
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from django import forms
from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.timesince import timesince
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST, require_safe

from jobs.forms.people import PasswordTwice
from jobs.models.people import OWNER
from jobs.models.wordings import in_shop_time
from jobs.views.access import asks_for_part, signed_in
from shopac.backups import keeping, known, sealed
from shopac.backups.keeping import RULE, Kept
from shopac.backups.tail import ASKED, DAILY, UPDATE
from shopac.backups.trouble import BackupTrouble
from shopac.backups.writing import in_words, many

COMMANDS = {"backup": "Copying the database", "drill": "Reading the backup"}
WHY = {DAILY: "by itself, that day", ASKED: "asked for", UPDATE: "before an update, database only"}


class PassphraseForm(PasswordTwice):
    """The passphrase under which the key of the certificate authority goes into backups."""

    use_required_attribute = False

    def __init__(self, data: Any = None) -> None:
        super().__init__(data)
        told = f"{sealed.FEWEST} characters or more. It is kept nowhere; write it down."
        self.fields["password"].label = "Passphrase"
        self.fields["password"].help_text = told
        self.fields["password_again"].label = "Passphrase again"

    def clean_password(self) -> str:
        """Hold it to its length."""
        typed: str = self.cleaned_data["password"]
        if len(typed.strip()) < sealed.FEWEST:
            raise forms.ValidationError(f"Type {sealed.FEWEST} characters or more.")
        return typed


@require_safe
@signed_in(OWNER)
def backups(request: HttpRequest) -> HttpResponse:
    """The page; its script asks for the part that says how far one under way is."""
    if not asks_for_part(request):
        return show(request, PassphraseForm())
    now = known.under_way(Path(settings.DATA))
    response = render(request, "shopac/_backups_now.html", {"now": now})
    if now is None:
        response.headers["HX-Refresh"] = "true"
    return response


@require_POST
@signed_in(OWNER)
def backups_make(request: HttpRequest) -> HttpResponse:
    """Begin a backup or a drill; one that is under way already goes on instead."""
    what = request.POST.get("make", "")
    if what not in COMMANDS:
        raise Http404("There is no such thing to make.")
    if known.under_way(Path(settings.DATA)) is None:
        known.tell_now(Path(settings.DATA), COMMANDS[what])
        threading.Thread(target=run, args=(what,), daemon=True).start()
    return redirect("backups")


@require_POST
@sensitive_post_parameters("password", "password_again")
@signed_in(OWNER)
def backups_seal(request: HttpRequest) -> HttpResponse:
    """Seal the authority's key for the backups to come."""
    form = PassphraseForm(request.POST)
    if not form.is_valid():
        return show(request, form, status=422)
    try:
        sealed.seal(Path(settings.DATA), form.cleaned_data["password"])
    except BackupTrouble as wrong:
        form.add_error(None, str(wrong))
        return show(request, form, status=409)
    return redirect("backups")


def run(what: str) -> None:
    """Run a command in a process of its own, which goes on when the server ends meanwhile."""
    subprocess.run(
        [sys.executable, "manage.py", what],
        cwd=settings.BASE_DIR,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
        check=False,
    )


def show(request: HttpRequest, form: PassphraseForm, status: int = 200) -> HttpResponse:
    """The whole page."""
    folder, data = Path(settings.BACKUPS), Path(settings.DATA)
    kept, told = keeping.listed(folder), known.read(data)
    last = keeping.newest(kept)
    said = {
        "last": line(last) if last else None,
        "told": told,
        "failed_at": when(told.failed_at),
        "drilled_at": when(told.drilled_at),
        "drill_old": bool(last and told.drilled and told.drilled != last.path.name),
        "warnings": known.warnings(data, timezone.now()),
        "now": known.under_way(data),
        "lines": [line(one) for one in kept],
        "folder": folder,
        "same_disk": same_disk(folder, data),
        "together": in_words(sum(one.size for one in kept)),
        "free": in_words(shutil.disk_usage(folder if folder.is_dir() else data).free),
        "rule": RULE,
        "authority": sealed.state(data),
        "form": form,
        "command": f"{sys.executable} manage.py restore",
        "program": settings.BASE_DIR,
        "data": data,
    }
    return render(request, "shopac/backups.html", said, status=status)


def line(one: Kept) -> dict[str, Any]:
    """One backup in words."""
    counts = one.tail.counts
    parts = ("jobs", "entries", *(("photos", "records") if one.tail.whole else ()))
    return {
        "name": one.path.name,
        "at": in_shop_time(one.tail.at),
        "ago": ago(one.tail.at),
        "size": in_words(one.size),
        "why": WHY.get(one.tail.why, one.tail.why),
        "counts": ", ".join(many(counts[part], part) for part in parts if part in counts),
    }


def ago(at: datetime) -> str:
    """How long ago, roughly."""
    return (
        "just now"
        if timezone.now() - at < timedelta(minutes=1)
        else f"{timesince(at, depth=1)} ago"
    )


def when(told: str) -> str:
    """A time as it is kept, in the shop's words; empty stays empty."""
    return in_shop_time(datetime.fromisoformat(told)) if told else ""


def same_disk(folder: Path, data: Path) -> bool:
    """Whether the backups lie on the disk of the data; a folder not there yet will be made there.

    Two partitions of one disk look like two disks, which the page says.
    """
    there = next(one for one in (folder, *folder.parents) if one.exists())
    return there.stat().st_dev == data.stat().st_dev
