"""Find: one folded text per job, and the jobs whose text has all of the words.

The text holds plate, VIN, job number, customer, phone and make, each word in upper case without
accents and punctuation, O as 0 and I as 1. Two blanks stand before every word, so that a word's
beginning can be asked for with one or two characters through the same index of trigrams: FTS5 on
SQLite (kept by triggers, migration search), pg_trgm on PostgreSQL.
"""

import unicodedata
import uuid
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.db import connection

from jobs.models import FoundBy, Job, Vehicle
from jobs.models.jobs import OPEN

PAGE = 50
WORDS_MAX = 10
WORD_LENGTH_MAX = 60
TYPED_MAX = 200
ALIKE = str.maketrans("OI", "01")
TABLE = "jobs_foundby_find"


@dataclass(frozen=True)
class Found:
    """One page of jobs, newest first, and how many more stand on the next."""

    jobs: Sequence[Job]
    older: int


def fold(text: str) -> str:
    """Upper case, accents and everything but letters and digits off, O → 0, I → 1; one word."""
    plain = unicodedata.normalize("NFKD", text).upper()
    return "".join(letter for letter in plain if letter.isalnum()).translate(ALIKE)


def folded_words(text: str) -> list[str]:
    """Each word of a text folded, empty ones left out."""
    return [word for word in map(fold, text.split()) if word]


def asked_words(typed: str) -> list[str]:
    """What is looked for: at most ten words of what was typed, each bounded."""
    words = folded_words(typed[:TYPED_MAX])
    return [word[:WORD_LENGTH_MAX] for word in dict.fromkeys(words)][:WORDS_MAX]


def of_merged_cars(jobs: Iterable[Job]) -> dict[int, list[str]]:
    """Plates and VINs of the rows that were merged into the jobs' cars, by the car's id.

    What hangs in a windscreen or stands on an old paper may still be the other plate.
    """
    gone = Vehicle.objects.filter(merged_into__in={job.vehicle_id for job in jobs})
    words: dict[int, list[str]] = defaultdict(list)
    for car_id, plate, vin in gone.order_by("id").values_list("merged_into_id", "plate", "vin"):
        words[car_id] += [plate, vin]
    return words


def folded_text(job: Job, merged: Sequence[str] = ()) -> str:
    """The text by which a job is found; `merged` are words of its car's merged rows."""
    car, customer = job.vehicle, job.customer
    whole = [car.plate, car.vin, job.number, customer.phone, *merged]
    words = [fold(text) for text in whole]
    name = "" if customer.redacted_at else customer.name
    words += folded_words(f"{name} {car.make_model}")
    return "".join(f"  {word}" for word in dict.fromkeys(words) if word)


def folded_texts(jobs: Iterable[Job]) -> list[tuple[Job, str]]:
    """Each job with the text by which it is found; one query for all, and those of `jobs`."""
    rows = list(jobs)
    merged = of_merged_cars(rows)
    return [(job, folded_text(job, merged.get(job.vehicle_id, ()))) for job in rows]


def find(words: Sequence[str], older_than: uuid.UUID | None = None) -> Found:
    """The jobs with all of the folded words, newest first, a page of them.

    Without words: the open jobs.
    """
    rows = Job.objects.select_related("customer", "vehicle").order_by("-id")
    before = None
    if older_than:
        before = Job.objects.filter(key=older_than).values_list("id", flat=True).first()
    if before is not None:
        rows = rows.filter(id__lt=before)
    found = matching(words, before) if words else still_open()
    two_pages = list(rows.filter(id__in=found)[: 2 * PAGE])
    return Found(two_pages[:PAGE], len(two_pages[PAGE:]))


def still_open() -> list[int]:
    """The ids of the open jobs, by the index of stages.

    A question of its own: asked together with their order, all jobs were read back to the oldest
    open one.
    """
    return list(Job.objects.filter(stage__in=OPEN).order_by().values_list("id", flat=True))


def pattern(word: str) -> str:
    """What a folded text must contain: the word anywhere; if short, at the beginning of a word."""
    return word if len(word) > 2 else f"  {word}"[-3:]


def matching(words: Sequence[str], before: int | None) -> list[int]:
    """The ids of two pages of jobs from the index, newest first."""
    if connection.vendor == "sqlite":
        return matching_sqlite(words, before)
    texts = FoundBy.objects.order_by("-job_id")
    if before is not None:
        texts = texts.filter(job_id__lt=before)
    for word in words:
        texts = texts.filter(folded__contains=pattern(word))
    return list(texts.values_list("job_id", flat=True)[: 2 * PAGE])


def matching_sqlite(words: Sequence[str], before: int | None) -> list[int]:
    """The same from FTS5; a row of it has the id of its job."""
    asked = " ".join(f'"{pattern(word)}"' for word in words)
    with connection.cursor() as cursor:
        cursor.execute(
            f"SELECT rowid FROM {TABLE} WHERE {TABLE} MATCH %s AND rowid < %s"  # noqa: S608
            " ORDER BY rowid DESC LIMIT %s",
            [asked, before or 2**62, 2 * PAGE],
        )
        return [row[0] for row in cursor.fetchall()]


def parted(text: str, words: Iterable[str]) -> tuple[str, str, str]:
    """(before, found, after): where the first of the words stands in a text as written."""
    letters = [fold(letter) for letter in text]
    folded = "".join(letters)
    for word in words:
        start = folded.find(word)
        if start >= 0:
            place = [index for index, letter in enumerate(letters) for _ in letter]
            first, last = place[start], place[start + len(word) - 1]
            return text[:first], text[first : last + 1], text[last + 1 :]
    return text, "", ""
