"""A customer who asks to be forgotten: afterwards the name is nowhere, and all else is."""

import json
import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.apps import apps
from django.conf import settings
from django.core.management import call_command
from django.urls import reverse
from django.utils import timezone

from jobs.entries import (
    CHANGE,
    CONSENT,
    CUSTOMER,
    DISCARD,
    FAILING_NOW,
    INTAKE,
    MERGE,
    PHOTO,
    PHOTO_FILED,
    REDACT,
)
from jobs.forget import photo_name
from jobs.logbook import AGAIN, RETURNED, REUSED, Outcome, enter
from jobs.models import Consent, Customer, Entry, FoundBy, Job, Photo, Record
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.paper.shelf import FOLDER
from jobs.search import asked_words, find
from tests.diagnostics.step_forms import tell as tell_step
from tests.factories import make_job, make_person, make_told, said_of, tell
from tests.jobs.test_photos_on_disk import drawn, sent
from tests.jobs.test_record import make_record

pytestmark = pytest.mark.django_db(transaction=True)

NAME, PHONE = "Odalys Fennimore", "555 031 4159"
# What must not be left, however it is written.
TRACES = ("odalys", "fennimore", PHONE, "5550314159", "larkspur")


def everything() -> str:
    """All text of all tables."""
    rows = [
        str(value)
        for model in apps.get_models()
        for row in model._base_manager.values_list()
        for value in row
    ]
    return json.dumps(rows, ensure_ascii=False).lower()


def traces() -> list[str]:
    """What is left of the customer in the database."""
    text = everything()
    return [one for one in TRACES if one in text]


def files_with(words: str) -> list[str]:
    """The files of the data folder in which words stand."""
    listed = [path for path in settings.DATA.rglob("*") if path.is_file()]
    return [path.name for path in listed if words.encode() in path.read_bytes()]


def take_out(customer: Customer, **fields: Any) -> Outcome:
    """Told by the owner."""
    told = {"customer": str(customer.key), "reason": "By letter.", "checked": "Car’s papers."}
    return enter(REDACT, make_told(told | fields, make_person(OWNER)))


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path):
    settings.DATA = tmp_path


@pytest.fixture
def job() -> Job:
    """A job in which the customer is told of wherever a form asks or takes words."""
    one = make_job(
        customer_name=NAME,
        phone=PHONE,
        complaint="Odalys Fennimore says: warm. Call 555-031-4159.",
        other_work="yes",
        other_work_what="Asked odalys  fennimore",
    )
    Customer.objects.update(address="7 Larkspur Row\nHollow Lane")
    tell(CUSTOMER, one, customer_name="Odalys B. Fennimore", was_customer_name=NAME)
    tell(CUSTOMER, one, customer_name=NAME, was_customer_name="Odalys B. Fennimore")
    tell(CUSTOMER, one, phone="555 031 4159", was_phone="555 000 0000")  # a conflict
    tell(CONSENT, one, consent_amount="300", consent_how="phone", consent_by="Odalys Fennimore")
    tell(CHANGE, one, what="other", where="As Odalys Fennimore asked")
    tell_step(one, seen="Odalys Fennimore was there", customer_name=NAME)
    said = {
        "reason": "Told twice by Odalys Fennimore",
        "discarded": str(uuid.uuid4()),
        "discarded_kind": "customer",
        "content": f'{{"customer_name": ["{NAME}"]}}',
    }
    tell(DISCARD, one, **said)
    return Job.objects.select_related("customer", "vehicle").get(pk=one.pk)


# Nowhere afterwards.


def test_name_phone_and_address_are_nowhere_afterwards(job):
    assert traces() == list(TRACES)
    assert take_out(job.customer, reason=f"Letter of {NAME}.").stands
    assert traces() == []


def test_what_was_told_beside_it_stays(job):
    before = Entry.objects.values_list("key", "fingerprint", "result").order_by("id")
    kept = list(before)
    take_out(job.customer)
    assert list(before)[: len(kept)] == kept
    job.refresh_from_db()
    assert job.complaint == "(taken out) says: warm. Call (taken out)."
    assert job.vehicle.plate == "KX.4731D"
    assert Entry.objects.get(kind="step").fields["volts"] == ["12.38"]
    assert job.complaint_answers["since"] == "weeks"


def test_pages_say_that_the_name_was_taken_out_and_when(client, job):
    take_out(job.customer)
    client.force_login(make_person())
    at = timezone.localdate().strftime("%-d %b %Y")
    for address in (
        f"{reverse('job')}?job={job.key}",
        f"{reverse('history')}?customer={job.customer.key}",
        f"{reverse('find')}?words=4731",
    ):
        shown = client.get(address).content.decode()
        assert f"name taken out on request, {at}" in shown
        assert "Fennimore" not in shown


def test_find_finds_the_car_and_not_the_name(job):
    take_out(job.customer)
    assert find(asked_words("4731")).jobs == [job]
    for words in ("fennimore", "0314159", "request"):
        assert find(asked_words(words)).jobs == []


def test_another_customer_of_the_same_name_keeps_theirs(job):
    other = make_job(customer_name=NAME, phone="555 777 0101", plate="RV.4736A")
    take_out(job.customer)
    other.customer.refresh_from_db()
    assert other.customer.name == NAME
    assert other.entry.fields["customer_name"] == [NAME]


def test_those_who_were_merged_into_the_customer_are_taken_out_with_them(job):
    other = make_job(customer_name="Odalys Fennimore-Larkspur", phone=PHONE, plate="RV.4736A")
    told = {
        "about": "customer",
        "one": str(job.customer.key),
        "other": str(other.customer.key),
        "stays": str(job.customer.key),
    }
    assert enter(MERGE, make_told(told, make_person(DESK), job_key=job.key)).stands
    take_out(job.customer)
    assert traces() == []


def test_done_twice_it_changes_nothing_more(job):
    take_out(job.customer)
    first = Customer.objects.get(key=job.customer.key)
    take_out(job.customer)
    second = Customer.objects.get(key=job.customer.key)
    assert (first.name, first.redacted_at) == (second.name, second.redacted_at)


def test_a_code_of_one_word_that_is_somebody_s_name_stays(job):
    other = make_job(customer_name="front", plate="RV.4736A", phone=None)
    take_out(other.customer)
    other.vehicle.system.refresh_from_db()
    assert other.vehicle.system.branches == ["front"]
    assert Entry.objects.get(key=other.key).fields["branches"] == ["front"]


# What comes later.


def test_what_a_tablet_brings_later_is_blanked_as_it_arrives(job):
    take_out(job.customer)
    tell(CUSTOMER, job, customer_name="Odalys C. Fennimore", phone=PHONE)
    tell(CONSENT, job, consent_amount="400", consent_by="Odalys C. Fennimore")
    tell_step(job, seen="Quiet now.", customer_name="Odalys C. Fennimore")
    assert traces() == []
    assert Customer.objects.get(pk=job.customer_id).name.startswith("name taken out")
    assert not Consent.objects.filter(given_by__contains="Fennimore").exists()
    assert "Fennimore" not in FoundBy.objects.get(job=job).folded


def test_the_same_key_gets_the_same_answer_and_other_content_is_kept_without_the_name(job):
    told = make_told({"customer_name": "Odalys D. Fennimore"}, job_key=job.key)
    first = enter(CUSTOMER, told)
    take_out(job.customer)
    assert enter(CUSTOMER, told).state == AGAIN
    assert enter(CUSTOMER, told).result == first.result
    other = make_told({"customer_name": NAME}, job_key=job.key, key=told.key, author=told.author)
    assert enter(CUSTOMER, other).state == REUSED
    assert traces() == []


def test_a_new_visit_has_a_customer_of_its_own(job):
    take_out(job.customer)
    later = make_job(customer_name=NAME, phone=PHONE, follows=str(job.key), before="comeback")
    assert later.vehicle == job.vehicle
    assert later.customer != job.customer
    assert later.customer.name == NAME


# Photos.


def test_photos_that_were_tapped_are_gone_from_disk_and_the_others_stay(job):
    pictures = [sent(drawn(width=width)) for width in (60, 70)]
    told = make_told({"failing": "yes"}, job_key=job.key, photos=pictures)
    assert enter(FAILING_NOW, told).stands
    first, second = Photo.objects.order_by("number")
    name = f"{told.key}:{first.number}"
    take_out(job.customer, photos=[name])
    gone, stays = Photo.objects.order_by("number")
    assert gone.why.startswith("Taken out on request, ")
    assert (gone.stored_sha256, gone.name) == ("", "")
    assert stays.stored_sha256 == second.stored_sha256
    found = {path.stem for path in (settings.DATA / "photos").rglob("*.jpg")}
    assert first.stored_sha256 not in found
    assert second.stored_sha256 in found


def photos_taken(job: Job, *widths: int, **fields: str) -> list[Photo]:
    """Photos of that width as told, one entry for all."""
    pictures = [sent(drawn(width=width)) for width in widths]
    assert enter(PHOTO, make_told(fields, job_key=job.key, photos=pictures)).stands
    return list(Photo.objects.order_by("number"))


def files_kept() -> list[str]:
    """The names of all photos on the disk."""
    return [path.name for path in (settings.DATA / "photos").rglob("*") if path.is_file()]


def test_no_file_of_a_photo_that_was_tapped_is_left_its_small_copy_neither(client, job):
    [photo] = photos_taken(job, 700)
    assert photo.small_sha256 not in ("", photo.stored_sha256)
    assert len(files_kept()) == 2
    take_out(job.customer, photos=[photo_name(photo)])
    assert files_kept() == []
    gone = Photo.objects.get()
    assert (gone.stored_sha256, gone.small_sha256) == ("", "")
    client.force_login(make_person())
    small = reverse("photos_shown", args=[photo.small_sha256])
    assert client.get(small).status_code == 404


def test_a_small_copy_that_another_photo_needs_stays(job):
    [photo] = photos_taken(job, 700)
    other = make_job(customer_name="Perrin Ashdown", plate="RV.4736A")
    Photo.objects.create(
        entry=other.entry,
        job_key=other.key,
        number=1,
        sent_bytes=1,
        small_sha256=photo.small_sha256,
    )
    take_out(job.customer, photos=[photo_name(photo)])
    assert files_kept() == [f"{photo.small_sha256}.jpg"]


def test_what_was_noted_of_a_photo_that_was_tapped_is_nowhere_afterwards(job):
    note = "Her blue identity card"
    photo = photos_taken(job, 700, note=note)[0]
    again = make_told({"note": note, "place": "fan"}, job_key=job.key, corrects=photo.entry.key)
    assert enter(PHOTO, again).stands
    told = {"of": str(photo.entry.key), "number": "1", "note": note}
    assert enter(PHOTO_FILED, make_told(told, job_key=job.key)).stands
    other = make_told({"note": note, "place": "clutch"}, job_key=job.key, key=photo.entry.key)
    assert enter(PHOTO, other).state == REUSED
    assert note.lower() in everything()
    take_out(job.customer, photos=[photo_name(photo)])
    assert note.lower() not in everything()


def test_what_was_noted_of_a_photo_that_stays_is_kept_with_it(job):
    first, second = photos_taken(job, 700, 690, note="At the fan")
    take_out(job.customer, photos=[photo_name(first)])
    assert [one.note for one in Photo.objects.order_by("number")] == ["", "At the fan"]
    assert second.small_sha256


def test_photos_told_to_show_a_person_are_tapped_at_first_and_the_owner_may_untap_them(client, job):
    photos_taken(job, 60, personal="on")
    client.force_login(make_person(OWNER))
    address = f"{reverse('redact')}?customer={job.customer.key}"
    ticked = f'name="photos" value="{photo_name(Photo.objects.get())}" checked'
    assert ticked in client.get(address).content.decode()
    told = {"customer": str(job.customer.key), "reason": "By letter.", "key": str(uuid.uuid4())}
    assert ticked not in client.post(address, told).content.decode()


def test_other_photos_are_not_tapped_at_first(client, job):
    photos_taken(job, 60)
    client.force_login(make_person(OWNER))
    shown = client.get(f"{reverse('redact')}?customer={job.customer.key}").content.decode()
    assert 'name="photos"' in shown
    assert "checked>" not in shown


# Records.


def test_a_record_issued_before_is_open_to_the_owner_only(client, job):
    make_record(job, pdf=b"%PDF-1.7 for Odalys Fennimore")
    take_out(job.customer)
    for role, status in ((OWNER, 200), (DESK, 403), (TECHNICIAN, 403)):
        client.force_login(make_person(role))
        paper = client.get(reverse("record_paper"), {"job": job.key})
        assert paper.status_code == status
        shown = client.get(reverse("record"), {"job": job.key}).content.decode()
        assert ("open to the owner only" in shown) == (role != OWNER)


def test_after_the_shop_s_years_only_the_hash_of_a_record_is_left(client, job):
    record = make_record(job, pdf=b"%PDF-1.7 for Odalys Fennimore, once")
    take_out(job.customer)
    call_command("let_records_go")
    assert files_with("Odalys Fennimore, once")
    Record.objects.update(frozen_at=timezone.now() - timedelta(days=3700))
    call_command("let_records_go")
    kept = Record.objects.get(pk=record.pk)
    assert (kept.data, kept.pdf_sha256) == ("", record.pdf_sha256)
    assert files_with("Odalys Fennimore, once") == []
    client.force_login(make_person(OWNER))
    shown = client.get(reverse("record"), {"job": job.key}).content.decode()
    assert f"Left is its hash: {record.pdf_sha256}" in shown
    assert FOLDER == "records"


def test_records_of_others_never_go(job):
    make_record(job)
    Record.objects.update(frozen_at=timezone.now() - timedelta(days=9999))
    call_command("let_records_go")
    assert Record.objects.get().data


# The page.


def test_the_page_says_what_goes_and_what_stays_and_posts_without_script(client, job):
    make_record(job)
    client.force_login(make_person(OWNER))
    address = f"{reverse('redact')}?customer={job.customer.key}"
    shown = client.get(address).content.decode()
    assert "<strong>Keeps the name:</strong> 1 record issued before" in shown
    assert "It stays as issued for 10 years" in shown
    assert "Issued records are not among it." in shown
    told = {"customer": str(job.customer.key), "reason": "By letter.", "key": str(uuid.uuid4())}
    response = client.post(address, told)
    assert response.status_code == 422
    assert "By letter." in response.content.decode()
    response = client.post(address, told | {"checked": "Car’s papers."})
    assert response["Location"] == f"{reverse('history')}?customer={job.customer.key}"
    assert client.get(address).status_code == 302


@pytest.mark.parametrize("role", [TECHNICIAN, DESK])
def test_only_the_owner_takes_a_name_out(client, job, role):
    client.force_login(make_person(role))
    address = f"{reverse('redact')}?customer={job.customer.key}"
    assert client.get(address).status_code == 403


@pytest.mark.parametrize("missing", ["reason", "checked"])
def test_why_and_how_the_person_was_known_are_asked(job, missing):
    assert take_out(job.customer, **{missing: ""}).state == RETURNED


def test_the_entry_of_a_name_taken_out_says_so_on_a_job_that_knew_it(job):
    later = make_job(customer_name=NAME, phone=PHONE, plate="RV.4736A")
    assert any(NAME in words for words in said_of(later.entry))
    take_out(job.customer)
    assert not any(NAME in words for words in said_of(later.entry))
    assert INTAKE.name == later.entry.kind
