"""Discarding an entry says before what else that takes along."""

from playwright.sync_api import Locator, expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_coil_test, fill_intake, record, says, until


def kept_intake(tablet: Tablet) -> str:
    """A car taken in that is kept here; returns its job's key."""
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    return str(tablet.items()[0]["key"])


def kept_step(tablet: Tablet, job: str) -> None:
    """A test on that car."""
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    record(page)
    says(page, "Kept on this tablet")


def row(tablet: Tablet, number: int) -> Locator:
    """A row of the list of what is kept."""
    return tablet.page.locator("[data-unsent] > li").nth(number)


def discard(row: Locator) -> None:
    """Say why and discard."""
    row.locator("[name=reason]").fill("Taken in twice.")
    row.locator("[data-discarding] [type=submit]").click()


def test_discarding_an_intake_says_how_many_entries_rest_on_it(tablet: Tablet, shop: Shop):
    shop.kill()
    job = kept_intake(tablet)
    kept_step(tablet, job)
    kept_step(tablet, job)
    tablet.open("/unsent/")
    row(tablet, 0).get_by_role("button", name="Discard: say why").click()
    rests = "2 entries rest on this one. Without it the shop server takes none of them:"
    expect(row(tablet, 0).locator("[data-rests]")).to_contain_text(rests)
    row(tablet, 1).get_by_role("button", name="Discard: say why").click()
    expect(row(tablet, 1).locator("[data-rests]")).to_be_hidden()


def test_an_entry_and_its_correction_are_told_apart_and_discarded_together(
    tablet: Tablet, shop: Shop
):
    shop.fault("fail", status="503 Service Unavailable", path="/entries/")
    job = kept_intake(tablet)
    until(lambda: tablet.items()[0]["attempts"] > 0)
    tablet.page.locator("[name=phone]").fill("0660 1234567")
    record(tablet.page)
    until(lambda: len(tablet.items()) == 2)
    kept_step(tablet, job)
    tablet.open("/unsent/")
    first = row(tablet, 0)
    expect(first.locator("[data-what]")).to_have_text("KX.4731D, Take in a car")
    expect(row(tablet, 1).locator("[data-what]")).to_have_text(
        "KX.4731D, Take in a car, correction"
    )
    first.get_by_role("button", name="Discard both: say why").click()
    expect(first.locator("[data-rests]")).to_contain_text("is discarded with it. 1 entry rests on")
    discard(first)
    until(lambda: [item["kind"] for item in tablet.items()] == ["step", "discard", "discard"])
    shop.no_faults()
    tablet.page.get_by_role("button", name="Try to send now").click()
    until(lambda: [row["kind"] for row in shop.entries()] == ["discard", "discard"])
