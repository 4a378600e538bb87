"""The one way in: what becomes of an entry, and that it comes in exactly once."""

import io
import threading
import uuid
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import partial

import pytest
from django import forms
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.utils import timezone
from PIL import Image

from jobs.entries import INTAKE
from jobs.kept_bytes import place
from jobs.logbook import (
    ACCEPTED,
    AGAIN,
    FORBIDDEN,
    OVERTAKEN,
    REFUSED,
    RETURNED,
    REUSED,
    EntryKind,
    NotAnEntry,
    Outcome,
    Refused,
    clean_fields,
    enter,
    fingerprint,
)
from jobs.models import Customer, Entry, Job, Reused
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.photos import sent_files
from tests.factories import INTAKE_FIELDS, make_person, make_shop, make_told

pytestmark = pytest.mark.django_db


class NoteForm(forms.Form):
    """A number, for whoever wants one."""

    grams = forms.IntegerField()

    def __init__(self, data=None, told=None):
        super().__init__(data)
        self.job_key = told.job_key


def write_customer(entry, form):
    Customer.objects.create(name=f"{form.cleaned_data['grams']} g")
    return {"url": f"/note/{entry.key}/"}


def note_kind(apply=write_customer, roles=(TECHNICIAN,), fact=True) -> EntryKind:
    return EntryKind("note", 1, NoteForm, apply, frozenset(roles), fact)


NOTE = note_kind()


def test_an_entry_is_accepted_with_its_rows_and_its_result():
    told = make_told({"grams": "500"})
    outcome = enter(NOTE, told)
    assert outcome.state == ACCEPTED
    entry = Entry.objects.get()
    assert (entry.key, entry.kind, entry.fields) == (told.key, "note", {"grams": ["500"]})
    assert entry.result == outcome.result == {"url": f"/note/{told.key}/"}
    assert Customer.objects.get().name == "500 g"


def test_the_same_entry_again_gets_the_first_answer_and_writes_nothing():
    told = make_told({"grams": "500"})
    first = enter(NOTE, told)
    second = enter(NOTE, told)
    assert (second.state, second.result) == (AGAIN, first.result)
    assert (Entry.objects.count(), Customer.objects.count()) == (1, 1)


def test_line_ends_and_empty_fields_do_not_make_it_another_entry():
    told = make_told({"grams": "500", "words": "a\r\nb", "empty": ""})
    enter(NOTE, told)
    again = replace(told, fields={"words": ["a\nb"], "grams": ["500"]})
    assert enter(NOTE, again).state == AGAIN


def test_other_content_under_a_taken_key_is_turned_away_and_kept():
    told = make_told({"grams": "500"})
    enter(NOTE, told)
    outcome = enter(NOTE, replace(told, fields={"grams": ["600"]}))
    assert outcome.state == REUSED
    assert outcome.why
    assert [one.fields for one in Reused.objects.all()] == [{"grams": ["600"]}]
    assert [one.name for one in Customer.objects.all()] == ["500 g"]


def test_the_same_other_content_is_kept_once():
    told = make_told({"grams": "500"})
    enter(NOTE, told)
    for _ in range(3):
        enter(NOTE, replace(told, fields={"grams": ["600"]}))
    assert Reused.objects.count() == 1


def test_a_late_twin_of_a_replaced_form_is_overtaken_and_not_kept():
    told = make_told({"grams": "600"}, rev=1)
    first = enter(NOTE, told)
    late = enter(NOTE, replace(told, fields={"grams": ["500"]}, rev=0))
    assert (late.state, late.result) == (OVERTAKEN, first.result)
    assert not Reused.objects.exists()


def test_a_form_error_stores_nothing_and_the_key_stays_free():
    told = make_told({"grams": "many"})
    outcome = enter(NOTE, told)
    assert outcome.state == RETURNED
    assert outcome.form
    assert list(outcome.form.errors) == ["grams"]
    assert not Entry.objects.exists()
    assert enter(NOTE, replace(told, fields={"grams": ["500"]}, rev=1)).state == ACCEPTED


def test_an_entry_that_is_not_its_author_s_to_make_is_turned_away():
    told = make_told({"grams": "500"}, make_person(DESK))
    outcome = enter(NOTE, told)
    assert (outcome.state, Entry.objects.exists()) == (FORBIDDEN, False)
    assert outcome.why.startswith("Front desk")


def test_the_author_s_role_counts_not_the_sender_s():
    told = make_told({"grams": "500"}, make_person(DESK), sender=make_person(TECHNICIAN))
    assert enter(NOTE, told).state == FORBIDDEN


def refuse(entry, form):
    Customer.objects.create(name="half")
    raise Refused("Estimate 2 replaced it at 11:40.")


def test_a_decision_that_cannot_stand_says_why_and_leaves_nothing():
    decision = note_kind(refuse, [OWNER], fact=False)
    outcome = enter(decision, make_told({"grams": "500"}, make_person(OWNER)))
    assert (outcome.state, outcome.why) == (REFUSED, "Estimate 2 replaced it at 11:40.")
    assert not Entry.objects.exists()
    assert not Customer.objects.exists()


def test_a_fact_that_is_refused_all_the_same_is_a_mistake_and_no_answer():
    with pytest.raises(Refused):
        enter(note_kind(refuse), make_told({"grams": "500"}))
    assert not Entry.objects.exists()
    assert not Customer.objects.exists()


@pytest.mark.django_db(transaction=True)
def test_nothing_half_stays_when_writing_fails_in_the_middle():
    def fail(entry, form):
        Customer.objects.create(name="half")
        raise RuntimeError("power gone")

    told = make_told({"grams": "500"})
    with pytest.raises(RuntimeError, match="power gone"):
        enter(note_kind(fail), told)
    assert not Entry.objects.exists()
    assert not Customer.objects.exists()
    assert enter(NOTE, told).state == ACCEPTED


def test_a_field_s_name_that_no_form_of_ours_has_is_not_an_entry():
    with pytest.raises(NotAnEntry, match="no form of ours"):
        enter(NOTE, make_told({"grams; drop": "500"}))


def test_characters_no_database_holds_become_the_replacement_character():
    assert clean_fields({"words": ["a\x00b\ud800"]}) == {"words": ["a\ufffdb\ufffd"]}


def test_job_kind_version_photos_and_correction_are_part_of_the_content():
    key, other = uuid.uuid4(), uuid.uuid4()
    fields = {"grams": ["500"]}
    prints = {
        fingerprint("note", 1, None, fields),
        fingerprint("other", 1, None, fields),
        fingerprint("note", 2, None, fields),
        fingerprint("note", 1, key, fields),
        fingerprint("note", 1, None, fields, [("photo", "ab" * 32)]),
        fingerprint("note", 1, None, fields, [("other_photo", "ab" * 32)]),
        fingerprint("note", 1, None, fields, corrects=other),
        fingerprint("note", 1, None, fields, happened_at=datetime(2031, 5, 1, tzinfo=UTC)),
    }
    assert len(prints) == 8


def test_when_it_happened_and_where_its_photo_belongs_make_it_another_entry():
    file = SimpleUploadedFile("belt.jpg", b"x", "image/jpeg")
    told = make_told({"grams": "500"}, photos=sent_files([("photo", file)]))
    enter(NOTE, told)
    moved = replace(told, photos=[replace(told.photos[0], field="after")])
    assert enter(NOTE, moved).state == REUSED
    earlier = timezone.now() - timedelta(hours=1)
    assert enter(NOTE, replace(told, happened_at=earlier)).state == REUSED
    assert enter(NOTE, told).state == AGAIN


def test_an_empty_line_among_others_keeps_its_place():
    told = {"part": ["hose", "", "clip"], "count": ["", "2", "1"], "words": ["", ""]}
    assert clean_fields(told) == {"count": ["", "2", "1"], "part": ["hose", "", "clip"]}


# Times.


def test_typed_arrived_and_happened_are_kept_apart():
    typed_at = timezone.now() - timedelta(hours=5)
    happened_at = typed_at - timedelta(hours=1)
    before = timezone.now()
    enter(NOTE, make_told({"grams": "1"}, typed_at=typed_at, happened_at=happened_at))
    entry = Entry.objects.get()
    assert (entry.typed_at, entry.happened_at) == (typed_at, happened_at)
    assert before <= entry.arrived_at <= timezone.now()


def test_a_tablet_s_clock_that_is_off_is_put_right_and_kept_as_told():
    now = timezone.now()
    three_days = timedelta(days=3)
    offset = -int(three_days.total_seconds() * 1000)
    enter(NOTE, make_told({"grams": "1"}, typed_at=now + three_days, clock_offset_ms=offset))
    entry = Entry.objects.get()
    assert entry.typed_at == now + three_days
    assert abs(entry.happened_at - now) < timedelta(seconds=1)
    assert entry.marks == []


def test_nothing_happened_in_the_future():
    enter(NOTE, make_told({"grams": "1"}, typed_at=datetime(2031, 5, 1, tzinfo=UTC)))
    entry = Entry.objects.get()
    assert entry.happened_at == entry.arrived_at
    assert entry.marks


# Races, on a real database with a connection for each.


def all_at_once(calls: list[Callable[[], Outcome]]) -> list[Outcome]:
    """Start every call in a thread of its own at the same moment; their outcomes."""
    start = threading.Barrier(len(calls))
    outcomes: list[Outcome] = []
    failed: list[BaseException] = []

    def run(call):
        try:
            start.wait()
            outcomes.append(call())
        except BaseException as error:  # noqa: BLE001  a thread's failure must fail the test
            failed.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(call,)) for call in calls]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not failed
    return outcomes


def states(outcomes: list[Outcome]) -> list[str]:
    return sorted(outcome.state for outcome in outcomes)


@pytest.mark.django_db(transaction=True)
def test_eight_times_the_same_intake_at_once_is_one_car():
    make_shop()
    key = uuid.uuid4()
    told = make_told(INTAKE_FIELDS, key=key, job_key=key)
    outcomes = all_at_once([partial(enter, INTAKE, told)] * 8)
    assert states(outcomes) == [ACCEPTED] + [AGAIN] * 7
    assert len({outcome.result["number"] for outcome in outcomes}) == 1
    assert (Job.objects.count(), Customer.objects.count(), Entry.objects.count()) == (1, 1, 1)


@pytest.mark.django_db(transaction=True)
def test_of_eight_different_contents_under_one_key_one_stands_and_seven_are_kept():
    told = make_told({"grams": "0"})
    all_told = [replace(told, fields={"grams": [str(grams)]}) for grams in range(8)]
    outcomes = all_at_once([partial(enter, NOTE, one) for one in all_told])
    assert states(outcomes) == [ACCEPTED] + [REUSED] * 7
    kept = [*Entry.objects.all(), *Reused.objects.all()]
    assert sorted(one.fields["grams"][0] for one in kept) == list("01234567")


@pytest.mark.django_db(transaction=True)
def test_eight_cars_at_once_get_eight_numbers_in_a_row():
    make_shop()
    author = make_person()
    keys = [uuid.uuid4() for _ in range(8)]
    all_told = [make_told(INTAKE_FIELDS, author, key=key, job_key=key) for key in keys]
    outcomes = all_at_once([partial(enter, INTAKE, one) for one in all_told])
    numbers = sorted(int(outcome.result["number"][3:]) for outcome in outcomes)
    assert numbers == list(range(1, 9))


def test_a_repeat_is_acknowledged_even_when_its_author_may_not_enter_such_a_thing_any_more():
    author = make_person(TECHNICIAN)
    told = make_told({"grams": "5"}, author)
    assert enter(NOTE, told).state == ACCEPTED
    author.role = DESK
    author.save()
    assert enter(NOTE, told).state == AGAIN


def test_a_photo_of_other_content_under_a_used_key_can_be_found_again(settings, tmp_path):
    settings.DATA = tmp_path
    first = make_told({"grams": "5"})
    enter(NOTE, first)
    out = io.BytesIO()
    Image.new("RGB", (30, 20), "navy").save(out, "JPEG")
    file = SimpleUploadedFile("a.jpg", out.getvalue(), "image/jpeg")
    other = replace(first, photos=sent_files([("photo", file)]))
    assert enter(NOTE, other).state == REUSED
    [photo] = Reused.objects.get().photos
    assert place("photos", photo["stored_sha256"], ".jpg").exists()
