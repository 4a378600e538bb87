"""Each later consent: seven items, frozen; an older version is refused; who, how, signed."""

import hashlib
import uuid
from itertools import permutations
from typing import Any

import pytest
from django.urls import reverse

from jobs.entries import CONSENT, NAMED
from jobs.logbook import enter
from jobs.models import Consent, Entry
from jobs.models.consents import to_work
from tests.factories import make_person, make_told, tell
from tests.jobs.agreeing import DOT, DRAWN, ago, ask, came_in, holding, last, make_estimate, wrong

pytestmark = pytest.mark.django_db
WORK: dict[str, Any] = {
    "work": "Front hose renewed",
    "consent_added": "100",
    "consent_amount": "250",
}


def page_of(client, job) -> str:
    client.force_login(make_person())
    return client.get(f"{reverse('consent')}?job={job.key}").content.decode()


def test_the_text_of_a_consent_to_an_estimate_has_the_seven_items():
    # Who authorized, how contacted, date, time, what, added cost, revised total: the seven of
    # practice in California, as the trade tells it.
    job = came_in()
    ask(job, make_estimate(job), at=ago(5))
    told = last().text
    at = last().given_at.astimezone(tz=None)
    assert "Work: estimate 1 of job" in told
    assert "1. Clutch, complete, new: 504.00\xa0EUR" in told
    assert "Agreed before: 150.00\xa0EUR" in told
    assert "Added cost: 410.00\xa0EUR" in told
    assert "Revised total: 560.00\xa0EUR" in told
    assert "Agreed to by: the customer. Contact: by phone. Date: " in told
    assert f"{at.year}. Time: " in told


def test_the_text_is_frozen_with_its_hash_and_no_name_is_in_it():
    job = came_in()
    ask(job, make_estimate(job))
    one = last()
    assert one.text_sha256 == hashlib.sha256(one.text.encode()).hexdigest()
    assert "Marwell" not in one.text
    assert one.given_by == "Ida Marwell"


def test_the_page_shows_word_for_word_what_the_text_begins_with(client):
    job = came_in()
    estimate = make_estimate(job)
    page = page_of(client, job)
    ask(job, estimate, consent_before="15000")
    assert last().text.rpartition("\n")[0] in page


def test_the_amount_in_force_is_that_of_the_last_consent_given_whichever_arrived_first():
    for order in permutations(((10, "250"), (5, "400"))):
        job = came_in(plate=f"KX.{uuid.uuid4().int % 10000:04}C")
        for minutes, total in order:
            told = WORK | {"consent_amount": total, "consent_added": "1"}
            assert ask(job, "work", at=ago(minutes), **told).stands
        assert holding(job).amount == 40000


def test_a_consent_to_a_version_that_was_replaced_is_refused_and_says_by_which():
    job = came_in()
    first = make_estimate(job, at=ago(60))
    second = make_estimate(job, total=60000, at=ago(20))
    outcome = ask(job, first, at=ago(5))
    assert outcome.state == "refused"
    assert outcome.why.startswith("Estimate 2 replaced Estimate 1, ")
    assert outcome.why.endswith("Ask again with Estimate 2.")
    assert not Entry.objects.filter(kind="consent").exists()
    assert ask(job, second, at=ago(4)).stands


def test_the_page_that_refuses_keeps_what_was_typed(client):
    job = came_in()
    first = make_estimate(job, at=ago(60))
    make_estimate(job, total=60000, at=ago(20))
    client.force_login(make_person())
    told = {"consent_about": str(first.key), "consent_outcome": "agreed", "consent_how": "phone"}
    told |= {"number_called": "555 010 7777", "key": str(uuid.uuid4())}
    response = client.post(f"{reverse('consent')}?job={job.key}", told)
    assert response.status_code == 409
    page = response.content.decode()
    assert "Estimate 2 replaced Estimate 1" in page
    assert "555 010 7777" in page


def test_a_consent_that_was_given_before_the_newer_version_was_written_is_kept_though_it_is_late():
    job = came_in()
    first = make_estimate(job, at=ago(60))
    make_estimate(job, total=60000, at=ago(20))
    assert ask(job, first, at=ago(40)).stands
    assert holding(job).estimate == first


def test_how_such_a_consent_was_noted_can_be_put_right_after_the_newer_version_and_keeps_its_time():
    job = came_in()
    first = make_estimate(job, at=ago(60))
    key = ask(job, first, at=ago(40)).key
    given = last().given_at
    make_estimate(job, total=60000, at=ago(20))
    assert ask(job, first, at=ago(5), corrects=key, number_called="555 010 3333").stands
    assert (last().given_at, last().number_called) == (given, "555 010 3333")


def test_a_consent_to_find_the_fault_put_right_later_does_not_lower_what_was_agreed_since():
    job = came_in()
    ask(job, "work", at=ago(10), **WORK)
    assert tell(CONSENT, job, consent_amount="90", consent_how="phone").stands
    assert holding(job).amount == 25000


@pytest.mark.parametrize("outcome", ["refused", "not_reached"])
def test_what_binds_nobody_is_kept_whatever_version_it_was_about(outcome):
    job = came_in()
    first = make_estimate(job, at=ago(60))
    make_estimate(job, total=60000, at=ago(20))
    assert ask(job, first, at=ago(5), consent_outcome=outcome).stands
    assert not last().counts


def test_a_refusal_agrees_to_nothing_and_leaves_what_was_agreed_before():
    job = came_in()
    ask(job, make_estimate(job), consent_outcome="refused")
    assert holding(job).number == 1
    assert "Not agreed to. Refused by: the customer." in last().text


def test_a_refusal_takes_back_what_was_said_before_to_the_same_version():
    job = came_in()
    estimate = make_estimate(job, at=ago(60))
    ask(job, estimate, at=ago(20))
    ask(job, estimate, at=ago(10), consent_outcome="refused")
    assert to_work(job.consents.all()) == []


def test_who_could_not_be_reached_needs_no_amount_and_each_try_is_told():
    job = came_in()
    told: dict[str, Any] = {"work": "Front hose", "tried_at": "9:10, 9:40"}
    assert ask(job, "work", consent_outcome="not_reached", **told).stands
    assert (last().amount, len(last().tried), last().counts) == (None, 2, False)
    assert "agree" not in last().text
    assert "The customer could not be reached. Contact: by phone. Tried: " in last().text


def test_a_time_that_is_none_is_asked_again():
    outcome = ask(came_in(), "work", consent_outcome="not_reached", work="Hose", tried_at="noon")
    assert "Type times as 9:10" in wrong(outcome, "tried_at")


def test_who_stands_there_signs_or_it_is_asked_why_not():
    job = came_in()
    outcome = ask(job, make_estimate(job), consent_how="in_person")
    assert "signing was refused" in wrong(outcome, "signature")


def test_a_drawn_signature_is_kept_as_points_and_drawn_again(client):
    job = came_in()
    ask(job, make_estimate(job), consent_how="in_person", signature=DRAWN)
    assert last().strokes == [[100, 150, 300, 90, 500, 200], [520, 120, 800, 180]]
    assert last().signed_words == "Signed by hand"
    assert 'd="M100 150L300 90L500 200 M520 120L800 180"' in page_of(client, job)


def test_a_signature_of_one_dot_is_asked_about():
    job = came_in()
    outcome = ask(job, make_estimate(job), consent_how="in_person", signature=DOT)
    assert wrong(outcome, "signature").startswith("That is a dot.")


@pytest.mark.parametrize(
    "drawn",
    ["[[1]]", "[[1,2,3]]", '[["1","2"]]', "[[1.5,2]]", "[[1001,2]]", "[[-1,2]]", "{}", "[[]]", "x"],
)
def test_what_is_no_signature_is_asked_again(drawn):
    job = came_in()
    outcome = ask(job, make_estimate(job), consent_how="in_person", signature=drawn)
    assert "cannot be read" in wrong(outcome, "signature")


def test_a_signature_without_bounds_is_asked_again():
    job = came_in()
    much = str([[1, 2] * 1300])
    outcome = ask(job, make_estimate(job), consent_how="in_person", signature=much)
    assert "more than a signature has" in wrong(outcome, "signature")


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"signed_name": "Ida Marwell"}, "Name typed, not drawn"),
        ({"consent_outcome": "refused_to_sign"}, "Refused to sign"),
    ],
)
def test_without_drawing_the_name_is_typed_or_signing_was_refused_and_both_say_so(fields, words):
    job = came_in()
    assert ask(job, make_estimate(job), consent_how="in_person", **fields).stands
    assert (last().signed_words, last().counts) == (words, True)


def test_work_in_words_has_its_added_cost_and_revised_total():
    job = came_in()
    assert ask(job, "work", **WORK).stands
    assert (last().work, last().added, last().amount) == ("Front hose renewed", 10000, 25000)
    assert "Work: Front hose renewed" in last().text


@pytest.mark.parametrize(("typed", "sums"), [("consent_added", 25000), ("consent_amount", 10000)])
def test_of_added_cost_and_total_one_is_enough_where_the_page_knew_what_was_agreed(typed, sums):
    job = came_in()
    told = {"work": "Hose", typed: "100", "consent_before": "15000"}
    assert ask(job, "work", **told).stands
    assert (last().amount, last().added) == (sums, sums - 15000)


def test_a_page_that_knew_nothing_of_before_asks_for_the_added_cost():
    outcome = ask(came_in(), "work", work="Hose", consent_amount="250")
    assert "How much more" in wrong(outcome, "consent_added")


def test_sums_that_do_not_add_up_are_asked_about_and_stay_with_a_reason():
    job = came_in()
    told = WORK | {"consent_before": "15000", "consent_amount": "300"}
    assert "another sum" in wrong(ask(job, "work", **told), "consent_amount")
    assert ask(job, "work", **told, consent_amount_why="as agreed on the phone").stands
    assert (last().added, last().amount) == (10000, 30000)


def test_work_without_words_is_asked_which():
    told = WORK | {"work": None}
    assert "Say which work" in wrong(ask(came_in(), "work", **told), "work")


def test_an_estimate_of_another_job_or_without_a_total_cannot_be_agreed_to():
    job = came_in()
    other = make_estimate(came_in(plate="KX.1111B"))
    for estimate in (other, make_estimate(job, total=None)):
        assert "no such estimate" in wrong(ask(job, estimate), "consent_about")


def test_somebody_named_may_say_yes_and_another_is_known_as_another():
    job = came_in()
    told = {"named_name": "J. Pell", "named_phone": "555 010 2222", "speaks_for": "payer"}
    key = tell(NAMED, job, **told).key
    ask(job, "work", **WORK, consent_who=str(key))
    assert (last().given_by, last().giver) == ("J. Pell", "named")
    assert "Agreed to by: a person named by who pays." in last().text
    ask(job, "work", **WORK, consent_who="other", consent_by="A neighbor")
    assert (last().given_by, last().giver) == ("A neighbor", "other")
    assert wrong(ask(job, "work", **WORK, consent_who="other"), "consent_by")


def test_the_same_consent_sent_twice_is_one():
    job = came_in()
    told = WORK | {"consent_about": "work", "consent_outcome": "agreed", "consent_how": "phone"}
    one = make_told(told, job_key=job.key, key=uuid.uuid4())
    assert [enter(CONSENT, one).state, enter(CONSENT, one).state] == ["accepted", "again"]
    assert Consent.objects.count() == 2


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_of_consents_that_correct_one_another_the_last_to_happen_counts(order):
    job, keys = came_in(), [uuid.uuid4() for _ in range(3)]
    for at in order:
        told = WORK | {"consent_about": "work", "consent_how": "phone", "consent_added": "1"}
        told["consent_amount"] = str(300 + at)
        corrects = keys[at - 1] if at else None
        moment = ago(30 - at)
        one = make_told(told, key=keys[at], job_key=job.key, corrects=corrects, happened_at=moment)
        assert enter(CONSENT, one).stands
    assert [one.amount for one in to_work(job.consents.all())] == [30200]


def test_two_who_agree_at_once_are_both_kept_and_the_second_is_marked():
    job = came_in()
    told = {**WORK, "consent_before": "15000"}
    ask(job, "work", at=ago(10), **told)
    ask(job, "work", at=ago(5), **told)
    marks = [mark["code"] for mark in Entry.objects.get(key=last().entry.key).marks]
    assert marks == ["agreed_meanwhile"]
    assert [one.amount for one in to_work(job.consents.all())] == [25000, 25000]


def test_a_page_kept_from_before_still_tells_a_consent_to_find_the_fault():
    job = came_in()
    assert tell(CONSENT, job, consent_amount="90", consent_how="phone").stands
    assert (last().about, last().outcome, last().amount) == ("find_fault", "agreed", 9000)


def test_the_page_asks_the_newest_version_first_and_fills_in_whom_to_call(client):
    job = came_in()
    make_estimate(job, at=ago(60))
    second = make_estimate(job, total=60000)
    page = page_of(client, job)
    assert f'value="{second.key}"' in page
    assert "Estimate 2: 600.00\xa0EUR" in page
    assert "Estimate 1:" not in page
    assert 'name="number_called" value="555 010 0199"' in page


def test_what_was_agreed_to_already_is_not_asked_first_again(client):
    job = came_in()
    estimate = make_estimate(job)
    ask(job, estimate)
    page = page_of(client, job)
    assert f'value="{estimate.key}" checked' not in page
    assert 'value="work" checked' in " ".join(page.replace(' id="id_consent_about_1"', "").split())


def test_the_page_without_a_job_knows_no_price_and_nobody(client):
    client.force_login(make_person())
    page = client.get(reverse("consent")).content.decode()
    assert "stand on the shop server" in page
    assert 'name="consent_before"' in page
    assert 'name="consent_before" value' not in page


def test_the_page_takes_the_same_queries_however_often_somebody_was_asked(
    client, django_assert_max_num_queries
):
    job = came_in()
    client.force_login(make_person())
    for minutes in range(6):
        ask(job, "work", at=ago(minutes), **WORK)
    with django_assert_max_num_queries(7):
        client.get(f"{reverse('consent')}?job={job.key}")


def test_a_refusal_of_work_in_words_needs_no_amount():
    told = {"work": "Front hose", "consent_outcome": "refused"}
    assert ask(came_in(), "work", **told).stands
    assert last().amount is None


@pytest.mark.parametrize("before", ["-1", "9" * 30, "x"])
def test_what_no_page_can_have_shown_as_agreed_before_stores_nothing(before):
    outcome = ask(came_in(), "work", **WORK, consent_before=before)
    assert wrong(outcome, "consent_before")
