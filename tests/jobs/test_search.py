"""The folded text of a job, and what is found by it, on either database."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.db import connection

from jobs import search
from jobs.actions.refold import refold
from jobs.models import Customer, Job
from tests.factories import make_job, make_person

pytestmark = pytest.mark.django_db
PROGRAM = Path(__file__).resolve().parent.parent.parent
# A shop of its own whose jobs get a wider number: SQLite makes their table anew for that.
WIDER = """
import django
django.setup()
from django.core.management import call_command
from django.db import connection, models
from jobs import search
from jobs.entries import VEHICLE
from jobs.models import Job
from tests.factories import make_job, tell
call_command("migrate", verbosity=0)
first = make_job()
with connection.schema_editor() as editor:
    old, new = Job._meta.get_field("number"), models.CharField(max_length=40)
    new.set_attributes_from_name("number")
    editor.alter_field(Job, old, new)
make_job(plate="RV.4736A")
tell(VEHICLE, first, plate="ZL.1473B")
for words in ("473", "1473", "4731"):
    print(*[job.vehicle.plate for job in search.find([words]).jobs])
with connection.cursor() as cursor:
    cursor.execute("INSERT INTO jobs_foundby_find(jobs_foundby_find, rank)"
                   " VALUES ('integrity-check', 1)")
    cursor.execute("SELECT sql FROM sqlite_master WHERE name = 'jobs_job'")
    print("varchar(40)" in cursor.fetchone()[0])
"""


def found(typed: str) -> list[str]:
    """The plates of the jobs found, newest first."""
    return [job.vehicle.plate for job in search.find(search.asked_words(typed)).jobs]


@pytest.fixture(autouse=True)
def four_cars():
    author = make_person()
    make_job(author)  # KX.4731D, Ida Marwell, ZZ9HB1PA2ST000789, 555 010 0199, Brenloh Ilex
    make_job(
        author,
        plate="RV.4736A",
        customer_name="Bartholomäus O’Featherstone-Höll",
        phone="+1 (555) 020-0298",
        vin="ZZ9AB2CD1RT000123",
        make_model="Ostrander Pavo",
    )
    make_job(author, plate="ZL.1473B", customer_name="李 小龙", phone="555 030 0397", vin=None)
    make_job(author, plate="MC.4738H", customer_name="Li Io", phone="555 040 0496", vin=None)


@pytest.mark.parametrize(
    ("typed", "plates"),
    [
        ("473", ["MC.4738H", "ZL.1473B", "RV.4736A", "KX.4731D"]),
        ("kx 4731", ["KX.4731D"]),
        ("kx.4731d", ["KX.4731D"]),
        ("KX-47", ["KX.4731D"]),
        ("000123", ["RV.4736A"]),
        ("t000123", ["RV.4736A"]),
        ("tooo123", ["RV.4736A"]),  # O for 0
        ("z11473", []),  # L is no 1
        ("marwell", ["KX.4731D"]),
        ("MARWELL ida", ["KX.4731D"]),
        ("marwell 473", ["KX.4731D"]),
        ("marwell pavo", []),
        ("bartholomaus", ["RV.4736A"]),
        ("ofeather", ["RV.4736A"]),
        ("featherstone höll", ["RV.4736A"]),
        ("555-020", ["RV.4736A"]),
        ("(555) 020 0298", ["RV.4736A"]),
        ("0298", ["RV.4736A"]),
        ("brenloh", ["MC.4738H", "ZL.1473B", "KX.4731D"]),
        ("小龙", ["ZL.1473B"]),
    ],
)
def test_every_word_has_to_be_there_and_the_newest_comes_first(typed, plates):
    assert found(typed) == plates


@pytest.mark.parametrize(
    ("typed", "plates"),
    [
        ("k", ["KX.4731D"]),
        ("KX", ["KX.4731D"]),
        ("rv", ["RV.4736A"]),
        ("31", []),
        ("li", ["MC.4738H"]),
        ("l1 i", ["MC.4738H"]),
        ("李", ["ZL.1473B"]),
    ],
)
def test_one_or_two_characters_are_looked_for_at_a_beginning_only(typed, plates):
    assert found(typed) == plates


def test_a_job_is_found_by_its_number_and_by_the_beginning_of_it():
    job = Job.objects.order_by("id").first()
    assert job
    assert found(job.number) == ["KX.4731D"]
    assert "KX.4731D" in found(job.number[-4:])
    assert len(found(job.number[:2])) == 4


@pytest.mark.parametrize(
    "typed",
    [
        '"',
        "'",
        '" OR "1"="1',
        "folded: x",
        "a AND NOT b NEAR(c)",
        "kx*",
        "^kx",
        "(((",
        "%",
        "_____",
        "\\",
        "\x00",
        "kx\x004731d",
        "-kx",
        "😀",
        "\ud800",
        "\u202e",
        "w" * 10_000,
        "w " * 5_000,
        "ß" * 300,
        "ﷺ" * 200,
    ],
)
def test_no_query_breaks_it(typed):
    search.find(search.asked_words(typed))


def test_percent_and_underscore_stand_for_nothing_else():
    assert found("k_4731") == []
    assert search.asked_words("% _") == []


def test_without_words_the_open_jobs_are_listed():
    Job.objects.filter(vehicle__plate="KX.4731D").update(stage="closed")
    assert [job.vehicle.plate for job in search.find([]).jobs] == [
        "MC.4738H",
        "ZL.1473B",
        "RV.4736A",
    ]


def test_a_page_has_fifty_and_says_how_many_older_ones_come_next(monkeypatch):
    monkeypatch.setattr(search, "PAGE", 3)
    first = search.find(["473"])
    assert ([job.vehicle.plate for job in first.jobs], first.older) == (
        ["MC.4738H", "ZL.1473B", "RV.4736A"],
        1,
    )
    second = search.find(["473"], older_than=first.jobs[-1].key)
    assert ([job.vehicle.plate for job in second.jobs], second.older) == (["KX.4731D"], 0)


def test_a_changed_name_is_found_and_the_old_one_is_not():
    Customer.objects.filter(name="Ida Marwell").update(name="Ida Quill")
    rows = Job.objects.filter(vehicle__plate="KX.4731D").select_related("customer", "vehicle")
    refold(rows)
    assert found("quill") == ["KX.4731D"]
    assert found("marwell") == []


def test_the_index_holds_exactly_what_the_jobs_have():
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            # FTS5 compares index and table and raises when they differ.
            cursor.execute(
                "INSERT INTO jobs_foundby_find(jobs_foundby_find, rank)"
                " VALUES ('integrity-check', 1)"
            )
        else:
            cursor.execute("SELECT indexdef FROM pg_indexes WHERE tablename = 'jobs_foundby'")
            assert any("gin_trgm_ops" in row[0] for row in cursor.fetchall())


@pytest.mark.sqlite
def test_jobs_new_and_changed_are_found_after_a_column_of_jobs_was_altered(tmp_path):
    shop = {"SHOPAC_DATA": str(tmp_path), "SHOPAC_DATABASE": ""}
    done = subprocess.run(
        [sys.executable, "-c", WIDER],
        cwd=PROGRAM,
        env={**os.environ, **shop},
        capture_output=True,
        text=True,
        check=False,
    )
    assert not done.returncode, done.stderr
    assert done.stdout.splitlines() == ["RV.4736A ZL.1473B", "ZL.1473B", "", "True"]


def test_the_part_that_was_found_is_told_as_it_is_written():
    assert search.parted("KX.4731D", ["X47"]) == ("K", "X.47", "31D")
    assert search.parted("KX.4731D", ["999", "1D"]) == ("KX.473", "1D", "")
    assert search.parted("Straße", ["SSE"]) == ("Stra", "ße", "")
    assert search.parted("KX.4731D", []) == ("KX.4731D", "", "")
