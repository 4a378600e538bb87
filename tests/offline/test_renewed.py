"""A new version waits with a banner, and takes over on a tap when nothing is typed."""

import pytest
from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_intake, record, says
from tests.offline.test_kept import job_taken_in

WAITS = "navigator.serviceWorker.getRegistration().then((one) => Boolean(one.waiting))"
LOOK = "navigator.serviceWorker.getRegistration().then((one) => one.update()).then(() => true)"
BANNER = "[data-renew]"


@pytest.fixture
def renewed(tablet: Tablet, shop: Shop) -> Tablet:
    """A tablet whose shop server has another version since."""
    shop.fault("replace", method="GET", path="/sw.js", texts=[["/* shopac", "/* another shopac"]])
    tablet.ask(LOOK)
    tablet.wait_for(WAITS)
    return tablet


def twenty_kept(tablet: Tablet, shop: Shop) -> list[str]:
    shop.kill()
    for number in range(20):
        page = tablet.open("/intake/")
        fill_intake(page, f"KX.{4000 + number}D")
        record(page)
        says(page, "Kept on this tablet")
    return [one["key"] for one in tablet.items()]


def test_an_update_with_twenty_entries_waiting_loses_and_doubles_none(renewed: Tablet, shop: Shop):
    keys = twenty_kept(renewed, shop)
    assert len(keys) == 20
    page = renewed.open("/unsent/")
    page.locator(BANNER).get_by_role("button").click()
    page.wait_for_load_state()
    renewed.wait_for(WAITS.replace("Boolean(one.waiting)", "!one.waiting"), 60)
    expect(page.locator(BANNER)).to_have_count(0, timeout=60_000)
    assert [one["key"] for one in renewed.items()] == keys
    shop.start()
    renewed.wait_until_sent(60)
    assert sorted(row["key"] for row in shop.entries()) == sorted(keys)
    assert renewed.say_what_is_wrong(shop) == []


def test_nothing_is_renewed_while_something_is_typed_in_another_tab(renewed: Tablet):
    page = renewed.open("/intake/")
    fill_intake(page, "KX.4731D")
    renewed.wait_for("shopac.store.all('drafts').then((all) => all.length === 1)")
    other = renewed.new_tab("/unsent/")
    other.locator(BANNER).get_by_role("button").click()
    expect(other.locator(BANNER)).to_contain_text("not recorded: record it first")
    assert renewed.ask(WAITS)
    record(page)
    page.wait_for_url("**/job/?job=*")
    other.locator(BANNER).get_by_role("button").click()
    expect(other.locator(BANNER)).to_have_count(0, timeout=60_000)


def test_a_tablet_without_a_new_version_says_nothing(tablet: Tablet):
    job_taken_in(tablet)
    expect(tablet.page.locator(BANNER)).to_have_count(0)
