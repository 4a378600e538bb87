"""A job changes hands: the note by taps, and where it stands until somebody takes over."""

import re
import uuid
from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from jobs.entries import CHANGE, HANDOVER, PLACE, TAKEN_OVER, WAITING
from jobs.logbook import AGAIN, RETURNED, enter
from jobs.models import Handover
from jobs.models.handovers import STANDS
from jobs.models.people import DESK
from tests.factories import make_job, make_person, make_told, tell

pytestmark = pytest.mark.django_db
NOW = timezone.now()


@pytest.fixture
def signed_in(client):
    client.force_login(make_person(name="R. Sand"))
    return client


def page_of(client, job, page="job"):
    response = client.get(reverse(page), {"job": job.key})
    assert response.status_code == 200
    return response.content.decode()


def note(job, author=None, minutes_ago=5, **fields):
    """A note told to the logbook as written so long ago."""
    at = NOW - timedelta(minutes=minutes_ago)
    told = make_told({"stands": ["hood_open"], **fields}, author, job_key=job.key, happened_at=at)
    assert enter(HANDOVER, told).stands
    return Handover.objects.get(key=told.key)


def take(job, one, author=None, minutes_ago=1):
    at = NOW - timedelta(minutes=minutes_ago)
    fields = {"handover": str(one.key)}
    return enter(TAKEN_OVER, make_told(fields, author, job_key=job.key, happened_at=at))


def has_it(job, person, minutes_ago):
    at = NOW - timedelta(minutes=minutes_ago)
    assert enter(PLACE, make_told({"has_it": "me"}, person, job_key=job.key, happened_at=at)).stands


# The page.


def test_nobody_hands_over_without_a_sign_in(client):
    assert client.get(reverse("handover"), {"job": make_job().key}).status_code == 302


def test_the_front_desk_hands_over_too(client):
    client.force_login(make_person(DESK))
    assert page_of(client, make_job(), "handover")


def test_the_next_test_is_tapped_already_and_the_loop_stands_above(signed_in):
    shown = page_of(signed_in, make_job(), "handover")
    assert 'name="next_test" value="complaint_seen" checked' in shown
    assert "not looked at yet" in shown


def test_who_writes_it_and_who_left_are_not_offered(signed_in):
    make_person(name="E. Quist")
    make_person(name="O. Gone", is_active=False)
    shown = page_of(signed_in, make_job(), "handover")
    for name, hidden in (("E. Quist", False), ("R. Sand", True), ("O. Gone", True)):
        before = shown[: shown.index(f"<span>{name}</span>")]
        assert (" hidden>" in before[before.rindex("<label") :]) is hidden


@pytest.mark.parametrize(("drive", "there"), [("belt_clutch", False), ("electric_hv", True)])
def test_only_a_car_with_high_voltage_is_asked_about_it(signed_in, drive, there):
    shown = page_of(signed_in, make_job(drive=drive), "handover")
    before = shown[: shown.index("<span>High voltage isolated</span>")]
    assert (" hidden>" not in before[before.rindex("<label") :]) is there


def test_the_page_without_a_job_names_nobody_of_the_shop_and_takes_a_typed_name(signed_in):
    shown = signed_in.get(reverse("handover")).content.decode()
    assert "R. Sand" not in shown
    assert 'name="to_name"' in shown


def test_a_note_is_posted_and_leads_back_to_the_job(signed_in):
    job, next_one = make_job(), make_person(name="E. Quist")
    fields = {"to": str(next_one.key), "stands": ["gauges_on", "engine_hot"], "next_test": "fuse"}
    response = signed_in.post(f"{reverse('handover')}?job={job.key}", fields)
    assert response["Location"] == f"/job/?job={job.key}"
    row = Handover.objects.get()
    assert (row.to, row.stands, row.next_test) == (next_one, ["gauges_on", "engine_hot"], "fuse")


def test_an_empty_note_comes_back_with_a_sentence_and_what_was_tapped(signed_in):
    job, to = make_job(), make_person(name="E. Quist")
    response = signed_in.post(f"{reverse('handover')}?job={job.key}", {"to": str(to.key)})
    assert response.status_code == 422
    shown = response.content.decode()
    assert "Tap what stands now or what comes next" in shown
    assert f'value="{to.key}"' in shown
    assert "checked" in shown[shown.index(f'value="{to.key}"') :][:200]


def test_a_test_that_is_none_comes_back():
    outcome = tell(HANDOVER, make_job(), next_test="no/such test")
    assert outcome.state == RETURNED


# The entry.


def test_the_same_note_sent_twice_stands_once():
    job = make_job()
    told = make_told({"said": "Shield off."}, job_key=job.key)
    assert enter(HANDOVER, told).stands
    assert enter(HANDOVER, told).state == AGAIN
    assert Handover.objects.count() == 1


def test_a_name_typed_away_from_the_server_stands_as_typed():
    row = note(make_job(), to_name="Quist")
    assert (row.to, row.to_words) == (None, "Quist")


def test_a_note_to_nobody_is_to_whoever_is_next():
    assert note(make_job(), to="anyone").to_words == "whoever is next"


def test_a_note_to_somebody_who_left_since_is_taken():
    gone = make_person(is_active=False)
    assert note(make_job(), to=str(gone.key)).to == gone


def test_what_stands_is_told_in_one_order_whatever_was_tapped_first():
    row = note(make_job(), stands=["in_trunk", "gauges_on"])
    assert row.stands_words == [STANDS["gauges_on"], STANDS["in_trunk"]]


# On top of the job.


def test_the_note_stands_on_top_of_the_job_until_somebody_takes_over(signed_in):
    job, by = make_job(), make_person(name="E. Quist")
    one = note(job, by, said="Bolts on the battery.", next_test="hub_turn", next_words="Then gap.")
    shown = page_of(signed_in, job)
    top = shown[: shown.index("Failing now?")]
    for words in ("whoever is next", "E. Quist", "Hood open", "Bolts on the battery.", "Then gap."):
        assert words in top
    assert f"/step/hub_turn/?job={job.key}" in top
    response = signed_in.post(
        f"{reverse('handover_taken')}?job={job.key}", {"handover": str(one.key)}
    )
    assert response["Location"] == f"/job/?job={job.key}"
    assert "Bolts on the battery." not in page_of(signed_in, job)


def test_taking_over_is_a_post_only(signed_in):
    address = f"{reverse('handover_taken')}?job={make_job().key}"
    assert signed_in.get(address).status_code == 405


def test_taking_over_no_note_comes_back_with_a_sentence(signed_in):
    address = f"{reverse('handover_taken')}?job={make_job().key}"
    response = signed_in.post(address, {"handover": "17"})
    assert response.status_code == 422
    assert "This names no note" in response.content.decode()


def test_the_last_note_counts_whichever_arrives_first(signed_in):
    job = make_job()
    note(job, minutes_ago=5, said="The later one.")
    note(job, minutes_ago=50, said="The earlier one.")
    shown = page_of(signed_in, job)
    assert "The later one." in shown
    assert "The earlier one." not in shown


def test_an_earlier_note_does_not_come_back_when_the_last_is_taken_over(signed_in):
    job = make_job()
    note(job, minutes_ago=50, said="The earlier one.")
    take(job, note(job, minutes_ago=5))
    assert "The earlier one." not in page_of(signed_in, job)


def test_of_two_who_took_over_the_first_to_do_so_did():
    job, first, second = make_job(), make_person(), make_person()
    one = note(job, minutes_ago=30)
    take(job, one, second, minutes_ago=10)
    take(job, one, first, minutes_ago=20)
    take(job, one, make_person(), minutes_ago=1)
    one.refresh_from_db()
    assert one.taken_over.author == first


def test_a_note_of_another_job_is_not_taken_over():
    one = note(make_job())
    assert take(make_job(), one).stands
    one.refresh_from_db()
    assert one.taken_over is None


def test_the_note_is_told_to_tablets_until_it_is_taken_over(signed_in):
    job = make_job()
    one = note(job, make_person(name="E. Quist"), next_test="hub_turn")
    asked = {"job": job.key}
    told = signed_in.get(reverse("job_json"), asked).json()["handover"]
    assert (told["key"], told["by"], told["stands"]) == (str(one.key), "E. Quist", ["Hood open"])
    assert told["next_title"] == "Hub turned by hand"
    take(job, one)
    assert signed_in.get(reverse("job_json"), asked).json()["handover"] is None


def test_every_note_stays_among_what_was_done_with_who_took_over(signed_in):
    job = make_job()
    take(job, note(job, said="Bolts on the battery."), make_person(name="E. Quist"))
    shown = page_of(signed_in, job, "steps")
    assert "Bolts on the battery." in shown
    assert "Taken over by <bdi>E. Quist</bdi>" in shown


# Where the note and the tests differ.


def opened(job, minutes_ago):
    at = NOW - timedelta(minutes=minutes_ago)
    assert enter(CHANGE, make_told({"what": "opened"}, job_key=job.key, happened_at=at)).stands


def test_a_note_that_denies_an_open_loop_is_taken_and_both_are_said(signed_in):
    job = make_job()
    opened(job, 30)
    note(job, stands=["sealed"])
    shown = page_of(signed_in, job)
    assert "Told: loop closed. By tests and changes until then: opened " in shown


def test_what_was_done_after_the_note_denies_nothing(signed_in):
    job = make_job()
    note(job, stands=["sealed"], minutes_ago=30)
    opened(job, 5)
    assert "By tests and changes until then" not in page_of(signed_in, job)


def test_two_taps_that_cannot_both_be_are_said(signed_in):
    job = make_job()
    note(job, stands=["sealed", "open"])
    shown = page_of(signed_in, job)
    assert "Both were told: loop closed, and loop open, not capped." in shown


def test_the_jobs_page_asks_the_database_as_often_for_many_notes_as_for_one(signed_in):
    job = make_job()
    counts = []
    for number in (1, 6):
        for _ in range(number):
            note(job, to=str(make_person().key))
        with CaptureQueriesContext(connection) as queries:
            page_of(signed_in, job)
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_a_note_on_a_job_that_is_not_here_goes_back():
    make_job()
    outcome = enter(HANDOVER, make_told({"said": "x"}, job_key=uuid.uuid4()))
    assert outcome.state == RETURNED


def test_what_a_running_timer_tells_is_tapped_already(signed_in):
    job = make_job()
    tell(WAITING, job, what="vacuum", minutes="30")
    page = page_of(signed_in, job, "handover")
    assert re.search(r'name="stands"[^>]*value="vacuum"[^>]*checked', page)
    assert not re.search(r'name="stands"[^>]*value="nitrogen"[^>]*checked', page)


def test_whoever_takes_over_has_the_car_until_something_newer_is_told(signed_in):
    job, quist = make_job(), make_person(name="E. Quist")
    has_it(job, lunt := make_person(name="P. Lunt"), 9)
    take(job, note(job), quist)
    job.refresh_from_db()
    assert job.has_it == quist
    has_it(job, lunt, 0)
    job.refresh_from_db()
    assert job.has_it == lunt


def test_the_board_says_to_whom_a_car_was_handed_over(client, signed_in):
    job, quist = make_job(), make_person(name="E. Quist")
    one = note(job, to=str(quist.key))
    assert "handed over to E. Quist" in client.get(reverse("board")).content.decode()
    take(job, one, quist)
    assert "handed over to" not in client.get(reverse("board")).content.decode()


def test_who_wrote_the_note_may_take_it_back_and_is_not_asked_to_take_over(client):
    job, sand = make_job(), make_person(name="R. Sand")
    note(job, sand)
    client.force_login(sand)
    shown = page_of(client, job)
    assert "Taken back" in shown
    assert "I go on with this car." not in shown
