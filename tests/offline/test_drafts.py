"""What is typed and not yet recorded is there again, and one entry is in one tab only."""

import hashlib

from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_intake, record, says, until
from tests.offline.test_kept import job_taken_in

HASH_OF_CHOSEN = """async () => {
  const [file] = document.querySelector("[name=photo]").files;
  return file ? shopac.sha256(await file.arrayBuffer()) : "";
}"""

# The form in front has been written down as far as this field.
DRAFTED = "shopac.store.all('drafts').then((all) => Boolean(all[0]?.fields.{}?.[0]))"


def test_a_reload_brings_back_what_was_typed_and_tapped(tablet: Tablet):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    page.locator("label:has([name=accident][value=yes])").click()
    tablet.wait_for(DRAFTED.format("accident"))
    page.reload()
    expect(page.locator("[name=plate]")).to_have_value("KX.4731D")
    expect(page.locator("[name=accident][value=yes]")).to_be_checked()


def test_the_last_letter_typed_is_kept_when_the_tab_is_closed(tablet: Tablet):
    page = tablet.new_tab("/intake/")
    page.locator("[name=plate]").press_sequentially("KX.4731D")
    page.close()
    page = tablet.new_tab("/intake/")
    expect(page.locator("[name=plate]")).to_have_value("KX.4731D")
    expect(page.locator("[data-back]")).to_contain_text("is back.")


def test_a_number_comes_back_with_the_unit_it_was_typed_in(tablet: Tablet):
    page = tablet.open(f"/conditions/?job={job_taken_in(tablet)}")
    page.locator("[name=ambient_unit]").evaluate("(sent) => { sent.value = '°F'; }")  # of that day
    page.locator("[name=ambient]").fill("88")
    tablet.wait_for(DRAFTED.format("ambient"))
    page.reload()
    expect(page.locator("[name=ambient]")).to_have_value("88")
    expect(page.locator("#id_ambient_unit")).to_have_text("°F")


def test_a_photo_is_in_its_field_again(tablet: Tablet, photo):
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    page.locator("[name=photo]").set_input_files(photo[0])
    tablet.wait_for("shopac.store.all('drafts').then((all) => all[0]?.photos.length === 1)")
    page.reload()
    until(lambda: page.evaluate(HASH_OF_CHOSEN) == photo[1])
    assert hashlib.sha256(photo[0].read_bytes()).hexdigest() == photo[1]


def test_a_draft_that_is_back_says_so_above_all_questions_and_of_when_it_is(tablet: Tablet):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    tablet.wait_for(DRAFTED.format("complaint"))
    tablet.open("/unsent/")
    tablet.ask(
        "shopac.store.all('drafts').then(([one]) =>"
        " shopac.store.put('drafts', { ...one, at: Date.parse('2026-02-03T21:12:00') }))"
    )
    page = tablet.open("/intake/")
    back = page.locator("form[data-entry] > :first-child")
    expect(back).to_contain_text("What you typed here before, 3 Feb 21:12, is back.")
    record(page)
    page.wait_for_url("**/job/?job=*")
    expect(page.locator("[data-back]")).to_have_count(0)


def test_beginning_anew_empties_the_form(tablet: Tablet):
    page = tablet.open("/intake/")
    expect(page.locator("[data-back]")).to_have_count(0)
    fill_intake(page, "KX.4731D")
    tablet.wait_for(DRAFTED.format("complaint"))
    tablet.open("/unsent/")
    page = tablet.open("/intake/")
    page.get_by_role("button", name="Begin anew").click()
    expect(page.locator("[name=plate]")).to_have_value("")
    expect(page.locator("[data-back]")).to_have_count(0)
    until(lambda: tablet.ask("shopac.store.all('drafts')") == [])
    tablet.open("/unsent/")
    page = tablet.open("/intake/")
    expect(page.locator("[name=plate]")).to_have_value("")


def test_a_form_that_was_recorded_is_empty_when_it_is_opened_anew(tablet: Tablet):
    job_taken_in(tablet)
    page = tablet.open("/intake/")
    page.wait_for_timeout(600)
    expect(page.locator("[name=plate]")).to_have_value("")


def second_tab(tablet: Tablet):
    """A duplicate of the tab in front: same address, same entry of the history, reloaded."""
    first = tablet.page
    fill_intake(first, "KX.4731D")
    tablet.wait_for(DRAFTED.format("complaint"))
    state = first.evaluate("history.state")
    second = tablet.new_tab("/intake/")
    second.evaluate("(state) => history.replaceState(state, '')", state)
    second.reload()
    return first, second


def test_a_second_tab_of_one_entry_is_told_so_and_can_take_it_over(tablet: Tablet, shop: Shop):
    tablet.open("/intake/")
    first, second = second_tab(tablet)
    says(second, "Open in another tab too.")
    second.get_by_role("button", name="Use it here").click()
    says(first, "Open in another tab too.")
    record(first)
    says(first, "Open in another tab too.")
    record(second)
    second.wait_for_url("**/job/?job=*")
    assert len(shop.entries()) == 1


def test_a_copy_in_a_second_tab_is_an_entry_of_its_own(tablet: Tablet, shop: Shop):
    tablet.open("/intake/")
    first, second = second_tab(tablet)
    says(second, "Open in another tab too.")
    second.get_by_role("button", name="Make a copy").click()
    second.locator("[name=plate]").fill("RV.4736A")
    record(second)
    second.wait_for_url("**/job/?job=*")
    record(first)
    first.wait_for_url("**/job/?job=*")
    plates = {row["fields"]["plate"][0] for row in shop.entries()}
    assert plates == {"KX.4731D", "RV.4736A"}


LEFT_BY_ANOTHER = """shopac.store.all("drafts").then(([one]) =>
  shopac.store.put("drafts", { ...one, by: { key: "another", name: "E. Quist" } }))"""


def test_what_somebody_left_half_typed_is_told_to_the_next_and_shown_on_their_tap_only(tablet):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    tablet.wait_for(DRAFTED.format("complaint"))
    tablet.open("/unsent/")
    assert tablet.ask("shopac.store.all('drafts')")[0]["by"]["name"] == "R. Sand"
    tablet.ask(LEFT_BY_ANOTHER)
    page = tablet.open("/intake/")
    left = page.locator("[data-left]")
    expect(left).to_contain_text("E. Quist left something typed here")
    expect(page.locator("[name=plate]")).to_have_value("")
    left.get_by_role("button", name="Go on with it here").click()
    expect(page.locator("[name=plate]")).to_have_value("KX.4731D")
    expect(left).to_have_count(0)
    record(page)
    page.wait_for_url("**/job/?job=*")
    until(lambda: tablet.ask("shopac.store.all('drafts')") == [])


def test_what_another_left_stays_theirs_while_somebody_else_records_their_own(tablet, shop: Shop):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    tablet.wait_for(DRAFTED.format("complaint"))
    tablet.open("/unsent/")
    tablet.ask(LEFT_BY_ANOTHER)
    page = tablet.open("/intake/")
    expect(page.locator("[data-left]")).to_be_visible()
    fill_intake(page, "RV.4736A")
    record(page)
    page.wait_for_url("**/job/?job=*")
    assert [row["fields"]["plate"][0] for row in shop.entries()] == ["RV.4736A"]
    (left,) = tablet.ask("shopac.store.all('drafts')")
    assert (left["by"]["name"], left["fields"]["plate"][0]) == ("E. Quist", "KX.4731D")
