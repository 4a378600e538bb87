"""The verdict page: what it concludes, what carries it, and what it never says."""

import re
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from diagnostics.evidence.verdict_words import INSIDE, TO_CUSTOMER
from jobs.models.people import DESK
from tests.diagnostics.few_kinds import named_next
from tests.diagnostics.jobs_told import CLUTCH, COMES_NOT, HOLDS, LIQUID, Told
from tests.factories import make_job, make_person

pytestmark = pytest.mark.django_db
NAMES = ["Command", "Clutch", "Compressor", "Charge", "Cleanliness", "Heat"]
HUB = {"test_kind": "hub_turn", "turns": "free"}
NO_ACCESS = {"test_kind": "hub_turn", "not_done": "no_access"}


def page(told: Told, client: Client | None = None, **person: Any) -> str:
    browser = client or Client()
    browser.force_login(make_person(**person))
    return browser.get(reverse("verdict"), {"job": str(told.job.key)}).content.decode()


def headings(shown: str) -> list[str]:
    """The questions of a verdict, in their order."""
    return re.findall(r"<h2>(\w+) <span", shown)


def test_nobody_sees_it_without_a_sign_in(client):
    assert client.get(reverse("verdict"), {"job": str(make_job().key)}).status_code == 302


def test_a_car_of_which_nothing_was_tested_has_six_open_questions_and_nothing_concluded():
    shown = page(Told())
    assert headings(shown) == NAMES
    assert "nothing is concluded" in shown
    assert shown.count("<strong>Not settled:</strong> not tested yet") == len(NAMES)


def test_a_car_without_a_clutch_is_not_asked_about_one():
    assert "Clutch" not in headings(page(Told(drive="electric_hv")))


def test_each_mark_has_the_technicians_word_and_the_customers():
    shown = page(Told())
    legend = shown.split('class="legend"')[1].split("</ul>", maxsplit=1)[0]
    for words in (*INSIDE.values(), *TO_CUSTOMER.values()):
        assert words in legend


def test_what_is_not_in_order_stands_in_plain_words_with_the_steps_that_carry_it():
    told = Told()
    told.failing("yes")
    told.test(COMES_NOT)
    told.test(HUB)
    shown = page(told)
    clutch = shown.split('id="clutch"')[1].split("</section>", maxsplit=1)[0]
    assert "air gap too wide" in clutch
    assert f'href="/steps/?job={told.job.key}#step-1">Step 1</a>' in clutch
    assert "Speaks" in clutch
    assert "for it." in clutch


def test_it_says_what_it_rests_on_and_what_would_be_left_of_it():
    told = Told()
    told.failing("yes")
    told.test(HOLDS)
    shown = page(told)
    assert "if every test counted for a third" in shown


def test_a_verdict_has_no_percentage_and_no_share_in_it():
    told = Told()
    told.failing("yes")
    for test in (COMES_NOT, HUB, LIQUID):
        told.test(test)
    shown = page(told)
    main = shown.split("<main>")[1]
    assert "%" not in re.sub(r"<svg.*?</svg>", "", main, flags=re.DOTALL)
    assert not re.search(r"\b0\.\d+", main)


def test_what_no_test_speaks_for_is_likely_by_no_test():
    """What cars usually have is no finding: a belt that nobody looked at is not "likely" whole."""
    told = Told()
    told.test(COMES_NOT)
    clutch = page(told).split('id="clutch"')[1].split("</section>", maxsplit=1)[0]
    assert "Not tested yet: Belt." in clutch


def test_a_step_that_could_not_be_done_stands_last_with_why_and_that_it_is_no_result():
    told = Told()
    told.test(NO_ACCESS)
    shown = page(told)
    left = shown.split("Steps that carry nothing")[1]
    assert "Could not be done: no access. That is no result." in left


def test_two_tests_that_do_not_go_together_are_named_with_the_one_to_make_again():
    told = Told()
    told.failing("yes")
    told.test({"test_kind": "hub_turn", "turns": "locked"})
    told.test(HUB)
    shown = page(told)
    odd = shown.partition('class="part need odd"')[2].partition("</section>")[0]
    assert "step 1" in odd
    assert "Make again: Hub turned by hand" in odd
    assert "/step/hub_turn/" in odd


def test_it_comes_and_goes_is_a_pattern_and_asks_for_no_repeat():
    told = Told()
    told.failing("no")
    told.test(HOLDS)
    told.failing("yes")
    told.test(COMES_NOT)
    odd = page(told).partition('class="part need odd"')[2].partition("</section>")[0]
    assert "it comes and goes" in odd
    assert "/step/" not in odd


def test_the_front_desk_reads_it_and_gets_no_link_to_a_test():
    told = Told()
    told.test(COMES_NOT)
    shown = page(told, role=DESK)
    assert "From 1 step." in shown
    assert "/step/" not in shown.split("<main>")[1]


def test_the_page_without_a_job_has_nobodys_data_and_places_for_its_script(client):
    client.force_login(make_person())
    shown = client.get(reverse("verdict")).content.decode()
    for place in ("said", "questions", "next", "since", "none"):
        assert f"data-verdict-{place}" in shown


def test_it_asks_the_database_as_often_however_much_was_told(django_assert_num_queries):
    told, client = Told(), Client()
    told.test(COMES_NOT)
    client.force_login(make_person())
    asked = {"job": str(told.job.key)}
    # session, person, job, states, overrides, steps, instruments, shop, changes, timers, notes
    with django_assert_num_queries(11):
        client.get(reverse("verdict"), asked)
    for _ in range(5):
        told.test(HOLDS)
        told.change(**CLUTCH)
    with django_assert_num_queries(11):
        client.get(reverse("verdict"), asked)


def test_the_jobs_page_has_the_questions_in_a_line_each_and_leads_to_the_verdict(client):
    told = Told()
    told.failing("yes")
    told.test(COMES_NOT)
    client.force_login(make_person())
    shown = client.get(reverse("job"), {"job": str(told.job.key)}).content.decode()
    part = shown.partition('class="part row questions"')[2].partition("</section>")[0]
    assert f'href="/verdict/?job={told.job.key}"' in part
    assert part.count("<li") == len(NAMES)
    assert "clutch and hub" in part


def test_a_tablet_is_told_the_verdict_without_a_share_and_the_tests_that_are_planned(client):
    told = Told()
    told.failing("yes")
    told.test(COMES_NOT)
    client.force_login(make_person())
    said = client.get(reverse("job_json"), {"job": str(told.job.key)}).json()
    assert said["verdict"]["weighed"] == 1
    assert [one["name"] for one in said["verdict"]["questions"]] == NAMES
    assert "share" not in str(said["verdict"])
    job = client.get(reverse("job"), {"job": str(told.job.key)}).content.decode()
    assert said["next"]["planned"][0]["kind"] == named_next(job)[0]
