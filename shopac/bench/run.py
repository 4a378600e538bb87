"""One benchmark from an empty database to its rows."""

import platform
from collections.abc import Callable, Sequence
from statistics import median
from typing import Any
from urllib.parse import quote

from django.db import connection
from django.urls import reverse
from django.utils import timezone

from jobs.models import Job, Person
from shopac.bench import budgets, crowd, idle, open_jobs, pages
from shopac.bench.budgets import Row
from shopac.version import VERSION

FEW_STEPS = 16
PAPERS = 5
Say = Callable[[str], None]


def measure(sizes: Sequence[int], say: Say) -> dict[str, Any]:
    """Measure at each size of the shop, the smallest first; returns the result as data."""
    author = open_jobs.begin()
    say("Open jobs and test steps ...")
    tested = {
        name: open_jobs.take_in(author, number)
        for number, name in enumerate((FEW_STEPS, budgets.STEPS), start=1)
    }
    for number in range(len(tested) + 1, open_jobs.OPEN_JOBS + 1):
        open_jobs.take_in(author, number)
    for steps, job in tested.items():
        open_jobs.test_it(author, job, steps)
    found: list[dict[str, pages.Timed]] = []
    rows: list[Row] = []
    for size in sorted(sizes):
        crowd.add_jobs(size, max(sizes), author, say)
        settle()
        say(f"Pages among {budgets.size(size)} ...")
        found.append(asked(author, tested))
        rows += budgets.of_pages(size, found[-1])
    if len(found) > 1:
        rows += budgets.of_growth(found[0], found[-1])
    rows += budgets.of_queries(found[-1], FEW_STEPS)
    rows.append(paper(author, tested[FEW_STEPS]))
    rows += memory(say)
    return described(sizes, found, rows)


def asked(author: Person, tested: dict[int, Job]) -> dict[str, pages.Timed]:
    """The times of every page that has a budget, and of those they are compared with."""
    addresses = {
        budgets.job_page(steps): f"{reverse('job')}?job={job.key}" for steps, job in tested.items()
    }
    for name, words in finds().items():
        addresses[f"find, {name}"] = f"{reverse('find')}?words={quote(words)}"
    return pages.timed(pages.signed_in_client(author), addresses)


def finds() -> dict[str, str]:
    """What is looked for: what people type, and what gives an index the most to do.

    Each has one row, none, or more than a page at any size of the shop: rows take longer to write
    than to find.
    """
    oldest, middle, newest = crowd.plates()
    return {
        "no words": "",
        "four characters of the oldest plate": oldest[3:7],
        "a whole plate": middle,
        "end of a plate": newest[-4:],
        "a name in full": f"Open Job {open_jobs.OPEN_JOBS}",
        "a first name": "Pia",
        "three letters of a name": "mar",
        "first letter of a plate": "K",
        "a word and half a phone": "Brenloh 0199",
        "nothing there": "XQXQXQ",
    }


def settle() -> None:
    """Let the database look at its tables, as it does by itself in a shop that grew slowly."""
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")


def paper(author: Person, job: Job) -> Row:
    """How long a record of a job takes from the button to the frozen file."""
    times = [pages.milliseconds(lambda: open_jobs.issue(author, job)) for _ in range(PAPERS + 1)]
    return Row(f"record, {FEW_STEPS} steps", median(times[1:]), "ms", budgets.PAPER_MS)


def memory(say: Say) -> list[Row]:
    """The idle server's memory, where the system tells it."""
    megabytes = idle.idle_megabytes()
    if megabytes is None:
        say("The idle server’s memory is not measured: this system does not tell it.")
        return []
    return [Row("idle server", megabytes, "MB", budgets.IDLE_MB)]


def described(
    sizes: Sequence[int], found: Sequence[dict[str, pages.Timed]], rows: Sequence[Row]
) -> dict[str, Any]:
    """The result with what it was measured on."""
    return {
        "version": VERSION,
        "measured_at": timezone.now().isoformat(timespec="seconds"),
        "database": connection.vendor,
        "python": platform.python_version(),
        "jobs": sorted(sizes),
        "rows": [row.as_json() for row in rows],
        "pages": [
            {"jobs": size, "page": name, "ms": round(page.ms, 2), "queries": page.queries}
            for size, timed in zip(sorted(sizes), found, strict=True)
            for name, page in timed.items()
        ],
    }
