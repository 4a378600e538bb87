"""Why, what next, what to replace: from the first look to a decision, by touch."""

from uuid import UUID

import pytest
from playwright.sync_api import Page, expect

from diagnostics.models import Decision, PricesTyped, Step
from tests.browser.touch import PORTRAIT, answer
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)


def record_step(page: Page, key: UUID, kind: str, taps: dict[str, str], typed: dict[str, str]):
    page.goto(f"{page.url.split('/', 3)[0]}//{page.url.split('/', 3)[2]}/step/{kind}/?job={key}")
    for name, code in taps.items():
        answer(page, name, code)
    for name, value in typed.items():
        page.locator(f"[name={name}]").fill(value)
    page.locator(".bar").first.click()
    page.wait_for_url("**/job/**")


def test_a_clutch_that_holds_only_when_pushed_is_told_weighed_priced_and_decided(at):
    job = make_job()
    page = at(f"/job/?job={job.key}", **PORTRAIT)
    expect(page.locator("[data-next-step]")).to_contain_text("does what the customer says")
    page.locator("[data-next-step] a").first.tap()
    page.wait_for_url("**/step/complaint_seen/**")
    answer(page, "engages", "no")
    page.locator(".bar").first.click()
    page.wait_for_url("**/job/**")
    power = {"engine": "off", "ground": "good", "magnet": "yes", "holds": "no", "pushed": "yes"}
    record_step(page, job.key, "coil_power", power, {"volts": "12.4", "amps": "3.4"})
    expect(page.locator("[data-next-step]")).to_contain_text("Hub turned by hand")
    record_step(page, job.key, "hub_turn", {"turns": "free"}, {})
    assert Step.objects.count() == 3
    page.goto(page.url.replace("/job/", "/verdict/"))
    expect(page.locator("main")).to_contain_text("Most likely")
    expect(page.locator("main")).to_contain_text("air gap too wide")
    expect(page.locator("main")).not_to_contain_text("%")
    page.goto(page.url.replace("/verdict/", "/options/"))
    expect(page.locator("main")).to_contain_text("not typed")
    page.get_by_role("link", name="Type hours and prices").first.tap()
    page.locator("summary", has_text="Labor").first.tap()
    page.locator("[name=rate]").fill("96")
    with page.expect_navigation():
        page.get_by_role("button", name="Record hours and prices").click()
    assert PricesTyped.objects.get().values == {"rate": 9600}
    page.goto(page.url.replace("/options/", "/decision/"))
    answer(page, "plan", "nothing")
    answer(page, "decided_by", "customer")
    page.locator("[name=why]").fill("Sells the car next week.")
    with page.expect_navigation():
        page.get_by_role("button", name="Record the decision").click()
    expect(page.locator("main")).to_contain_text("Decided: Nothing, A/C off")
    assert Decision.objects.get().plan == "nothing"
    page.goto(page.url.replace("/decision/", "/job/"))
    expect(page.locator("main")).to_contain_text("Nothing, A/C off")
