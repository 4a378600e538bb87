"""Find from anywhere: by one key or one tap, and while somebody types."""

import pytest
from django.urls import reverse
from playwright.sync_api import expect

from jobs.models import Job
from tests.factories import make_job, make_shop

pytestmark = pytest.mark.django_db(transaction=True)


def test_the_key_opens_find_with_the_caret_in_its_field(at):
    page = at(f"{reverse('job')}?job={make_job().key}")
    page.keyboard.press("/")
    expect(page.locator("#words")).to_be_focused()
    page.keyboard.type("4731/")  # now it is a letter as any other
    expect(page.locator("#words")).to_have_value("4731/")


def test_who_types_in_a_field_stays_there(at):
    make_shop()
    page = at(reverse("intake"))
    page.locator("#id_complaint").fill("")
    page.locator("#id_complaint").press_sequentially("on/off")
    expect(page.locator("#id_complaint")).to_have_value("on/off")


def test_last_year_s_job_is_two_taps_and_four_characters_away_from_any_job(at):
    closed = make_job(plate="MV.2864H")
    Job.objects.update(stage="closed")
    page = at(f"{reverse('job')}?job={make_job().key}", has_touch=True)
    page.locator("[data-to-find]").tap()
    expect(page.locator("#words")).to_be_focused()
    page.keyboard.type("2864")
    row = page.locator("#found a.whole")
    expect(row).to_have_count(1)
    expect(page.locator("#found-said")).to_have_text("1 job, newest first.")
    row.tap()
    page.wait_for_url(f"**/job/?job={closed.key}")


def test_a_plate_that_is_known_is_told_while_the_car_is_taken_in(at):
    before = make_job()
    page = at(reverse("intake"))
    page.locator("#id_plate").fill("kx 4731d")
    page.locator("#id_complaint").fill("Warm again.")
    expect(page.locator("#known")).to_contain_text(before.number)
    page.locator("input[value=comeback]").check()
    page.locator("#id_customer_name").fill("Ida Marwell")
    page.locator("button.bar").click()
    page.wait_for_url("**/job/**")
    assert Job.objects.latest("id").follows == before
