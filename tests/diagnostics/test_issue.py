"""Freezing an issue: data, file and hashes together; what the issuer did not see is refused."""

import io
import json
import uuid
from datetime import datetime, timedelta
from typing import Any

import pikepdf
import pytest
from django.test import Client, override_settings
from django.urls import reverse
from django.utils import timezone

from diagnostics.actions import issue as action
from diagnostics.entries import ISSUE
from diagnostics.forms.issue import IssueForm
from jobs.entries import FAILING_NOW
from jobs.logbook import AGAIN, FORBIDDEN, REFUSED, RETURNED, Outcome, enter
from jobs.models import Entry, Job, Person, Record
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.paper import typeset
from jobs.paper.frozen import SCHEMA, sha256
from jobs.paper.shelf import file_of
from jobs.passes import TABLET_COOKIE, make_pass, tablet_token
from tests.factories import make_job, make_person, make_told
from tests.jobs.records import printed

pytestmark = pytest.mark.django_db


def freeze(job: Job, author: Person | None = None, **fields: Any) -> Outcome:
    """Tell the logbook to freeze an issue, as its page would after looking at the job."""
    seen = {"issue": str(job.records.count() + 1), "entries": str(entries(job)), **fields}
    told = {name: value for name, value in seen.items() if value}
    return enter(ISSUE, make_told(told, author or make_person(OWNER), job_key=job.key))


def entries(job: Job) -> int:
    return Entry.objects.filter(job_key=job.key).count()


def test_data_file_and_both_hashes_are_frozen_together():
    job = make_job()
    author = make_person(OWNER, name="E. Quist")
    assert freeze(job, author).stands
    record = Record.objects.get(job=job)
    pdf = file_of(record)
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        (spec,) = opened.attachments.values()
        attached = spec.get_file().read_bytes()
    assert attached == record.data.encode()
    assert record.data_sha256 == sha256(attached)
    assert record.pdf_sha256 == sha256(pdf)
    logged = {"data_sha256": sha256(attached), "pdf_sha256": sha256(pdf)}
    assert record.entry.result.items() >= logged.items()
    assert record.pdf_bytes == len(pdf)
    assert (record.issue, record.issued_by, record.schema) == (1, author, SCHEMA)


def test_the_moment_is_when_the_server_read_the_data_in_row_and_data():
    job = make_job()
    before = timezone.now()
    freeze(job)
    record = Record.objects.get(job=job)
    assert before <= record.frozen_at <= record.entry.arrived_at
    told = json.loads(record.data)["record"]
    assert told["issue"] == 1
    assert datetime.fromisoformat(told["at"]) == record.frozen_at


def test_what_is_entered_later_does_not_reach_a_frozen_issue():
    job = make_job()
    freeze(job)
    before = Record.objects.get(job=job).data
    enter(FAILING_NOW, make_told({"failing": "yes"}, job_key=job.key))
    assert Record.objects.get(job=job).data == before


def test_a_second_issue_keeps_the_first_and_says_what_changed():
    job = make_job()
    freeze(job)
    first = Record.objects.get(job=job)
    enter(FAILING_NOW, make_told({"failing": "yes"}, job_key=job.key))
    assert freeze(job, changed="It fails now.").stands
    second = Record.objects.get(job=job, issue=2)
    assert second.changed == "It fails now. Other than in the issue before: customer, car or stage."
    assert "Itfailsnow." in printed(file_of(second))
    assert Record.objects.get(job=job, issue=1).data == first.data
    assert file_of(first) != file_of(second)


def test_a_second_issue_without_a_word_about_it_goes_back():
    job = make_job()
    freeze(job)
    outcome = freeze(job)
    assert outcome.state == RETURNED
    assert outcome.form
    assert "What changed since the issue before?" in str(outcome.form.errors["changed"])


def test_the_same_entry_sent_twice_freezes_one_issue():
    job = make_job()
    author = make_person(OWNER)
    told = make_told({"issue": "1", "entries": str(entries(job))}, author, job_key=job.key)
    assert enter(ISSUE, told).stands
    assert enter(ISSUE, told).state == AGAIN
    assert Record.objects.filter(job=job).count() == 1


def test_an_issue_that_somebody_froze_first_is_refused():
    job = make_job()
    freeze(job, make_person(OWNER, name="E. Quist"))
    outcome = freeze(job, issue="1")
    assert outcome.state == REFUSED
    assert "by E. Quist. Open the page again" in outcome.why
    assert Record.objects.filter(job=job).count() == 1


def test_an_issue_that_is_not_next_is_refused():
    outcome = freeze(make_job(), issue="2", changed="x")
    assert outcome.state == REFUSED
    assert outcome.why.startswith("This record was not issued yet.")


def test_an_entry_that_came_in_since_the_page_was_opened_stops_it():
    job = make_job()
    seen = str(entries(job))
    enter(FAILING_NOW, make_told({"failing": "yes"}, job_key=job.key))
    outcome = freeze(job, entries=seen)
    assert outcome.state == REFUSED
    assert outcome.why.startswith("Since this page was opened 1 entry came in for this job.")
    assert not Record.objects.exists()


def test_a_paper_that_cannot_be_set_freezes_nothing(monkeypatch: pytest.MonkeyPatch):
    def refuse(*_: Any) -> None:
        raise typeset.CannotTypeset("The paper could not be set: no space.")

    monkeypatch.setattr(action, "typeset", refuse)
    job = make_job()
    outcome = freeze(job)
    assert outcome.state == REFUSED
    assert outcome.why == "The paper could not be set: no space. Nothing was issued."
    assert not Record.objects.exists()
    assert not Entry.objects.filter(kind="issue").exists()


@pytest.mark.parametrize(("role", "stands"), [(OWNER, True), (TECHNICIAN, True), (DESK, False)])
def test_owner_and_technician_may_issue_and_the_desk_may_not(role: str, stands: bool):
    outcome = freeze(make_job(), make_person(role))
    assert outcome.stands is stands
    assert (outcome.state == FORBIDDEN) is not stands


def test_an_issue_is_a_decision():
    assert not ISSUE.fact


@pytest.mark.parametrize("missing", ["issue", "entries"])
def test_a_form_that_is_not_whole_goes_back(missing: str):
    lacking: dict[str, Any] = {missing: ""}
    outcome = freeze(make_job(), **lacking)
    assert outcome.state == RETURNED
    assert outcome.form
    assert "is not whole" in str(outcome.form.errors["__all__"])


@pytest.mark.parametrize(
    ("told", "kept"),
    [
        ("https://shop.example/job/?job={key}", True),
        ("http://shop.example:8443/job/?job={key}", True),
        ("https://other.example/job/?job={key}", False),
        ("https://shop.example@other.example/job/?job={key}", False),
        ("https://shop.example/job/?job=00000000-0000-4000-8000-000000000000", False),
        ("https://shop.example/find/?job={key}", False),
        ("javascript:alert(1)//shop.example/job/?job={key}", False),
        ("https://[/job/?job={key}", False),
    ],
)
@override_settings(HOSTS=["shop.example"])
def test_only_this_job_s_own_page_gets_a_code(told: str, kept: bool):
    job = make_job()
    address = told.format(key=job.key)
    freeze(job, address=address)
    frozen = json.loads(Record.objects.get(job=job).data)["record"]["address"]
    assert frozen == (address if kept else "")


# The page.


def page(job: Job, role: str = TECHNICIAN, **asked: Any) -> Any:
    client = Client(**asked)
    client.force_login(make_person(role))
    return client.get(reverse("issue"), {"job": str(job.key)})


def test_the_page_shows_what_will_be_in_it_and_what_is_open():
    job = make_job(phone=None)
    said = page(job).content.decode()
    assert "Issue the record" in said
    assert "Issue 1, as it stands below. It cannot be changed afterwards." in said
    assert "Not noted yet: phone" in said
    assert "Blows warm since last week." in said


def test_the_page_names_each_reason_once_with_all_that_was_not_tested_for_it():
    said = page(make_job()).content.decode()
    assert said.count("not made in this job") == 1
    assert "<dt><bdi>not made in this job</bdi></dt><dd><bdi>Complaint seen</bdi> · <bdi>" in said


def test_the_page_says_what_the_paper_cannot_draw():
    said = page(make_job(complaint="hot 😀")).content.decode()
    assert "U+1F600 grinning face" in said


def test_the_page_asks_what_changed_from_the_second_issue_on():
    job = make_job()
    assert 'name="changed"' not in page(job).content.decode()
    freeze(job)
    assert 'name="changed"' in page(job).content.decode()


def test_a_second_issue_is_called_issuing_it_again():
    job = make_job()
    freeze(job)
    said = page(job).content.decode()
    assert "Issue it again" in said
    assert "Issue 2, as it stands below." in said


def test_the_page_s_own_form_freezes_the_issue():
    job = make_job()
    form: IssueForm = page(job, OWNER).context["form"]
    client = Client()
    client.force_login(make_person(OWNER))
    post = {name: str(form.initial[name]) for name in ("issue", "entries", "address")}
    response = client.post(f"{reverse('issue')}?job={job.key}", post)
    assert response.status_code == 302
    assert response["Location"] == f"{reverse('record')}?job={job.key}&issue=1"
    assert client.get(response["Location"]).status_code == 200


def test_a_code_is_offered_only_where_others_reach_the_shop():
    job = make_job()
    with override_settings(HOSTS=["testserver"]):
        address = page(job).context["form"].initial["address"]
    assert address == f"http://testserver{reverse('job')}?job={job.key}"
    with override_settings(HOSTS=[]):
        assert page(job).context["form"].initial["address"] == ""


def test_a_kept_entry_freezes_nothing():
    job, author, tablet = make_job(), make_person(OWNER), uuid.uuid4()
    browser = Client()
    browser.cookies[TABLET_COOKIE] = tablet_token(tablet)
    said = {
        "key": str(uuid.uuid4()),
        "kind": "issue",
        "version": 1,
        "job": str(job.key),
        "fields": {"issue": ["1"], "entries": [str(entries(job))]},
        "typed_at": timezone.now().isoformat(),
        "pass": make_pass(author, tablet),
    }
    response = browser.post("/entries/", json.dumps(said), content_type="application/json")
    assert (response.status_code, response.json()["state"]) == (409, "refused")
    assert not Record.objects.exists()


def test_the_page_s_form_is_none_that_a_tablet_keeps():
    assert "data-entry" not in page(make_job()).content.decode()


def test_a_form_that_comes_back_keeps_what_was_typed():
    job = make_job()
    freeze(job)
    client = Client()
    client.force_login(make_person(OWNER))
    post = {"issue": "2", "entries": str(entries(job)), "changed": "Gap. " * 500}
    response = client.post(f"{reverse('issue')}?job={job.key}", post)
    assert response.status_code == 422
    assert "Gap. Gap." in response.content.decode()


def test_a_refusal_is_told_on_a_page_and_nothing_typed_is_lost():
    job = make_job()
    client = Client()
    client.force_login(make_person(OWNER))
    post = {"issue": "2", "entries": "1", "changed": "Gap measured anew."}
    response = client.post(f"{reverse('issue')}?job={job.key}", post)
    assert response.status_code == 409
    assert "Gap measured anew." in response.content.decode()


def test_the_desk_is_told_whose_work_it_is():
    response = page(make_job(), DESK)
    assert response.status_code == 403
    assert "Issue the record" not in response.content.decode()


def test_a_record_that_is_not_as_frozen_stops_no_next_issue_and_is_compared_with_nothing(client):
    job = make_job()
    assert freeze(job).stands
    Record.objects.update(data="{ not as frozen")
    client.force_login(make_person(OWNER))
    assert client.get(f"/issue/?job={job.key}").status_code == 200
    assert freeze(job, changed="again").stands
    assert "cannot be read as it was frozen" in Record.objects.get(issue=2).changed


def test_a_clock_set_back_since_entries_came_refuses_no_issue():
    job = make_job()
    later = timezone.now() + timedelta(hours=1)
    Entry.objects.filter(job_key=job.key).update(arrived_at=later)
    assert freeze(job).stands
