"""The last verdict on a tablet without the server: of when it is, and what is not weighed yet."""

from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_coil_test, fill_intake, record, says
from tests.offline.test_kept import job_taken_in


def test_without_the_server_the_last_verdict_stands_with_its_time_and_what_is_not_in_it(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    record(page)
    page.wait_for_url("**/job/?job=*")
    tablet.wait_for("shopac.store.all('jobs').then((all) => all[0]?.verdict?.weighed === 1)")
    tablet.wait_for("caches.open('pages').then((all) => all.match('/verdict/')).then(Boolean)")
    shop.kill()
    page = tablet.open(f"/step/hub_turn/?job={job}")
    page.fill("[name=seen]", "Turns.")
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open(f"/verdict/?job={job}")
    expect(page.locator("[data-verdict-said]")).to_contain_text("from 1 step.")
    expect(page.locator("[data-verdict-said]")).to_contain_text("As of")
    expect(page.locator("[data-verdict-questions] .row")).to_have_count(6)
    expect(page.locator("[data-verdict-since]")).to_contain_text("Hub turned by hand")
    expect(page.locator("[data-verdict-next]")).to_be_hidden()
    page = tablet.open(f"/job/?job={job}")
    line = page.locator("[data-verdict-as-of]")
    expect(line).to_contain_text("not weighed yet: Hub turned by hand")
    expect(page.locator("[data-told=command] [data-question-said]")).to_have_text("not tested yet")
    shop.start()
    tablet.wait_until_sent()
    assert tablet.say_what_is_wrong(shop) == []


def test_a_car_taken_in_here_has_no_verdict_yet_and_the_usual_order(tablet: Tablet, shop: Shop):
    job_taken_in(tablet)
    tablet.wait_for("caches.open('pages').then((all) => all.match('/verdict/')).then(Boolean)")
    tablet.wait_for("caches.open('pages').then((all) => all.match('/job/')).then(Boolean)")
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "AB.1295N")
    record(page)
    page.get_by_role("link", name="Go on with this car").click()
    expect(page.locator("[data-next-reason]")).to_contain_text("in the usual order")
    expect(page.locator("[data-next]:visible")).to_have_count(1)
    page.locator(".questions a").click()
    expect(page.locator("[data-verdict-none]")).to_be_visible()
