"""The tag "A/C must not be run": by what was recorded, or as somebody says it."""

import uuid

import pytest
from django.urls import reverse

from jobs.entries import CHANGE, TAG
from jobs.logbook import AGAIN, enter
from jobs.models import Shop, Tag
from tests.diagnostics.jobs_told import Told
from tests.factories import make_job, make_person, make_told, tell

pytestmark = pytest.mark.django_db


@pytest.fixture
def signed_in(client):
    client.force_login(make_person(name="R. Sand"))
    return client


def page_of(client, job, **asked):
    response = client.get(reverse("tag"), {"job": job.key, **asked})
    assert response.status_code == 200
    return response.content.decode()


def sheet(shown):
    """What is printed."""
    return shown[shown.index("<article") : shown.index("</article>")]


def test_nobody_gets_a_tag_without_a_sign_in(client):
    assert client.get(reverse("tag"), {"job": make_job().key}).status_code == 302


def test_where_nothing_bars_running_there_is_no_tag_and_no_word_that_it_may_run(signed_in):
    shown = page_of(signed_in, make_job())
    assert "<article" not in shown
    assert "That does not say that it may" in shown


def test_an_open_loop_is_printed_with_its_reason_and_what_comes_first(signed_in):
    job = make_job()
    tell(CHANGE, job, what="opened")
    printed = sheet(page_of(signed_in, job))
    assert "must not be run" in printed
    assert "The loop is open, as far as is noted." in printed
    assert "the loop closed, evacuated and charged" in printed
    for words in ("KX.4731D", job.number, "Printed by <bdi>R. Sand</bdi>"):
        assert words in printed


def test_another_reason_is_printed_as_said_by_whoever_said_it(signed_in):
    job = make_job()
    fields = {
        "reasons": ["belt_off", "hands_in"],
        "words": "Short belt on.",
        "before": "Belt back.",
    }
    response = signed_in.post(f"{reverse('tag')}?job={job.key}", fields)
    said = Tag.objects.get()
    assert response["Location"] == f"/tag/?job={job.key}&said={said.key}"
    printed = sheet(signed_in.get(response["Location"]).content.decode())
    for words in ("Belt off or bypassed", "Somebody works on it", "Short belt on.", "Belt back."):
        assert words in printed
    assert "Said by <bdi>R. Sand</bdi>" in printed
    assert "By tests" not in printed


@pytest.mark.parametrize(
    ("found", "words"),
    [
        ({"test_kind": "hub_turn", "turns": "locked"}, "The hub does not turn freely"),
        ({"test_kind": "gas_identity", "how": "instrument", "result": "mixed"}, "Another gas"),
    ],
)
def test_what_was_found_stands_first_on_a_tag_with_another_reason(signed_in, found, words):
    told = Told()
    told.test(found)
    key = tell(TAG, told.job, words="Plug it in.", before="None. May be run now.").key
    printed = sheet(page_of(signed_in, told.job, said=key))
    assert printed.index(words) < printed.index("Plug it in.")
    before = printed[printed.index("Before it may run") :]
    assert before.index(", and found ") < before.index("As said: <bdi>None. May be run now.")


@pytest.mark.parametrize("before", ["None. May be run now.", None])
def test_what_somebody_says_comes_first_is_never_all_that_does(signed_in, before):
    job = make_job()
    told = {"before": before} if before else {}
    key = tell(TAG, job, words="Belt back.", **told).key
    printed = sheet(page_of(signed_in, job, said=key))
    assert "at the job: more may be open." in printed


def test_a_tag_without_a_reason_comes_back_with_what_was_typed(signed_in):
    response = signed_in.post(f"{reverse('tag')}?job={make_job().key}", {"before": "Ask Pell."})
    assert response.status_code == 422
    shown = response.content.decode()
    assert "A tag without a reason is not believed." in shown
    assert "Ask Pell." in shown


def test_what_was_said_before_is_listed_and_can_be_printed_again(signed_in):
    job = make_job()
    key = tell(TAG, job, words="Short belt on.").key
    shown = page_of(signed_in, job)
    assert f"/tag/?job={job.key}&amp;said={key}" in shown


def test_what_was_said_of_another_car_is_not_printed_here(signed_in):
    key = tell(TAG, make_job(), words="Short belt on.").key
    asked = {"job": make_job().key, "said": key}
    assert signed_in.get(reverse("tag"), asked).status_code == 404
    assert signed_in.get(reverse("tag"), {**asked, "said": "17"}).status_code == 404


def test_the_same_tag_sent_twice_stands_once():
    job = make_job()
    told = make_told({"reasons": ["vacuum"]}, job_key=job.key)
    assert enter(TAG, told).stands
    assert enter(TAG, told).state == AGAIN
    assert Tag.objects.count() == 1


@pytest.mark.parametrize(("paper", "sheet_css"), [("a4", "tag_a4"), ("us-letter", "tag_us-letter")])
def test_it_is_laid_out_for_the_shops_paper(signed_in, paper, sheet_css):
    job = make_job()
    Shop.objects.update(paper=paper)
    assert f"css/{sheet_css}" in page_of(signed_in, job)


@pytest.mark.parametrize(("size", "taken"), [("a6", "a6"), ("a5", "a5"), ("poster", "a5")])
def test_it_comes_in_two_sizes(signed_in, size, taken):
    job = make_job()
    tell(CHANGE, job, what="opened")
    assert f'class="tag-sheet {taken}"' in page_of(signed_in, job, size=size)


def test_a_tag_on_a_job_that_is_not_here_goes_back():
    make_job()
    assert not enter(TAG, make_told({"words": "x"}, job_key=uuid.uuid4())).stands
