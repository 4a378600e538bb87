"""Refrigerant taken out and put in without the server: kept, sent once, booked in its order."""

from playwright.sync_api import Page, expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, answer, fill_coil_test, record, says, until
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


def test_a_correction_without_a_reason_is_asked_for_one_before_it_is_kept(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    tablet.kept_ahead()
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    record(page)
    tablet.wait_until_sent()
    [step] = [one for one in shop.entries() if one["kind"] == "step"]
    page = tablet.open(f"/step/coil_power/?job={job}&corrects={step['key']}")
    shop.kill()
    page.locator("[name=volts]").fill("12.83")
    record(page)
    expect(page.locator('[data-errors-for="corrected_why"]')).to_have_text(
        "Say in a few words what was wrong with it."
    )
    expect(page.locator("[data-not-recorded]")).to_contain_text("Nothing is recorded yet")
    assert tablet.unsent() == []
    page.locator("[name=corrected_why]").fill("Two digits turned round.")
    record(page)
    says(page, "Kept on this tablet")
    shop.start()
    tablet.wait_until_sent()
    assert [one["corrects"] for one in shop.entries()][-1] == step["key"]
    assert tablet.say_what_is_wrong(shop) == []


def test_a_repair_where_something_is_only_added_is_not_asked_what_was_wrong(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    page = tablet.open(f"/repair/?job={job}")
    answer(page, "what", "fitted")
    answer(page, "part", "relay")
    answer(page, "source", "new")
    record(page)
    page.wait_for_url("**/job/?job=*")
    [change] = [one for one in shop.entries() if one["kind"] == "change"]
    page = tablet.open(f"/repair/?job={job}&corrects={change['key']}")
    answer(page, "source", "used")
    record(page)
    expect(page.locator('[data-errors-for="corrected_why"]')).to_contain_text("what was wrong")
    answer(page, "source", "new")
    page.locator("[name=where]").fill("Left box, third from the front.")
    record(page)
    tablet.wait_until_sent()
    assert [one["corrects"] for one in shop.entries()][-1] == change["key"]
