"""Pages open while the server is away, know nobody, and say of when they are."""

import json
import re
from contextlib import suppress

import pytest
from playwright.sync_api import TimeoutError as NotInTime
from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_coil_test, fill_intake, record, says, until
from tests.offline.test_kept import job_taken_in

KEPT_PAGES = """async () => {
  const cache = await caches.open("pages");
  const told = {};
  for (const { url } of await cache.keys()) {
    told[new URL(url).pathname] = await (await cache.match(url)).text();
  }
  return told;
}"""
KEPT_FILES = """async () =>
  (await (await caches.open("files")).keys()).map(({ url }) => new URL(url).pathname)"""


def all_kept(tablet: Tablet) -> dict[str, str]:
    told: dict[str, str] = tablet.ask(KEPT_PAGES)
    return told


def test_kept_pages_hold_no_form_token_no_key_and_nobodys_name(tablet: Tablet, shop: Shop):
    job_taken_in(tablet)
    token = tablet.page.evaluate(
        "fetch('/ping/').then((one) => one.json()).then((one) => one.csrf)"
    )
    secret = next(one["value"] for one in tablet.context.cookies() if one["name"] == "shopac_csrf")
    pages = all_kept(tablet)
    assert {"/job/", "/intake/", "/unsent/", "/offline/", "/step/coil_power/"} <= set(pages)
    for address, text in pages.items():
        for one in (token, secret, "R. Sand", "KX.4731D", "Ida Marwell"):
            assert one not in text, (address, one)
        assert 'name="csrfmiddlewaretoken" value=""' in text or "csrfmiddle" not in text
        assert 'name="key" value=""' in text or 'name="key"' not in text


def test_a_page_that_was_open_is_not_kept_with_its_car(tablet: Tablet):
    job = job_taken_in(tablet)
    tablet.open(f"/step/coil_power/?job={job}")
    assert all("KX.4731D" not in text for text in all_kept(tablet).values())


def test_every_file_of_a_kept_page_is_kept(tablet: Tablet):
    files = tablet.ask(KEPT_FILES)
    for name in ("step", "pad", "car", "job", "intake", "unsent", "offline"):
        assert any(f"/static/js/{name}." in one for one in files), name


def test_a_job_opens_without_the_server_and_says_of_when_it_is(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    expect(page.locator("h1")).to_have_text("KX.4731D")
    expect(page.locator("[data-as-of]")).to_contain_text("as of")
    expect(page.locator("[data-points]")).to_contain_text("VIN")
    assert tablet.seen.trouble == []


def test_jobs_are_kept_ahead_though_nobody_opened_them_here(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.page.evaluate(
        "shopac.store.write(['jobs', 'about'], (at) => {"
        " at('jobs').clear(); at('about').delete('jobs_at'); })"
    )
    tablet.open("/unsent/")
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    [kept] = tablet.ask("shopac.store.all('jobs')")
    assert (kept["key"], kept["plate"]) == (job, "KX.4731D")
    told = json.dumps(kept)
    assert "Ida Marwell" not in told
    assert "phone" not in kept


def test_a_test_is_recorded_without_the_server_on_a_job_known_to_it(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    page = tablet.open(f"/step/coil_power/?job={job}")
    expect(page.locator("[data-fill=plate]")).to_have_text("KX.4731D")
    fill_coil_test(page)
    record(page)
    says(page, "Kept on this tablet")
    shop.start()
    tablet.wait_until_sent()
    assert [row["job_key"] for row in shop.entries()] == [job, job]
    assert tablet.say_what_is_wrong(shop) == []


def test_what_is_worked_out_by_the_server_says_so_while_it_is_away(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    shop.kill()
    fill_coil_test(page)
    expect(page.locator("#meaning")).to_contain_text("Worked out when the server answers.")
    assert tablet.seen.trouble == []


def test_a_part_of_a_page_is_never_kept_as_the_page(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    expect(page.locator("#meaning")).not_to_be_empty()
    shop.kill()
    page = tablet.open(f"/step/coil_power/?job={job}")
    expect(page.locator("button.bar")).to_be_visible()


@pytest.mark.parametrize("address", ["/book/", "/people/", "/book/?year=2026"])
def test_a_page_that_is_not_kept_leads_to_the_cars_that_are(
    tablet: Tablet, shop: Shop, address: str
):
    job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "RV.4736A")
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open(address)
    expect(page.locator("h1")).to_have_text("The shop server does not answer")
    expect(page.locator("[data-cars] a")).to_have_text(["RV.4736A", "KX.4731D"])
    page.get_by_role("link", name="RV.4736A").click()
    expect(page.locator("h1")).to_have_text("RV.4736A")
    assert tablet.seen.trouble == []


def test_a_captive_portals_page_does_not_stand_in_for_ours(tablet: Tablet, shop: Shop):
    shop.fault("fail", method="GET", path="/job/", status="200 OK", body="<h1>Free Wi-Fi</h1>")
    page = tablet.open("/job/")
    expect(page.locator("#kept")).to_be_attached()


def test_a_silent_server_is_not_waited_for_long(tablet: Tablet, shop: Shop):
    shop.fault("wait", method="GET", path="/intake/", seconds=15, times=1)
    page = tablet.page
    page.goto("/intake/", timeout=6000)
    expect(page.locator("html[data-kept] [name=plate]")).to_be_visible()


def test_kept_pages_carry_the_sites_policy(tablet: Tablet, shop: Shop):
    shop.kill()
    tablet.open("/intake/")
    tablet.page.evaluate(
        "document.body.append(Object.assign(document.createElement('script'),"
        " { textContent: 'window.inline = 1' }))"
    )
    assert tablet.page.evaluate("window.inline") is None


def test_signed_out_pages_stay_kept(tablet: Tablet, shop: Shop):
    tablet.forget_sign_in()
    tablet.open("/sign_in/")
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    shop.start()
    tablet.wait_until_sent()
    until(lambda: len(shop.entries()) == 1)


def test_a_car_delivered_behind_the_scenes_is_among_those_kept_at_once(tablet: Tablet, shop: Shop):
    shop.fault("fail", status="503 Service Unavailable", path="/entries/")
    page = tablet.open("/intake/")
    fill_intake(page, "RV.4736A")
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open("/unsent/")
    shop.no_faults()
    with suppress(NotInTime):  # it may have gone by itself meanwhile, and the button with it
        page.get_by_role("button", name="Try to send now").click(timeout=3000)
    tablet.wait_until_sent()
    shop.kill()
    page = tablet.open("/find/")
    expect(page.locator("[data-cars] a")).to_have_text(["RV.4736A"])
    page.get_by_role("link", name="RV.4736A").click()
    expect(page.locator("[data-fill=number]")).to_have_text(re.compile(r"\d\d-0001"))
    expect(page.locator("[data-points-said]").first).to_have_text(
        "What is open is told by the shop server."
    )
    assert tablet.seen.trouble == []


def test_a_car_whose_intake_is_corrected_here_is_one_car(tablet: Tablet, shop: Shop):
    shop.fault("fail", status="503 Service Unavailable", path="/entries/")
    page = tablet.open("/intake/")
    fill_intake(page, "RV.4736A")
    record(page)
    until(lambda: tablet.items()[0]["attempts"] > 0)
    page.locator("[name=plate]").fill("RV.4736B")
    record(page)
    until(lambda: len(tablet.items()) == 2)
    job = tablet.items()[0]["key"]
    shop.kill()
    link = tablet.open("/find/").locator("[data-cars] a")
    expect(link).to_have_text(["RV.4736B"])
    expect(link).to_have_attribute("href", f"/job/?job={job}")
