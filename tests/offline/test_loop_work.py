"""Refrigerant taken out and put in without the server: kept, sent once, booked in its order."""

from playwright.sync_api import Page, expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, answer, record, says, until
from tests.offline.test_kept import job_taken_in


def taken_out(page: Page) -> None:
    """A recovery into a cylinder that is not entered yet, with a second pull."""
    expect(page.get_by_label("What stands on it")).to_be_hidden()
    answer(page, "cylinder", "unnamed")
    page.get_by_label("What stands on it").fill("Blue, 14 kg")
    answer(page, "gas", "identified")
    page.locator("[name=grams_out]").fill("410")
    answer(page, "machine", "older")
    answer(page, "waited", "again")
    page.locator("[name=came_back]").fill("35")
    page.locator("[name=grams_again]").fill("12")
    page.locator("[name=oil_out]").fill("0")


def told_anew(tablet: Tablet, job: str, what: str) -> None:
    """The job that is looked at is told anew, and that is kept."""
    tablet.open(f"/job/?job={job}")
    tablet.wait_for(f"shopac.store.all('jobs').then((all) => Boolean(all[0]?.{what}))")


def test_recovery_and_charge_without_the_server_are_booked_once_and_begin_the_test(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    tablet.kept_ahead()
    told_anew(tablet, job, "gates?.length")
    shop.kill()
    page = tablet.open(f"/recovery/?job={job}")
    expect(page.locator("[data-bars]")).to_contain_text("Search for the leak under pressure")
    taken_out(page)
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open(f"/charge/?job={job}")
    answer(page, "cylinder", "unnamed")
    answer(page, "fill", "full")
    page.locator("[name=grams_in]").fill("520")
    answer(page, "hose", "machine")
    answer(page, "leak", "not_found")
    expect(page.get_by_text("Into a leak:")).to_be_visible()
    record(page)
    says(page, "Kept on this tablet")
    until(lambda: tablet.header() == 2)
    shop.start()
    tablet.wait_until_sent()
    moves = shop.rows("select amount, from_place, to_place from jobs_move order by id")
    assert [tuple(dict(one).values()) for one in moves] == [
        (410_000, "car", "unnamed"),
        (12_000, "car", "unnamed"),
        (520_000, "unnamed", "car"),
    ]
    told_anew(tablet, job, "booked?.recovered_share")
    shop.kill()
    page = tablet.open(f"/step/recovered_share/?job={job}")
    expect(page.locator("[data-booked]")).to_contain_text("Begins with what was booked")
    expect(page.locator("[name=recovered]")).to_have_value("422")
    expect(page.locator("[name=machine][value=older]")).to_be_checked()
    expect(page.locator("[name=repeated][value=yes]")).to_be_checked()
    assert tablet.say_what_is_wrong(shop) == []
