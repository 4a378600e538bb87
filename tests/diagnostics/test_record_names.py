"""Who is named on a record, and what is counted on it, after something was put right."""

import json
from typing import Any

import pytest

from diagnostics.record.words import KIND_WORDS
from jobs.entries import CHANGE, CONSENT, CUSTOMER, DISCARD
from jobs.logbook import enter
from jobs.models import Change, Job, Record
from jobs.paper.frozen import exact_text
from shopac.door import ENTRIES
from tests.diagnostics.step_forms import some_key, step_of
from tests.diagnostics.step_forms import tell as tell_step
from tests.diagnostics.test_issue import freeze
from tests.diagnostics.test_record_steps import data_of
from tests.factories import make_job, make_told, tell

pytestmark = pytest.mark.django_db
FIRST_NAME = "Oswin Tarrant"
BY_FIRST = "the customer, under a name that stands no more"


def renamed(**intake: Any) -> Job:
    """A car taken in with a consent, under a name that was put right afterwards."""
    job = make_job(customer_name=FIRST_NAME, **intake)
    was = {"was_customer_name": FIRST_NAME}
    assert tell(CUSTOMER, job, customer_name="Ida Marwell", **was).stands
    return Job.objects.select_related("customer", "vehicle__system").get(pk=job.pk)


@pytest.mark.parametrize("typed", [None, FIRST_NAME, "oswin  tarrant"])
def test_a_consent_names_nobody_who_is_not_the_customer_any_more(typed: str | None):
    data = data_of(renamed(consent_by=typed))
    assert "tarrant" not in exact_text(data).lower()
    (consent,) = data["consents"]
    assert (consent["given_by"], consent["how"]) == (BY_FIRST, "in person")
    assert (consent["amount"], len(consent["sha256"])) == ("150.00\u00a0EUR", 64)


def test_a_consent_names_who_gave_it_for_the_customer():
    assert [one["given_by"] for one in data_of(renamed(consent_by="Pell Dray"))["consents"]] == [
        "Pell Dray"
    ]


def test_a_consent_names_the_customer_that_stands():
    job = renamed()
    assert tell(CONSENT, job, consent_amount="80", consent_how="phone").stands
    given = [one["given_by"] for one in data_of(job)["consents"]]
    assert given == [BY_FIRST, "Ida Marwell"]


@pytest.mark.parametrize(
    ("called", "stands"),
    [("555 010 4242", "555 010 4242"), ("(555) 010-0177", "a number that stands no more")],
)
def test_an_agreement_by_phone_has_its_number_unless_it_is_not_the_customer_s_any_more(
    called: str, stands: str
):
    job = make_job(phone="555 010 0177")
    told = {"consent_amount": "80", "consent_how": "phone", "number_called": called}
    assert tell(CONSENT, job, **told).stands
    was = {"was_phone": "555 010 0177"}
    assert tell(CUSTOMER, job, customer_name="Ida Marwell", phone="555 010 0199", **was).stands
    data = data_of(Job.objects.get(pk=job.pk))
    assert [one["number_called"] for one in data["consents"]][-1] == stands


def changed(job: Job) -> tuple[int, str]:
    """How often the paper says that the car was changed."""
    stands = data_of(job)["stands"]
    return stands["changes"], stands["detail"].rpartition(". ")[2]


def change(job: Job, what: str, **told: Any) -> None:
    assert enter(CHANGE, make_told({"what": what}, job_key=job.key, **told)).stands


def test_a_change_that_was_entered_by_mistake_is_not_counted_as_one():
    job, key = make_job(), some_key()
    change(job, "gap_set", key=key)
    change(job, "nothing", corrects=key)
    assert changed(job) == (0, "No change to the car is entered in this job.")


@pytest.mark.parametrize("first", [True, False])
def test_a_change_that_was_corrected_counts_once_whichever_arrived_first(first: bool):
    job, key = make_job(), some_key()
    told = [("gap_set", {"key": key}), ("fuse", {"corrects": key})]
    for what, more in told if first else told[::-1]:
        change(job, what, **more)
    assert changed(job) == (1, "1 change to the car is entered in this job.")


def test_a_step_corrected_after_an_issue_leaves_it_and_the_next_one_says_what_changed():
    job = make_job()
    first = step_of(tell_step(job))
    assert freeze(job).stands
    before = Record.objects.get(issue=1).data
    told = {"corrects": first.key}
    step_of(tell_step(job, volts="11.9", corrected_why="other connector", told=told))
    assert freeze(job, changed="read again").stands
    one, two = Record.objects.order_by("issue")
    assert one.data == before
    assert "the findings" in two.changed
    assert "the corrections" in two.changed
    assert "Step 2 replaces step 1: other connector" in two.data


def test_every_word_told_of_a_change_is_frozen_with_who_told_it_and_what_was_corrected():
    job, key = make_job(), some_key()
    wrong = {"what": "cleaned", "part": "wiring", "where": "ground left of the battery"}
    assert enter(CHANGE, make_told(wrong, job_key=job.key, key=key)).stands
    right = {**wrong, "where": "ground right of it", "corrected_why": "wrong side"}
    assert enter(CHANGE, make_told(right, job_key=job.key, corrects=key)).stands
    assert freeze(job).stands
    data = json.loads(Record.objects.get().data)
    first, second = data["states"][1]["told"]
    assert (first["lines"], first["counts"]) == (
        ["Where, and what else: ground left of the battery"],
        False,
    )
    assert (second["values"]["where"], second["counts"]) == ("ground right of it", True)
    assert second["by"] == Change.objects.latest("id").entry.author.name
    assert any(one["what"].endswith(": wrong side") for one in data["corrections"])


def test_every_kind_of_entry_has_its_words_for_the_paper():
    assert set(KIND_WORDS) == set(ENTRIES)


def test_what_somebody_threw_away_on_a_tablet_stands_in_words_beside_their_name():
    job = make_job()
    thrown = {"reason": "typed twice", "discarded": str(some_key()), "discarded_kind": "step"}
    assert tell(DISCARD, job, **thrown).stands
    said = [one["did"] for one in data_of(job)["people"]]
    assert "entry thrown away on a tablet" in said
