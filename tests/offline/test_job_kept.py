"""A job without the server: what may be done on the car, what was done, and of when that is."""

import uuid

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.offline.shop import Shop
from tests.offline.tablet import (
    Tablet,
    answer,
    fill_coil_test,
    fill_intake,
    open_coil_test,
    record,
    says,
    take_in,
)
from tests.offline.test_kept import job_taken_in

COIL = "Power straight at the coil"
NOT_KEPT = (
    "This job is not kept on this tablet: it keeps the newest 200 open jobs, as the shop server"
    " last told them."
)
OPEN_ALL = "document.querySelectorAll('details').forEach((one) => { one.open = true })"


def take_in_with(tablet: Tablet, drive: str) -> Page:
    """Take in a car whose drive was looked at."""
    page = tablet.open("/intake/")
    fill_intake(page, "AB.1295N")
    page.evaluate(OPEN_ALL)
    answer(page, "drive", drive)
    record(page)
    return page


def coil_row(page: Page) -> Locator:
    """The coil test in the list of all tests."""
    return page.locator("[data-test=coil_power]")


def barred(page: Page) -> None:
    """The list says why the coil test is not for this car, and links to it nowhere."""
    expect(coil_row(page)).to_contain_text("High voltage: never a 12 V test.")
    expect(page.locator("a[href*=coil_power]:visible")).to_have_count(0)
    expect(coil_row(page).locator("a")).to_have_count(0)


def no_forms(page: Page, sentence: str) -> None:
    """The sentence stands alone."""
    expect(page.locator("main [data-instead]")).to_have_text(sentence)
    expect(page.locator("main form:visible, main .bar:visible, main a:visible")).to_have_count(0)


def test_a_high_voltage_car_offers_no_coil_test_without_the_server(tablet: Tablet, shop: Shop):
    page = take_in_with(tablet, "electric_hv")
    page.wait_for_url("**/job/?job=*")
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    page.reload()
    barred(page)


def test_a_drive_that_only_this_tablet_knows_bars_the_test(tablet: Tablet, shop: Shop):
    shop.kill()
    page = take_in_with(tablet, "belt_clutch")
    page.get_by_role("link", name="Go on with this car").click()
    expect(coil_row(page).locator("a")).to_have_count(1)
    expect(page.locator("[data-as-of]")).to_have_count(0)  # typed here: it is of now
    page.get_by_role("link", name="Air conditioning").click()
    answer(page, "drive", "electric_hv")
    record(page)
    page.get_by_role("link", name="Go on with this car").click()
    barred(page)


def test_all_that_this_tablet_was_told_of_the_ac_bars_tests(tablet: Tablet, shop: Shop):
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "AB.1295N")
    page.evaluate(OPEN_ALL)
    answer(page, "drive", "belt_clutch")
    answer(page, "displacement", "fixed")
    record(page)
    page.get_by_role("link", name="Go on with this car").click()
    row = page.locator("[data-test=control_valve_duty]")
    expect(row).to_contain_text("No control valve with a plug on this compressor.")
    expect(row.locator("a")).to_have_count(0)


def test_what_must_come_first_holds_without_the_server_too(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    waits = (
        "shopac.store.all('jobs').then(([job]) => { job.next.planned.unshift("
        "{ kind: 'running_pressures', reason: '', words: '' });"
        " return shopac.store.put('jobs', job); })"
    )
    tablet.ask(waits)
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    expect(page.locator("[data-next]:visible")).to_have_count(1)
    expect(page.locator("[data-next=running_pressures]")).to_be_hidden()


def test_a_drive_not_noted_yet_leaves_the_question_to_the_step(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    open_coil_test(page)
    expect(page.locator("[data-first]")).to_contain_text("The drive is not noted yet.")


def test_what_was_done_is_told_without_the_server(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(tablet.page)
    record(tablet.page)
    tablet.page.wait_for_url("**/job/?job=*")
    tablet.wait_for("shopac.store.all('jobs').then((all) => all[0]?.steps.length === 1)")
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    expect(page.locator("[data-done]")).to_contain_text(f"1 {COIL}")
    expect(page.locator("[data-complaint]")).to_contain_text("Blows warm.")
    expect(coil_row(page).locator("a")).to_have_text(f"Make it again: {COIL}")


def test_a_step_kept_here_counts_as_done_and_is_not_offered_as_new(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    record(page)
    page.get_by_role("link", name="Go on with this car").click()
    expect(page.locator("[data-done]")).to_contain_text(f"{COIL}, kept on this tablet")
    expect(coil_row(page).locator("a")).to_have_text(f"Make it again: {COIL}")
    shop.start()
    tablet.wait_until_sent()
    tablet.wait_for("shopac.store.all('jobs').then((all) => all[0]?.steps?.length === 1)")
    shop.kill()
    page.reload()
    expect(page.locator("[data-done]")).to_contain_text(COIL)
    expect(coil_row(page).locator("a")).to_have_text(f"Make it again: {COIL}")


@pytest.mark.parametrize("job", ["nope", str(uuid.UUID(int=7))])
def test_a_job_the_server_denies_has_no_page(tablet: Tablet, job: str):
    no_forms(tablet.open(f"/job/?job={job}"), "The shop server has no such job.")


def test_a_page_without_a_job_asks_which(tablet: Tablet):
    no_forms(tablet.open("/job/"), "Which job? Open it from Find.")


def test_a_job_that_is_not_kept_here_has_no_page_without_the_server(tablet: Tablet, shop: Shop):
    shop.kill()
    no_forms(tablet.open(f"/job/?job={uuid.uuid4()}"), NOT_KEPT)


def test_as_of_is_the_time_of_the_data(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    tablet.ask(
        "shopac.store.all('jobs').then(([job]) =>"
        " shopac.store.put('jobs', { ...job, as_of: '2026-02-03T11:19:00' }))"
    )
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    expect(page.locator("[data-as-of]")).to_have_text("as of 3 Feb 11:19")
    expect(tablet.open("/unsent/").locator("#kept")).to_be_attached()
    expect(tablet.page.locator("[data-as-of]")).to_have_count(0)


def test_the_header_says_of_when_the_last_entry_is_and_whether_the_server_answers_now(
    tablet: Tablet, shop: Shop
):
    job_taken_in(tablet)
    header = tablet.page.locator("#kept")
    expect(header).to_contain_text("Last entry sent ")
    shop.kill()
    expect(header).to_contain_text("Shop server not answering since ")  # nothing was touched here
    silent = tablet.ask("shopac.store.get('about', 'silent')")
    tablet.open("/intake/")
    expect(header).to_contain_text("Shop server not answering since ")
    take_in(tablet.page, "RV.4736A")
    says(tablet.page, "Kept on this tablet")
    expect(header).to_contain_text("1 kept here; no server since ")
    assert tablet.ask("shopac.store.get('about', 'silent')") == silent
    shop.start()
    tablet.wait_until_sent()
    expect(header).to_contain_text("Last entry sent ")
    assert tablet.say_what_is_wrong(shop) == []


LONG = "Power straight at the coil of the clutch, by a lead of its own"
LINES = """(words) => {
  const kept = document.getElementById("kept");
  kept.textContent = words;
  const range = document.createRange();
  range.selectNodeContents(kept);
  return new Set([...range.getClientRects()].map((one) => Math.round(one.top))).size;
}"""


@pytest.mark.parametrize(
    "words",
    [
        "Shop server not answering since 21:29",
        "12 kept here, 12 photos; no server since 21:29",
        "12 kept here, not sent, 12 photos, since 21:12",
        "2 need you, 12 to send; no server since 21:29",
    ],
)
def test_the_header_takes_two_lines_beside_a_long_title(tablet: Tablet, words: str):
    page = tablet.open("/unsent/")
    page.set_viewport_size({"width": 800, "height": 1280})
    page.evaluate("(title) => { document.querySelector('h1').textContent = title }", LONG)
    page.evaluate("document.getElementById('kept').hidden = false")
    assert page.evaluate(LINES, words) <= 2
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_a_job_opened_without_the_server_is_shown_anew_when_it_answers(
    tablet: Tablet, shop: Shop, photo
):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    tablet.ask(
        "shopac.store.all('jobs').then(([job]) => shopac.store.put('jobs',"
        " { ...job, as_of: '2026-02-03T11:19:00', points: [], complaint: 'Old.' }))"
    )
    shop.kill()
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    page.locator("[name=photo]").set_input_files(photo[0])
    record(page)
    page.get_by_role("link", name="Go on with this car").click()
    expect(page.locator("[data-as-of]")).to_have_text("as of 3 Feb 11:19")
    assert page.evaluate("scrollY") == 0
    expect(page.locator("[data-done]")).to_contain_text(f"{COIL}, 1 photo, kept on this tablet")
    page.get_by_text("Another test").click()
    before = page.get_by_text("Another test").bounding_box()
    shop.start()
    expect(page.locator("[data-done]")).to_contain_text(f"1 {COIL}")
    expect(page.locator("[data-done]")).to_contain_text("1 photo.")
    expect(page.locator("[data-as-of]")).not_to_contain_text("Feb")
    expect(page.locator("[data-points] li").first).to_be_visible()
    expect(page.locator("[data-complaint]")).to_contain_text("Blows warm.")
    expect(page.locator("[data-all-tests]")).to_have_attribute("open", "")
    after = page.get_by_text("Another test").bounding_box()
    assert before
    assert after
    assert abs(after["y"] - before["y"]) < 1  # a scrolled page stands on whole pixels
    assert tablet.say_what_is_wrong(shop) == []


def test_a_job_that_was_not_kept_here_is_shown_when_the_server_answers(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.open("/unsent/")
    shop.kill()
    tablet.ask(
        "shopac.store.write(['jobs', 'delivered'], (at) => {"
        " at('jobs').clear(); at('delivered').clear(); })"
    )
    page = tablet.open(f"/job/?job={job}")
    no_forms(page, NOT_KEPT)
    shop.start()
    expect(page.locator("h1.plate")).to_have_text("KX.4731D")
    expect(page.locator("[data-instead]")).to_have_count(0)


def test_the_record_button_waits_for_a_change_once_the_entry_is_kept(tablet: Tablet, shop: Shop):
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    expect(page.locator("button.bar")).to_contain_text("Nothing changed since")
    expect(page.locator("[data-said]")).to_be_in_viewport()
    page.evaluate(OPEN_ALL)
    page.locator("[name=make_model]").fill("Brenloh Ilex")
    expect(page.locator("button.bar")).to_contain_text("Record the change")
    record(page)
    expect(page.locator("button.bar")).to_contain_text("Nothing changed since")
    assert [item["fields"]["make_model"] for item in tablet.items()] == [["Brenloh Ilex"]]


def test_a_change_on_the_car_is_told_without_the_server_and_what_was_planned_since(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    record(page)
    page.wait_for_url("**/job/?job=*")
    tablet.open(f"/repair/?job={job}")
    answer(page, "what", "gap_set")
    page.locator("[name=where]").fill("one shim out")
    record(page)
    page.wait_for_url("**/job/?job=*")
    tablet.wait_for("shopac.store.all('jobs').then((all) => all[0]?.changes?.length === 1)")
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    expect(page.locator("[data-done]")).to_contain_text("Changed: Air gap set")
    expect(page.locator("[data-done]")).to_contain_text("one shim out")
    planned = tablet.ask("shopac.store.all('jobs').then(([job]) => job.next.planned)")
    # Nobody noted how the compressor is driven: no coil is touched again before that is looked at.
    assert "coil_power" not in [one["kind"] for one in planned]
    expect(page.locator("[data-next-reason]")).to_have_text(planned[0]["reason"])
    first = page.locator("[data-next]:visible")
    expect(first).to_have_attribute("data-next", planned[0]["kind"])
    page = tablet.open(f"/step/{planned[0]['kind']}/?job={job}")
    page.fill("[name=seen]", "Looked at.")
    record(page)
    page.get_by_role("link", name="Go on with this car").click()
    expect(first).to_have_attribute("data-next", planned[1]["kind"])


def test_the_loop_is_told_without_the_server_and_that_what_is_kept_here_is_not_in_it(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    page = tablet.open(f"/repair/?job={job}")
    answer(page, "what", "opened")
    record(page)
    page.wait_for_url("**/job/?job=*")
    tablet.wait_for("shopac.store.all('jobs').then((all) => all[0]?.changes?.length === 1)")
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    expect(page.locator("[data-fill=loop]")).to_contain_text("Must not be run: the loop is open")
    expect(page.locator("[data-loop-here]")).to_be_hidden()
    page = tablet.open(f"/repair/?job={job}")
    answer(page, "what", "closed")
    record(page)
    page.get_by_role("link", name="Go on with this car").click()
    expect(page.locator("[data-loop-here]")).to_be_visible()
