"""Where a car is, when it is promised and who has it."""

import uuid
from datetime import datetime, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.entries import PLACE
from jobs.logbook import enter
from jobs.models import Entry, Job, Place
from tests.factories import make_job, make_person, make_told, tell

pytestmark = pytest.mark.django_db
NOON = datetime(2026, 6, 10, 12, 0, tzinfo=timezone.get_default_timezone())  # a Wednesday


def told_at(job, moment, **fields):
    """A place told at a moment; `author` may be named."""
    author = fields.pop("author", None)
    corrects = fields.pop("corrects", None)
    told = make_told(fields, author, job_key=job.key, typed_at=moment, corrects=corrects)
    outcome = enter(PLACE, told)
    assert outcome.stands, outcome.form and outcome.form.errors
    return outcome.key


def place_of(job):
    job = Job.objects.select_related("has_it").get(pk=job.pk)
    return job.bay, job.key_hook, job.promised_at, job.has_it


def test_each_part_is_told_by_itself_and_the_others_stay():
    job = make_job()
    told_at(job, timezone.now(), bay="2", key_hook="7")
    told_at(job, timezone.now(), bay_words="yard")
    assert place_of(job)[:2] == ("yard", "7")


def test_the_last_to_happen_stands_in_whatever_order_tablets_bring_them():
    job = make_job()
    now = timezone.now()
    told_at(job, now, bay="2")
    told_at(job, now - timedelta(hours=1), bay="1", key_hook="7")
    assert place_of(job)[:2] == ("2", "7")


def test_a_dash_takes_out_what_stood_there():
    job = make_job()
    told_at(job, timezone.now(), bay="2", key_hook="7")
    told_at(job, timezone.now(), bay_words="–", key_hook="-")
    assert place_of(job)[:2] == ("", "")


def test_a_tap_takes_out_what_stood_there():
    job = make_job()
    told_at(job, timezone.now(), bay="2", key_hook="7")
    told_at(job, timezone.now(), takes_out=["key_hook"])
    assert place_of(job)[:2] == ("2", "")
    told_at(job, timezone.now(), takes_out=["bay"], bay="3")
    assert place_of(job)[0] == "3"


def test_who_types_it_is_offered_once(client):
    client.force_login(make_person(name="R. Sand"))
    make_person(name="E. Quist")
    shown = client.get(f"{reverse('place')}?job={make_job().key}").content.decode()
    answers = shown.split("Who has it?")[1].split("</fieldset>")[0]
    seen = [one for one in answers.split("<label") if " hidden>" not in one]
    assert "I have it" in "".join(seen)
    assert "E. Quist" in "".join(seen)
    assert "R. Sand" not in "".join(seen)
    assert "A dash takes out" not in shown


def test_what_was_corrected_counts_no_more():
    job = make_job()
    first = told_at(job, timezone.now(), bay="2", key_hook="7")
    told_at(job, timezone.now(), bay="3", corrects=first)
    assert place_of(job)[:2] == ("3", "")
    assert Place.objects.count() == 2


def test_who_taps_that_they_have_it_has_it():
    job, sand = make_job(), make_person(name="R. Sand")
    told_at(job, timezone.now(), has_it="me", author=sand)
    assert place_of(job)[3] == sand


def test_it_is_handed_to_another_by_name_and_to_nobody():
    job, quist = make_job(), make_person(name="E. Quist")
    told_at(job, timezone.now(), has_it=str(quist.key))
    assert place_of(job)[3] == quist
    told_at(job, timezone.now(), has_it="-")
    assert place_of(job)[3] is None


def test_today_is_the_day_on_which_it_was_tapped_not_that_of_arrival():
    job = make_job()
    told_at(job, NOON, promised_day="today", promised_hour="16:00")
    assert place_of(job)[2] == NOON + timedelta(hours=4)


def test_a_time_without_a_day_is_the_next_time_that_the_clock_shows_it():
    job = make_job()
    told_at(job, NOON, promised_hour="10:00")
    assert place_of(job)[2] == NOON + timedelta(hours=22)


def test_what_is_typed_counts_instead_of_a_tap():
    job = make_job()
    told_at(
        job,
        NOON,
        promised_day="today",
        promised_hour="16:00",
        promised_date="2026-06-12",
        promised_time="09:30",
    )
    assert place_of(job)[2] == datetime(2026, 6, 12, 9, 30, tzinfo=timezone.get_default_timezone())


def test_a_promise_is_taken_back():
    job = make_job()
    told_at(job, NOON, promised_hour="16:00")
    told_at(job, NOON + timedelta(minutes=5), promised_day="-")
    assert place_of(job)[2] is None


@pytest.mark.parametrize(
    ("fields", "field", "sentence"),
    [
        ({}, "bay", "Nothing is told yet"),
        ({"promised_day": "today"}, "promised_hour", "At what time?"),
        ({"promised_time": "late"}, "promised_time", "14:30"),
        ({"promised_date": "soon"}, "promised_date", "such as 3 Mar 2026"),
        ({"has_it": str(uuid.uuid4())}, "has_it", "not in the list"),
        ({"bay_words": "x" * 60}, "bay_words", "60 characters"),
    ],
)
def test_what_cannot_be_read_says_so_at_its_field(fields, field, sentence):
    outcome = tell(PLACE, make_job(), **fields)
    assert outcome.form is not None
    assert sentence in str(outcome.form.errors[field])


def test_a_day_is_typed_with_its_month_in_letters_as_everywhere():
    job = make_job()
    told_at(job, NOON, promised_date="12 Jun 2026", promised_time="09:30")
    assert place_of(job)[2] == datetime(2026, 6, 12, 9, 30, tzinfo=timezone.get_default_timezone())


@pytest.mark.parametrize(
    ("day", "at", "zone"),
    [
        ("0001-01-01", "00:10", "Europe/Vienna"),
        ("9999-12-31", "23:59", "America/Chicago"),
    ],
)
def test_a_year_that_nobody_can_mean_is_asked_for_again(day, at, zone):
    with timezone.override(zone):
        outcome = tell(PLACE, make_job(), promised_date=day, promised_time=at)
    assert outcome.form is not None
    assert "The year lies between" in str(outcome.form.errors["promised_date"])


def test_the_same_entry_twice_is_one(client):
    job, person = make_job(), make_person()
    client.force_login(person)
    fields = {"key": str(uuid.uuid4()), "bay_words": "4"}
    for _ in range(2):
        response = client.post(f"{reverse('place')}?job={job.key}", fields)
        assert response["Location"] == f"/job/?job={job.key}"
    assert Entry.objects.filter(kind="place").count() == 1


def test_bays_told_before_are_taps_in_the_order_of_their_numbers(client):
    job = make_job()
    for bay in ("10", "2", "the yard behind"):
        tell(PLACE, job, bay_words=bay)
    client.force_login(make_person())
    shown = client.get(f"{reverse('place')}?job={job.key}").content.decode()
    assert shown.index("bay 2<") < shown.index("bay 10<")
    assert 'value="the yard behind"' not in shown


def test_the_page_says_what_stands_and_keeps_what_was_typed(client):
    job = make_job()
    tell(PLACE, job, bay_words="2", key_hook="7")
    client.force_login(make_person())
    address = f"{reverse('place')}?job={job.key}"
    assert "bay 2 · key 7" in client.get(address).content.decode()
    response = client.post(address, {"bay_words": "5", "promised_time": "late"})
    assert response.status_code == 422
    assert 'value="5"' in response.content.decode()


def test_the_page_kept_on_tablets_names_nobody(client):
    make_person(name="Unmistakable Name")
    client.force_login(make_person())
    shown = client.get(reverse("place")).content.decode()
    assert "I have it" in shown
    assert "Unmistakable Name" not in shown


def test_nobody_sees_it_without_a_sign_in(client):
    response = client.get(f"{reverse('place')}?job={make_job().key}")
    assert response["Location"].startswith(reverse("sign_in"))
