"""What is open about what was agreed: beyond it, by another, not whole."""

import json
from typing import Any

import pytest
from django.urls import reverse

from jobs.entries import CHANGE, NAMED
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.points import open_points
from tests.diagnostics.test_record_steps import data_of
from tests.factories import make_person, make_told, tell
from tests.jobs.agreeing import DRAWN, ago, ask, came_in, make_estimate

pytestmark = pytest.mark.django_db
WORK: dict[str, Any] = {
    "work": "Front hose renewed",
    "consent_added": "100",
    "consent_amount": "250",
}
CLUTCH = {"what": "fitted", "part": "clutch", "source": "new", "serial": "0417"}


def change(job: Job, minutes: float = 5, **fields):
    told = make_told(CLUTCH | fields, job_key=job.key, happened_at=ago(minutes))
    assert enter(CHANGE, told).stands


def points(job: Job) -> dict[str, list[str]]:
    """The sentences of what is open about what was agreed, by code."""
    changes = job.changes.select_related("entry", "state", "supersedes")
    fresh = Job.objects.select_related("customer", "vehicle__system").get(pk=job.pk)
    found: dict[str, list[str]] = {}
    for one in open_points(fresh, list(fresh.consents.all()), changes):
        if one.page in ("consent", "old_part"):
            found.setdefault(one.code, []).append(one.sentence)
    return found


def test_a_job_with_consent_to_find_the_fault_has_nothing_open_about_it():
    assert points(came_in()) == {}


def test_an_estimate_waits_for_a_consent_and_says_how_often_somebody_was_tried():
    job = came_in()
    estimate = make_estimate(job, at=ago(60))
    assert points(job) == {"consent_estimate": ["Estimate 1: nobody agreed to it yet"]}
    ask(job, estimate, at=ago(9), consent_outcome="not_reached")
    ask(job, estimate, at=ago(8), consent_outcome="not_reached")
    [sentence] = points(job)["consent_estimate"]
    assert sentence.startswith("Estimate 1: nobody agreed to it yet; tried 2 times, last ")
    ask(job, estimate, at=ago(7))
    assert points(job) == {}


def test_an_estimate_that_was_refused_waits_for_nobody():
    job = came_in()
    ask(job, make_estimate(job), consent_outcome="refused")
    assert points(job) == {}


def test_a_newer_version_waits_for_a_consent_of_its_own():
    job = came_in()
    ask(job, make_estimate(job, at=ago(60)), at=ago(40))
    make_estimate(job, total=60000, at=ago(20))
    assert points(job) == {"consent_estimate": ["Estimate 2: nobody agreed to it yet"]}


def test_a_change_on_the_car_that_nobody_agreed_to_is_work_beyond_consent():
    job = came_in()
    change(job, what="gap_set", part="", source="")
    assert points(job)["work_beyond"] == [
        "Air gap set: done without consent to more than finding the fault"
    ]


def test_what_was_agreed_to_before_it_was_done_is_not_beyond():
    job = came_in()
    ask(job, "work", at=ago(20), **WORK)
    change(job, minutes=5)
    assert "work_beyond" not in points(job)


def test_what_was_agreed_to_after_it_was_done_stays_open_and_says_when():
    job = came_in()
    change(job, minutes=20)
    ask(job, "work", at=ago(5), **WORK)
    [sentence] = points(job)["work_beyond"]
    assert "; agreed to later, " in sentence


def test_what_is_no_repair_needs_no_more_than_the_first_consent():
    job = came_in()
    change(job, what="opened", part="", source="")
    assert points(job) == {}


def test_a_consent_by_somebody_who_is_not_noted_is_open_until_the_name_is():
    job = came_in()
    ask(job, "work", **WORK, consent_who="other", consent_by="J. Pell")
    [sentence] = points(job)["consent_by_other"]
    assert "Pell" not in sentence
    tell(NAMED, job, named_name="J. Pell", speaks_for="customer")
    assert points(job) == {}


@pytest.mark.parametrize("payer", ["insurer", "warranty", "fleet"])
def test_where_another_pays_work_needs_a_word_of_who_speaks_for_them(payer):
    job = came_in(payer=payer)
    ask(job, "work", at=ago(9), **WORK)
    assert "nobody who speaks for them" in points(job)["consent_payer"][0]
    key = tell(NAMED, job, named_name="J. Pell", speaks_for="payer").key
    ask(job, "work", at=ago(5), **WORK, consent_who=str(key))
    assert points(job) == {}


def test_what_of_the_items_nobody_noted_is_named():
    job = came_in()
    ask(job, "work", **WORK, consent_how=None, number_called=None)
    assert points(job)["consent_how"] == ["Consent no. 2: how it was given"]
    ask(job, "work", **WORK, number_called=None)
    assert "Consent no. 3: number called" in points(job)["consent_how"]


def test_a_page_that_did_not_ask_for_a_signature_leaves_it_open():
    job = came_in()
    ask(job, "work", **WORK, consent_how="in_person", consent_asked=None)
    assert points(job)["consent_how"] == ["Consent no. 2: signature"]


def test_no_point_has_an_amount_or_a_name_in_it_since_tablets_keep_them(client):
    job = came_in()
    make_estimate(job)
    ask(job, "work", **WORK, consent_who="other", consent_by="J. Pell")
    change(job)
    client.force_login(make_person())
    told = client.get(f"{reverse('job_json')}?job={job.key}").content.decode()
    for words in ("560", "250.00", "Pell", "Marwell", "EUR", "555 010"):
        assert words not in told


def test_the_repair_page_says_what_is_agreed_with_its_amount(client):
    job = came_in()
    ask(job, make_estimate(job))
    client.force_login(make_person())
    page = client.get(f"{reverse('repair')}?job={job.key}").content.decode()
    assert "Agreed: <bdi>estimate 1</bdi>, up to" in page
    assert "560.00\xa0EUR" in page


def test_the_job_page_shows_each_time_that_somebody_was_asked_and_the_old_parts(client):
    job = came_in()
    estimate = make_estimate(job, at=ago(60))
    ask(job, estimate, at=ago(9), consent_outcome="not_reached")
    told = {"consent_how": "in_person", "signature": DRAWN, "old_parts": "shown"}
    ask(job, estimate, at=ago(5), **told)
    client.force_login(make_person())
    page = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    assert "No. 2, asked: <bdi>estimate 1</bdi>. <strong>Could not be reached.</strong>" in page
    assert "Consent no. 3: <bdi>estimate 1</bdi>, up to" in page
    assert "Signature to consent no. 3" in page
    assert "Old parts: <bdi>Show them, then the shop may keep them</bdi>." in page


def test_the_record_tells_each_consent_whole_and_no_number_that_was_called():
    job = came_in(phone="555 010 4444")
    told = {"consent_how": "in_person", "signature": DRAWN, "number_called": "555 010 3333"}
    ask(job, make_estimate(job), **told)
    data = data_of(job)
    one = data["consents"][-1]
    assert (one["about_text"], one["estimate"], one["outcome"]) == ("estimate 1", 1, "agreed")
    assert (one["added"], one["amount"]) == ("410.00\xa0EUR", "560.00\xa0EUR")
    assert (one["signed"], one["signature"][:8]) == ("Signed by hand", "M100 150")
    assert "3333" not in json.dumps(data)


def test_the_record_names_no_amount_where_nobody_said_yes():
    job = came_in()
    ask(job, make_estimate(job), consent_outcome="refused")
    one = data_of(job)["consents"][-1]
    assert (one["outcome_text"], one["amount"], one["added"]) == ("Refused to agree", "", "")
