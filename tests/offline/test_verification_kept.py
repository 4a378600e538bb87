"""The verification on a tablet without the server: of when it is, and what was made here since."""

from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, record, says
from tests.offline.test_kept import job_taken_in


def test_without_the_server_it_is_as_last_told_and_marks_what_was_made_on_the_tablet_since(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    page = tablet.open(f"/repair/?job={job}")
    page.locator("[name=what][value=fuse]").check()
    record(page)
    page.wait_for_url("**/job/?job=*")
    tablet.wait_for("shopac.store.all('jobs').then((all) => Boolean(all[0]?.verification))")
    tablet.wait_for("caches.open('pages').then((all) => all.match('/verification/')).then(Boolean)")
    shop.kill()
    page = tablet.open(f"/step/condenser_fan/?job={job}")
    page.fill("[name=seen]", "Runs.")
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open(f"/job/?job={job}")
    page.locator("[data-verification-link] a").click()
    expect(page.locator("[data-verification-said]")).to_contain_text("As of")
    fans = page.locator("[data-verification-shown] .row", has_text="Condenser fans")
    expect(fans).to_contain_text("Recorded on this tablet")
    expect(fans).to_contain_text("not looked at yet")
    page.locator("[name=caps][value=on]").check()
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open(f"/verification/?job={job}")
    expect(page.locator("[data-verification-since]")).to_contain_text("Caps and service label")
    shop.start()
    tablet.wait_until_sent()
    page = tablet.open(f"/verification/?job={job}")
    expect(page.locator("main")).to_contain_text("Caps: Both on")
    assert tablet.say_what_is_wrong(shop) == []
