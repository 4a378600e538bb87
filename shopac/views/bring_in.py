"""Bring in a file of entries that a tablet saved: for one that is revoked, or sends no more."""

from typing import Any, NamedTuple
from uuid import UUID

from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_http_methods

from diagnostics.record.words import kind_words
from jobs.logbook import FORBIDDEN, OVERTAKEN, RETURNED, Outcome
from jobs.models import Entry, Job, Person
from jobs.models.people import OWNER
from jobs.models.wordings import in_shop_time
from jobs.views.access import signed_in
from shopac.door import ENTRIES
from shopac.views.kept_file import Brought, NotAFile, bring, in_order, read_file

NO_FILE = "Choose the file that was saved on the tablet."
OVERTAKEN_WORDS = "A later version of it is on the shop server; this one is not kept."

NO_CAR = (
    "Its car is not on the shop server. Bring in what the tablet saved where the car was taken in,"
    " then this again."
)


class Line(NamedTuple):
    """One entry of a file, as the page shows it."""

    what: str
    by: str
    taken: bool
    words: str
    url: str


@require_http_methods(["GET", "HEAD", "POST"])
@signed_in(OWNER)
def bring_in(request: HttpRequest) -> HttpResponse:
    """Ask for files; take in what they hold, entry by entry, and list what came of each.

    A file that is brought in twice gets the same answer twice: what stands is told with the time at
    which it first arrived.
    """
    if request.method != "POST":
        return show(request)
    files = [one for one in request.FILES.getlist("file") if isinstance(one, UploadedFile)]
    if not files:
        return show(request, NO_FILE, status=422)
    saved = []
    for file in files:
        try:
            saved.append(read_file(file, file.size or 0))  # type: ignore[arg-type]
        except NotAFile as wrong:
            return show(request, f"{file.name}: {wrong} Nothing was taken in.", status=422)
    owner = request.user
    if not isinstance(owner, Person):
        return show(request)
    own = bool(request.POST.get("own"))
    return show(request, lines=told_lines(bring_all(in_order(*saved), owner, own=own)))


def bring_all(entries: list[dict[str, Any]], owner: Person, *, own: bool) -> list[Brought]:
    """Let them in; once more what came before its car, which another tablet had taken in."""
    came = [bring(said, owner, own=own) for said in entries]
    jobs = [one.told.job_key for one in came if one.told and is_returned(one)]
    early = [key for key in jobs if key]
    here = set(Job.objects.filter(key__in=early).values_list("key", flat=True))
    return [
        bring(said, owner, own=own)
        if is_returned(one) and one.told and one.told.job_key in here
        else one
        for one, said in zip(came, entries, strict=True)
    ]


def is_returned(brought: Brought) -> bool:
    """Whether it would have gone back to its form."""
    return bool(brought.outcome and brought.outcome.state == RETURNED)


def show(
    request: HttpRequest, problem: str = "", lines: list[Line] | None = None, status: int = 200
) -> HttpResponse:
    """The form, and above it what came of the entries."""
    taken = sum(one.taken for one in lines or ())
    said: dict[str, Any] = {
        "problem": problem,
        "lines": lines or [],
        "taken": taken,
        "not_taken": len(lines or ()) - taken,
        "own": bool(request.POST.get("own")),
    }
    return render(request, "shopac/bring_in.html", said, status=status)


def told_lines(brought: list[Brought]) -> list[Line]:
    """What came of each, with the car it is about; in two queries."""
    keys = [one.key for one in brought if one.key]
    stands = {one.key: one for one in Entry.objects.filter(key__in=keys).select_related("author")}
    of_jobs = {one.told.job_key for one in brought if one.told and one.told.job_key}
    of_jobs |= {one.job_key for one in stands.values() if one.job_key}
    rows = Job.objects.filter(key__in=of_jobs).select_related("vehicle")
    cars = {one.key: f"job {one.number}, {one.vehicle.plate}" for one in rows}
    return [line_of(one, stands, cars) for one in brought]


def line_of(brought: Brought, stands: dict[UUID, Entry], cars: dict[UUID, str]) -> Line:
    """One entry in words."""
    entry = stands.get(brought.key) if brought.key else None
    told, outcome = brought.told, brought.outcome
    taken = bool(outcome and outcome.stands and entry)
    job = entry.job_key if taken and entry else told and told.job_key
    car = cars.get(job, "") if job else ""
    kind = kind_words(brought.kind) if told else "an entry that cannot be read"
    what = ", ".join(part for part in (kind[:1].upper() + kind[1:], car) if part)
    author = entry.author.name if taken and entry else brought.author
    when = f"typed {in_shop_time(told.typed_at)} by the tablet’s clock" if told else ""
    by = ", ".join(part for part in (author or "no name", when) if part)
    if taken and entry and outcome:
        words = f"since {in_shop_time(entry.arrived_at)}."
        return Line(what, by, True, words, str(outcome.result.get("url", "")))
    if is_returned(brought) and job and not car and not ENTRIES[brought.kind].opens_job:
        return Line(what, by, False, NO_CAR, "")
    return Line(what, by, False, brought.why or why_not(outcome, told.author if told else None), "")


def why_not(outcome: Outcome | None, author: Person | None) -> str:
    """Why an entry was not taken, with what is to be mended."""
    if outcome is None:
        return ""
    if outcome.state == RETURNED and outcome.form is not None:
        wrong = outcome.form.errors.items()
        found = [mend(outcome.form, name, [str(one) for one in texts]) for name, texts in wrong]
        return f"{' '.join(found)} Tell it anew on its own page."
    if outcome.state == OVERTAKEN:
        return OVERTAKEN_WORDS
    if outcome.state == FORBIDDEN and author:
        return f"{author.role_words} cannot enter this."
    return outcome.why


def mend(form: Any, name: str, texts: list[str]) -> str:
    """What is wrong with one field, behind its label."""
    label = form.fields[name].label if name in form.fields else ""
    said = " ".join(texts)
    return f"{label}: {said}" if label else said
