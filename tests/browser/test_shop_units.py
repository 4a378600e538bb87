"""The shop's units and phrases under a finger: the pad, numbers worked out, a page kept before."""

import pytest
from playwright.sync_api import expect

from diagnostics.models import Step
from jobs.models import Job
from tests.browser.touch import PORTRAIT, keys
from tests.factories import make_job
from tests.jobs.test_settings import UNITS, tell

pytestmark = pytest.mark.django_db(transaction=True)


def address(job: Job) -> str:
    return f"/step/static_pressure/?job={job.key}"


def unit_of(page, name: str):
    return page.locator(f"#id_{name} ~ .unit")


def test_the_pad_begins_with_the_shops_unit_and_its_key_has_the_others(at):
    job = make_job()
    tell(**UNITS)
    page = at(address(job), **PORTRAIT)
    page.locator("#id_low").tap()
    expect(page.locator(".pad .next")).to_have_text("psi, next")
    expect(page.locator(".pad .key", has_text="bar")).to_be_visible()
    keys(page, "68")
    page.locator(".pad .next").tap()
    expect(unit_of(page, "temperature")).to_have_text("°F")
    expect(page.locator(".worked-out").first).to_have_text("Low side: 469\u00a0kPa")
    expect(page.locator("#meaning")).to_contain_text("68\u00a0psi low")
    page.locator(".bar").tap()
    page.wait_for_url("**/job/?job=*")
    assert Step.objects.get().readings["low"]["unit"] == "psi"


def test_a_number_out_of_reach_is_drawn_in_the_shops_unit_as_the_server_draws_it(at):
    job = make_job()
    tell(**UNITS)
    page = at(address(job), **PORTRAIT)
    page.locator("#id_low").fill("900")
    page.locator("#id_temperature").focus()
    strip = page.locator(".odd-strip .strip")
    expect(strip).to_contain_text("can be −15\u00a0to\u00a0218\u00a0psi")
    expect(strip).to_contain_text("900\u00a0psi")


def test_a_page_kept_before_a_change_takes_the_units_its_job_was_kept_with(at):
    job = make_job()
    page = at("/unsent/", **PORTRAIT)
    keep(page)
    tell(**UNITS)
    page.goto(address(job))
    expect(unit_of(page, "low")).to_have_text("psi")
    expect(page.locator("[name=low_unit]")).to_have_value("psi")
    expect(page.locator("#id_low_helptext")).to_contain_text("218\u00a0psi, kPa too, bar too.")
    expect(unit_of(page, "temperature")).to_have_text("°F")


def test_what_was_typed_on_a_kept_page_keeps_its_unit(at):
    job = make_job()
    page = at("/unsent/", **PORTRAIT)
    keep(page)
    tell(**UNITS)
    page.route("**/job.json**", lambda route: late(page, route))
    page.goto(address(job))
    expect(unit_of(page, "high")).to_have_text("psi")
    expect(unit_of(page, "low")).to_have_text("kPa")


def keep(page) -> None:
    """The page without a car, given from now on as it is now."""
    kept = page.request.get("/step/static_pressure/").text()
    page.route(
        "**/step/static_pressure/?job=*",
        lambda route: (
            route.fulfill(body=kept, content_type="text/html")
            if route.request.is_navigation_request()
            else route.continue_()
        ),
    )


def late(page, route) -> None:
    """Somebody types before the job is told."""
    page.evaluate("document.getElementById('id_low').value = '470'")
    route.continue_()


def test_a_phrase_fills_its_field_by_one_tap_and_leaves_it_by_another(at):
    make_job()
    tell(part="phrases", phrases_complaint="Blows warm\nNoise with A/C on")
    page = at("/intake/", **PORTRAIT)
    field = page.locator("#id_complaint")
    page.get_by_role("button", name="Blows warm").tap()
    page.get_by_role("button", name="Noise with A/C on").tap()
    expect(field).to_have_value("Blows warm; Noise with A/C on")
    expect(page.get_by_role("button", name="Blows warm")).to_have_attribute("aria-pressed", "true")
    page.get_by_role("button", name="Blows warm").tap()
    expect(field).to_have_value("Noise with A/C on")


def test_without_script_phrases_are_not_shown(at):
    make_job()
    tell(part="phrases", phrases_complaint="Blows warm")
    page = at("/intake/", **PORTRAIT, java_script_enabled=False)
    expect(page.get_by_text("Blows warm", exact=True)).to_be_hidden()
