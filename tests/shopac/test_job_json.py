"""Jobs as a tablet keeps them: enough to go on with, and nothing about people or prices."""

import json
import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.runs import runs
from jobs.entries import CHANGE, HANDOVER, PLACE, WAITING, WAITING_END
from jobs.logbook import enter
from tests.diagnostics.step_forms import open_state, tell
from tests.factories import make_job, make_person, make_told

pytestmark = pytest.mark.django_db


@pytest.fixture
def signed_in(client):
    client.force_login(make_person())
    return client


def told(signed_in, job):
    return signed_in.get(reverse("job_json"), {"job": job.key}).json()


def test_nobody_gets_it_without_a_sign_in(client):
    job = make_job()
    assert client.get(reverse("job_json"), {"job": job.key}).status_code == 401
    assert client.get(reverse("jobs_json")).status_code == 401


def test_it_tells_which_car_and_how_it_is_fitted(signed_in):
    job = make_job(drive="belt_clutch", voltage="12")
    said = told(signed_in, job)
    assert (said["key"], said["plate"]) == (str(job.key), job.vehicle.plate)
    assert (said["system"]["drive"], said["system"]["voltage"]) == ("belt_clutch", "12")
    assert said["stage_words"] == job.stage_words


def test_it_tells_the_open_points_with_their_pages(signed_in):
    points = told(signed_in, make_job(vin=None))["points"]
    assert any("VIN" in point["sentence"] and point["page"] == "vehicle" for point in points)


def test_it_tells_the_steps_made_and_what_they_showed(signed_in):
    job = make_job()
    tell(job)
    [step] = told(signed_in, job)["steps"]
    assert (step["number"], step["kind"]) == (1, "coil_power")
    assert step["finding"]
    assert step["photos"] == 0
    assert step["shuts"] == step["opens"] == []


def test_it_tells_the_state_that_came_last_by_time_not_by_arrival(signed_in):
    job = make_job()
    last = open_state(job, timezone.now())
    open_state(job, job.opened_at)
    assert told(signed_in, job)["state"]["number"] == last.number


def test_a_replaced_step_says_by_which_and_counts_no_more(signed_in):
    job = make_job()
    tell(job, told={"corrects": tell(job).key}, holds="yes", pushed=None)
    first, second = told(signed_in, job)["steps"]
    assert (first["stands"], first["replaced_by"]) == (False, second["number"])
    assert (second["stands"], second["replaced_by"]) == (True, None)


def test_it_tells_the_loop_in_one_text_with_what_must_not_be_done(signed_in):
    job = make_job()
    assert told(signed_in, job)["loop"].startswith("not looked at yet.")
    enter(CHANGE, make_told({"what": "opened"}, job_key=job.key))
    loop = told(signed_in, job)["loop"]
    assert loop.startswith("opened ")
    assert "Must not be run: the loop is open" in loop
    assert loop.endswith("Tight: not told by this.")


def test_it_tells_the_customers_own_words(signed_in):
    assert told(signed_in, make_job(complaint="Warm at idle."))["complaint"] == "Warm at idle."


def test_it_tells_no_name_no_phone_and_no_amount_agreed(signed_in):
    job = make_job(customer_name="Bartholomea", phone="0660 7654321", consent_amount="714830")
    text = json.dumps(told(signed_in, job))
    for one in ("Bartholomea", "0660 7654321", "7654321", "714830"):
        assert one not in text


def test_it_tells_where_the_car_is_what_it_waits_for_and_what_is_next(signed_in):
    job = make_job()
    enter(PLACE, make_told({"bay_words": "2", "key_hook": "7"}, job_key=job.key))
    enter(WAITING, make_told({"what": "vacuum", "minutes": "45"}, job_key=job.key))
    said = told(signed_in, job)
    place = said["place"]
    assert (place["bay_words"], place["hook_words"]) == ("bay 2", "key 7")
    assert (place["promised_at"], place["word"], place["past_word"]) == (
        None,
        "promised",
        "was due",
    )
    [vacuum] = said["waiting"]
    assert (vacuum["label"], vacuum["runs"]) == ("Vacuum", True)
    assert (vacuum["word"], vacuum["past_word"]) == ("until", "over since")
    assert vacuum["at"] == vacuum["until"]
    kind = KINDS[said["next"]["kind"]]
    assert not runs(kind)  # a vacuum runs
    assert said["next"]["title"] == kind.title
    first = said["next"]["planned"][0]
    assert first["kind"] == kind.name
    assert first["words"] == said["next"]["said"]
    assert (vacuum["over"], vacuum["read"]) == ("45 minutes are up: read the vacuum", "vacuum_hold")


def test_what_somebody_is_waited_for_comes_with_the_words_of_the_shop_server(signed_in):
    job = make_job()
    due = timezone.localdate().replace(month=12, day=3)
    part = {"what": "part", "words": "drier", "due_date": due.isoformat()}
    enter(WAITING, make_told(part, job_key=job.key))
    enter(WAITING, make_told({"what": "yes"}, job_key=job.key))
    drier, answer = told(signed_in, job)["waiting"]
    assert (drier["due_words"], drier["word"], drier["past_word"]) == ("3 Dec", "due", "was due")
    assert drier["at"].startswith(f"{due.isoformat()}T23:59:59")
    assert (answer["due_words"], answer["word"], answer["past_word"]) == ("", "asked", "asked")


def test_what_was_ended_is_told_no_more(signed_in):
    job = make_job()
    vacuum = enter(WAITING, make_told({"what": "vacuum", "minutes": "45"}, job_key=job.key))
    enter(WAITING_END, make_told({"waiting": str(vacuum.key)}, job_key=job.key))
    assert told(signed_in, job)["waiting"] == []


def test_without_a_note_it_names_none_of_the_shops_people(signed_in):
    quist = make_person(name="Unmistakable Name")
    job = make_job()
    enter(PLACE, make_told({"has_it": str(quist.key)}, job_key=job.key))
    who = {"what": "person", "person": str(quist.key), "words": "prove it dead"}
    enter(WAITING, make_told(who, job_key=job.key))
    text = json.dumps(told(signed_in, job))
    assert "Unmistakable" not in text
    assert "Someone: prove it dead" in text


def test_of_the_shops_people_it_names_who_wrote_the_hand_over_note_and_whom_it_is_for(signed_in):
    here, quist, sand = (make_person(name=name) for name in ("P. Here", "E. Quist", "R. Sand"))
    job = make_job()
    enter(PLACE, make_told({"has_it": str(here.key)}, job_key=job.key))
    note = {"stands": ["hood_open"], "to": str(quist.key)}
    enter(HANDOVER, make_told(note, sand, job_key=job.key))
    said = told(signed_in, job)
    assert (said["handover"]["by"], said["handover"]["to"]) == ("R. Sand", "E. Quist")
    assert "P. Here" not in json.dumps(said)


def test_a_job_the_server_does_not_have_is_not_told(signed_in):
    assert signed_in.get(reverse("job_json"), {"job": uuid.uuid4()}).status_code == 404
    assert signed_in.get(reverse("job_json"), {"job": "no key"}).status_code == 404
    assert signed_in.get(reverse("job_json")).status_code == 404


def test_closed_jobs_are_not_kept_ahead(signed_in):
    still_open, closed = make_job(), make_job()
    closed.stage = "closed"
    closed.save()
    keys = [job["key"] for job in signed_in.get(reverse("jobs_json")).json()["jobs"]]
    assert keys == [str(still_open.key)]


def test_many_jobs_take_no_more_queries_than_few(signed_in):
    counts = []
    for number in (2, 6):
        for _ in range(number):
            tell(make_job())
        with CaptureQueriesContext(connection) as queries:
            signed_in.get(reverse("jobs_json"))
        counts.append(len(queries))
    assert counts[0] == counts[1]


def asked_again(signed_in, answer):
    return signed_in.get(reverse("jobs_json"), headers={"if-none-match": answer["ETag"]})


def test_who_has_the_jobs_as_they_are_is_told_so_without_reading_them_again(signed_in):
    make_job()
    first = signed_in.get(reverse("jobs_json"))
    with CaptureQueriesContext(connection) as queries:
        again = asked_again(signed_in, first)
    assert (again.status_code, again.content) == (304, b"")
    assert not any("jobs_job" in query["sql"] for query in queries)


def test_any_entry_makes_the_answer_a_whole_one_again(signed_in):
    job = make_job()
    first = signed_in.get(reverse("jobs_json"))
    tell(job)
    again = asked_again(signed_in, first)
    assert again.status_code == 200
    assert len(again.json()["jobs"][0]["steps"]) == 1


def test_a_newer_program_tells_the_jobs_anew(signed_in, monkeypatch):
    make_job()
    first = signed_in.get(reverse("jobs_json"))
    monkeypatch.setattr("shopac.views.job_json.VERSION", "99.0")
    assert asked_again(signed_in, first).status_code == 200


def test_having_the_jobs_does_not_stand_for_a_sign_in(signed_in):
    first = signed_in.get(reverse("jobs_json"))
    signed_in.logout()
    assert asked_again(signed_in, first).status_code == 401


def test_no_browser_keeps_a_copy_of_the_jobs_of_its_own(signed_in):
    first = signed_in.get(reverse("jobs_json"))
    assert first["Cache-Control"] == "no-store"
    assert asked_again(signed_in, first)["Cache-Control"] == "no-store"


def test_the_open_jobs_are_looked_for_through_their_index(signed_in):
    with CaptureQueriesContext(connection) as queries:
        signed_in.get(reverse("jobs_json"))
    [asked] = [query["sql"] for query in queries if 'FROM "jobs_job"' in query["sql"]]
    assert '"stage" IN (' in asked
    assert "NOT" not in asked
