"""Marks are data: what people typed stands where it can be blanked; words are made when shown."""

import json
import uuid
from collections.abc import Iterator
from typing import Any

import pytest
from django.urls import reverse

from jobs.entries import CUSTOMER, INTAKE, SYSTEM, VEHICLE
from jobs.logbook import EntryKind, Outcome, enter
from jobs.models import Customer, Entry, Job, Vehicle
from jobs.models.marks import KNOWN, ODD, OF_TYPING, marks_in_words
from jobs.models.odd_gas import GAS_ODD
from tests.factories import make_job, make_person, make_told, said_of, tell, tell_intake

pytestmark = pytest.mark.django_db
# Texts that only a person can have typed, one for each place in which one may type.
NAME, OTHER_NAME, THIRD_NAME = "Ida Marwell", "Oswin Tarrant", "Bela Quorn"
PHONE, OTHER_PHONE = "555 010 0199", "555 010 0177"
PLATE, OTHER_PLATE, THIRD_PLATE = "KX.4731D", "ZL.1473C", "QA.2086B"
WORDS = "Blows warm since my sister Runa drove it."
WHY = "read twice with Runa"
TYPED = (
    *(NAME, OTHER_NAME, THIRD_NAME, PHONE, OTHER_PHONE, PLATE, OTHER_PLATE, THIRD_PLATE),
    *(WORDS, WHY, "Runa"),
)


def changed(kind: EntryKind, job: Job, was: dict[str, str], **fields: str) -> Outcome:
    """A form that showed `was` and in which somebody typed."""
    shown = {f"was_{name}": text for name, text in was.items()}
    outcome = enter(kind, make_told({**was, **shown, **fields}, job_key=job.key))
    assert outcome.stands
    return outcome


def every_kind_of_mark() -> None:
    """Entries that make each mark there is about customer, car and system."""
    job = make_job(complaint=WORDS, label_charge="90", label_charge_why=WHY)
    make_job(customer_name=NAME, phone=None, plate=OTHER_PLATE)
    make_job(customer_name="Else Where", phone=PHONE, plate=OTHER_PLATE)
    make_job(customer_name="Nils Elsewhere", phone=OTHER_PHONE, plate=PLATE)
    changed(CUSTOMER, job, {"customer_name": NAME, "phone": PHONE}, customer_name=OTHER_NAME)
    changed(CUSTOMER, job, {"customer_name": NAME, "phone": PHONE}, customer_name=THIRD_NAME)
    changed(CUSTOMER, job, {"phone": PHONE}, phone=OTHER_PHONE)
    changed(CUSTOMER, job, {"phone": OTHER_PHONE}, phone="–")
    changed(VEHICLE, job, {"plate": PLATE}, plate=OTHER_PLATE)
    changed(VEHICLE, job, {"plate": PLATE}, plate=THIRD_PLATE)
    tell(VEHICLE, job, odometer="-5", odometer_why=WHY, model_year="1901", model_year_why=WHY)
    tell(SYSTEM, job, coil="400", coil_why=WHY, label_charge="9 kg", label_charge_why=WHY)
    told = {"customer_name": OTHER_NAME, "plate": THIRD_PLATE, "complaint": f"{WORDS} And {NAME}."}
    corrected = make_told(told, key=uuid.uuid4(), job_key=job.key, corrects=job.key)
    assert enter(INTAKE, corrected).stands


def texts(value: object, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], str]]:
    """Every text in a JSON value, with the names that lead to it."""
    if isinstance(value, dict):
        for name, held in value.items():
            yield from texts(held, (*path, name))
    elif isinstance(value, list):
        for held in value:
            yield from texts(held, path)
    elif isinstance(value, str):
        yield path, value


def test_what_a_person_typed_stands_in_a_mark_under_its_column_only():
    every_kind_of_mark()
    found = [
        (path, text)
        for marks in Entry.objects.values_list("marks", flat=True)
        for path, text in texts(marks)
        if any(typed in text for typed in TYPED)
    ]
    assert len(found) >= 8
    allowed = {"name", "phone", "plate", "complaint"}
    assert [one for one in found if len(one[0]) != 2] == []
    assert {path[0] for path, _ in found} == {"stood", "told"}
    assert {path[1] for path, _ in found} <= allowed


def test_no_result_of_an_entry_holds_what_a_person_typed():
    every_kind_of_mark()
    results = json.dumps(list(Entry.objects.values_list("result", flat=True)), ensure_ascii=False)
    assert [typed for typed in TYPED if typed in results] == []


def test_every_mark_there_is_was_made_here_and_has_words():
    every_kind_of_mark()
    entries = list(Entry.objects.select_related("author"))
    said = [one for marks in marks_in_words(entries).values() for one in marks]
    assert {one.code for one in said} >= {"changed", "emptied", "conflict", *KNOWN, "year_out"}
    assert len(said) == sum(len(entry.marks) for entry in entries)
    assert [one.words for one in said if not one.words.endswith((".", "?", WHY))] == []


def blank(columns: tuple[str, ...]) -> None:
    """What a redaction does: columns blanked in rows, in fields and in the values of marks."""
    fields = {"name": ("customer_name", "was_customer_name"), "phone": ("phone", "was_phone")}
    Customer.objects.update(**dict.fromkeys(columns, ""))
    for entry in Entry.objects.all():
        for mark in entry.marks:
            for values in (mark.get("stood", {}), mark.get("told", {})):
                values.update({name: "" for name in columns if name in values})
        for name in (name for column in columns for name in fields[column]):
            if name in entry.fields:
                entry.fields[name] = [""]
        entry.save()


def test_when_name_and_phone_are_blanked_no_sentence_has_them_any_more():
    every_kind_of_mark()
    blank(("name", "phone"))
    entries = Entry.objects.select_related("author")
    said = [one for marks in marks_in_words(entries).values() for one in marks]
    words = "\n".join(one.words for one in said)
    gone = (OTHER_NAME, THIRD_NAME, PHONE, OTHER_PHONE)
    assert [text for text in gone if text in words] == []
    assert "Name changed." in words.splitlines()
    assert "Phone not known." in words.splitlines()
    assert "name taken out" in words
    assert not any(one.code == "conflict" and "Customer" in one.words for one in said)
    assert f"“{OTHER_PLATE}” stands" in words


def test_the_words_are_made_from_the_row_as_it_is_now():
    first = make_job()
    job = make_job(plate=OTHER_PLATE, customer_name="Else Where")
    Customer.objects.filter(pk=first.customer_id).update(name=OTHER_NAME)
    assert said_of(job.entry)[0].startswith(
        f"The shop already knows this phone: {OTHER_NAME}, job {first.number}."
    )


def test_who_told_what_stands_is_named_as_he_is_called_now(client: Any):
    job = make_job()
    author = make_person(name="M. Oyelaran")
    was = {"plate": PLATE, "was_plate": PLATE}
    enter(VEHICLE, make_told({**was, "plate": OTHER_PLATE}, author, job_key=job.key))
    changed(VEHICLE, job, {"plate": PLATE}, plate=THIRD_PLATE)
    author.name = "M. Oyelaran-Bex"
    author.save()
    client.force_login(make_person())
    page = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    assert "(M. Oyelaran-Bex); here" in page
    assert Vehicle.objects.get(pk=job.vehicle_id).plate == OTHER_PLATE


@pytest.mark.parametrize("code", [*OF_TYPING, *KNOWN, *ODD])
def test_no_mark_s_words_keep_a_gap_to_fill(code: str):
    job = make_job()
    figures = {
        "oldest": 1930,
        "newest": 2027,
        "mg": 90_000,
        "unit": "g",
        **dict.fromkeys(("holds_mg", "limit_mg", "out_mg", "tare_mg", "low_mg", "high_mg"), 10_000),
        "stands": "R-134a",
        "gas": "R-1234yf",
        "rule": "0.8",
    }
    if code.startswith("cylinder"):
        figures["day"] = "2026-03-02"
    if code in GAS_ODD:
        figures |= dict.fromkeys(("said", "scale", "label", "book"), "410 g")
    job.entry.marks = [{"code": code, "field": "plate", "figures": figures, "job": str(job.key)}]
    (words,) = said_of(job.entry)
    assert "{" not in words
    assert words.endswith(".")


def test_a_mark_of_another_version_shows_its_code():
    job = make_job()
    job.entry.marks = [{"code": "smelled_odd"}]
    assert said_of(job.entry) == ["smelled_odd"]


def test_marks_are_read_with_the_same_few_queries_however_many_there_are(
    django_assert_num_queries: Any,
):
    every_kind_of_mark()
    entries = list(Entry.objects.select_related("author"))
    with django_assert_num_queries(3):
        marks_in_words(entries)
    plain = [tell_intake(plate="AB.1234C").key]
    with django_assert_num_queries(1):
        marks_in_words(Entry.objects.filter(key__in=plain, marks=[]).select_related("author"))
