"""What a car waits for: begun, over, ended, and told on the job's page."""

import json
import re
import uuid
from datetime import datetime, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.entries import CHANGE, WAITING, WAITING_END
from jobs.logbook import enter
from jobs.models import Entry, Waiting
from jobs.models.waiting import BY_ITSELF, WHATS, standing_waits
from tests.factories import make_job, make_person, make_told, tell

pytestmark = pytest.mark.django_db
NOON = datetime(2026, 6, 10, 12, 0, tzinfo=timezone.get_default_timezone())  # a Wednesday


def told_at(job, moment, kind=WAITING, corrects=None, **fields):
    """What it waits for, told at a moment."""
    told = make_told(fields, job_key=job.key, typed_at=moment, corrects=corrects)
    outcome = enter(kind, told)
    assert outcome.stands, outcome.form and outcome.form.errors
    return outcome.key


def end_at(job, moment, key):
    return told_at(job, moment, WAITING_END, waiting=str(key))


def row(key) -> Waiting:
    return Waiting.objects.select_related("ended_by").get(key=key)


def ended_by(key) -> uuid.UUID | None:
    entry = row(key).ended_by
    return entry.key if entry else None


def test_minutes_count_from_when_it_was_tapped_not_from_arrival():
    vacuum = row(told_at(make_job(), NOON, what="vacuum", minutes="45"))
    assert (vacuum.began_at, vacuum.until) == (NOON, NOON + timedelta(minutes=45))
    assert vacuum.minutes == 45


def test_typed_minutes_count_instead_of_tapped_ones():
    own = row(told_at(make_job(), NOON, what="timer", minutes="45", minutes_typed="7"))
    assert own.until == NOON + timedelta(minutes=7)


def test_a_break_is_thirty_minutes_where_nobody_says():
    assert row(told_at(make_job(), NOON, what="pause")).minutes == 30


def test_a_soak_can_run_until_a_time():
    soak = row(told_at(make_job(), NOON, what="soak", due_hour="08:00"))
    assert soak.until == NOON + timedelta(hours=20)


def test_a_part_has_its_name_and_the_day_on_which_it_is_due():
    part = row(told_at(make_job(), NOON, what="part", words="drier", due_date="2026-06-12"))
    assert (part.label, str(part.due_on), part.until) == ("Part: drier", "2026-06-12", None)


def test_a_person_is_named_by_a_tap():
    quist = make_person(name="E. Quist")
    told = told_at(make_job(), NOON, what="person", person=str(quist.key), words="prove it dead")
    assert row(told).label == "E. Quist: prove it dead"


def test_what_its_kind_does_not_ask_for_is_not_taken():
    part = row(told_at(make_job(), NOON, what="part", words="drier", minutes="45"))
    vacuum = row(told_at(make_job(), NOON, what="vacuum", minutes="45", words="drier"))
    assert (part.until, vacuum.words) == (None, "")


@pytest.mark.parametrize(
    ("fields", "field", "sentence"),
    [
        ({}, "what", "Tap one of these."),
        ({"what": "vacuum"}, "minutes", "How long?"),
        ({"what": "soak", "due_day": "tomorrow"}, "minutes", "until when?"),
        ({"what": "timer", "minutes_typed": "soon"}, "minutes_typed", "whole minutes"),
        ({"what": "timer", "minutes_typed": "0"}, "minutes_typed", "whole minutes"),
        ({"what": "timer", "minutes_typed": "20000"}, "minutes_typed", "more than a week"),
        ({"what": "part"}, "words", "Which part?"),
        ({"what": "sublet"}, "words", "where was it sent?"),
        ({"what": "person"}, "person", "Who?"),
        ({"what": "other"}, "words", "What does it wait for?"),
        ({"what": "part", "words": "x", "due_time": "9"}, "due_time", "14:30"),
    ],
)
def test_what_is_missing_is_asked_for_at_its_field(fields, field, sentence):
    outcome = tell(WAITING, make_job(), **fields)
    assert outcome.form is not None
    assert sentence in str(outcome.form.errors[field])


@pytest.mark.parametrize(
    ("day", "at", "zone"),
    [
        ("0001-01-01", "00:10", "Europe/Vienna"),
        ("9999-12-31", "23:59", "America/Chicago"),
    ],
)
def test_a_year_that_nobody_can_mean_is_asked_for_again(day, at, zone):
    with timezone.override(zone):
        outcome = tell(WAITING, make_job(), what="yes", due_date=day, due_time=at)
    assert outcome.form is not None
    assert "The year lies between" in str(outcome.form.errors["due_date"])


def test_several_stand_at_once_and_each_is_ended_by_itself():
    job = make_job()
    vacuum = told_at(job, NOON, what="vacuum", minutes="45")
    part = told_at(job, NOON, what="part", words="drier")
    end_at(job, NOON + timedelta(minutes=50), vacuum)
    assert [one.key for one in standing_waits([job])] == [part]
    assert Waiting.objects.count() == 2


def test_two_tablets_that_end_the_same_one_do_no_harm_and_the_first_to_happen_stands():
    job = make_job()
    vacuum = told_at(job, NOON, what="vacuum", minutes="45")
    late = end_at(job, NOON + timedelta(minutes=50), vacuum)
    assert ended_by(vacuum) == late
    early = end_at(job, NOON + timedelta(minutes=46), vacuum)
    assert ended_by(vacuum) == early
    assert Entry.objects.filter(kind="waiting_end").count() == 2


def test_one_that_arrives_after_its_end_is_ended():
    job, key = make_job(), uuid.uuid4()
    end_at(job, NOON, key)
    enter(WAITING, make_told({"what": "yes"}, key=key, job_key=job.key))
    assert row(key).ended_by is not None


def test_a_correction_told_after_the_end_runs_again():
    job = make_job()
    vacuum = told_at(job, NOON, what="vacuum", minutes="45")
    end_at(job, NOON + timedelta(minutes=10), vacuum)
    again = uuid.uuid4()
    later = {"happened_at": NOON + timedelta(minutes=30), "corrects": vacuum}
    fields = {"what": "vacuum", "minutes_typed": "90"}
    assert enter(WAITING, make_told(fields, key=again, job_key=job.key, **later)).stands
    assert row(again).ended_by is None
    assert row(vacuum).ended_by is not None


@pytest.mark.parametrize("named", ["", "no key", "6f0d3a52-51f3-4c0e-9f1f-3d0c2a7f8b19"])
def test_an_end_of_nothing_changes_nothing(named):
    job = make_job()
    vacuum = told_at(job, NOON, what="vacuum", minutes="45")
    tell(WAITING_END, job, waiting=named)
    assert row(vacuum).ended_by is None


def test_another_jobs_is_not_ended_from_here():
    vacuum = told_at(make_job(), NOON, what="vacuum", minutes="45")
    end_at(make_job(plate="PW.5504K"), NOON, vacuum)
    assert row(vacuum).ended_by is None


def test_one_that_corrects_another_takes_its_place():
    job = make_job()
    first = told_at(job, NOON, what="vacuum", minutes="45")
    second = told_at(job, NOON, corrects=first, what="vacuum", minutes="30")
    assert [one.key for one in standing_waits([job])] == [second]
    end_at(job, NOON, first)
    assert not standing_waits([job])


@pytest.mark.parametrize("what", sorted(BY_ITSELF))
def test_when_it_is_over_its_words_say_since_when_and_nothing_more(what):
    timer = row(told_at(make_job(), NOON, what=what, minutes="45"))
    assert timer.time_words(NOON + timedelta(minutes=44)) == "until 12:45"
    assert timer.time_words(NOON + timedelta(minutes=45)) == "over since 12:45"


def test_the_page_kept_on_tablets_brings_the_words_of_each_kind(client):
    client.force_login(make_person())
    shown = client.get(reverse("waiting")).content.decode()
    found = re.search(r'<script id="waits-worded"[^>]*>(.*?)</script>', shown)
    assert found
    worded = json.loads(found[1])
    assert set(worded) == set(WHATS)
    for what, one in worded.items():
        said = Waiting(what=what, words="x")
        assert ": ".join(filter(None, (one["before"], "x"))).capitalize() == said.label.capitalize()
        assert one["alone"] == WHATS[what]
    assert worded["pause"]["minutes"] == 30


def test_every_kind_has_its_time_in_words():
    for what in WHATS:
        wait = Waiting(what=what, began_at=NOON)
        assert wait.time_words(NOON)
        assert wait.label


def test_what_is_past_is_told_as_past():
    part = Waiting(what="part", words="drier", due_on=NOON.date(), began_at=NOON)
    assert part.time_words(NOON) == "due today"
    assert part.time_words(NOON + timedelta(days=2)) == "was due 10 Jun"
    person = Waiting(what="person", until=NOON, began_at=NOON)
    assert person.time_words(NOON + timedelta(days=1)) == "was expected 10 Jun 12:00"


def test_the_page_posts_without_script_and_the_job_shows_it(client):
    job = make_job()
    client.force_login(make_person())
    fields = {"key": str(uuid.uuid4()), "what": "part", "words": "<b>drier</b>"}
    response = client.post(f"{reverse('waiting')}?job={job.key}", fields)
    assert response["Location"] == f"/job/?job={job.key}"
    shown = client.get(response["Location"]).content.decode()
    assert "Part: &lt;b&gt;drier" in shown
    assert "No longer" in shown


def test_a_tap_ends_it_without_script(client):
    job = make_job()
    vacuum = told_at(job, NOON, what="vacuum", minutes="45")
    client.force_login(make_person())
    fields = {"key": str(uuid.uuid4()), "waiting": str(vacuum)}
    response = client.post(f"{reverse('waiting_end')}?job={job.key}", fields)
    assert response["Location"] == f"/job/?job={job.key}"
    assert "It waits for nothing." in client.get(response["Location"]).content.decode()


def test_a_form_that_comes_back_keeps_what_was_typed(client):
    job = make_job()
    client.force_login(make_person())
    fields = {"what": "timer", "words": "oven", "minutes_typed": "soon"}
    response = client.post(f"{reverse('waiting')}?job={job.key}", fields)
    assert response.status_code == 422
    assert 'value="oven"' in response.content.decode()


def test_start_and_end_stand_in_the_logbook():
    job = make_job()
    end_at(job, NOON, told_at(job, NOON, what="vacuum", minutes="45"))
    kinds = Entry.objects.filter(job_key=job.key).order_by("id").values_list("kind", flat=True)
    assert list(kinds) == ["intake", "waiting", "waiting_end"]


def test_the_page_kept_on_tablets_names_nobody(client):
    make_person(name="Unmistakable Name")
    client.force_login(make_person())
    assert "Unmistakable Name" not in client.get(reverse("waiting")).content.decode()


def test_nobody_sees_it_without_a_sign_in(client):
    response = client.get(f"{reverse('waiting')}?job={make_job().key}")
    assert response["Location"].startswith(reverse("sign_in"))


# Minutes that are up.


def test_a_timer_that_is_over_tells_that_its_minutes_are_up_and_what_to_read(client):
    job = make_job()
    told_at(job, timezone.now() - timedelta(minutes=40), what="vacuum", minutes="30")
    client.force_login(make_person())
    shown = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    first = shown.split('class="job-side"')[0]
    assert "30 minutes are up: read the vacuum" in first
    assert f"/step/vacuum_hold/?job={job.key}" in first
    assert "Vacuum is over" not in shown


def test_what_is_done_again_and_again_stands_on_the_first_screen(client):
    job = make_job()
    client.force_login(make_person())
    shown = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    first = shown.split('class="job-side"')[0]
    for page in ("photo", "handover", "waiting", "place", "tag"):
        way = f'href="{reverse(page)}?job={job.key}"'
        assert way in first
        assert shown.count(way) == 1


def test_a_timer_is_started_and_what_waits_for_someone_is_recorded(client):
    client.force_login(make_person())
    shown = client.get(f"{reverse('waiting')}?job={make_job().key}").content.decode()
    assert "Start the timer" in shown


def test_an_open_loop_is_said_before_a_vacuum_timer_is_recorded(client):
    job = make_job()
    client.force_login(make_person())

    def shown() -> str:
        return client.get(f"{reverse('waiting')}?job={job.key}").content.decode()

    assert "data-bars-pumping hidden" in shown()
    tell(CHANGE, job, what="opened")
    form = shown().split('<button class="bar"')[0]
    assert "note that it is closed" in form
    assert "data-bars-pumping hidden" not in form
    assert told_at(job, timezone.now(), what="vacuum", minutes="30")  # a fact is never refused


def test_a_person_who_is_not_named_is_someone():
    job = make_job()
    one = row(told_at(job, NOON, what="person", words="prove it dead"))
    assert one.label == "Someone: prove it dead"
