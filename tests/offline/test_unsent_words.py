"""The list of what is kept speaks as the forms do."""

from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_coil_test, fill_intake, record, says
from tests.offline.test_kept import job_taken_in


def returned_step(tablet: Tablet, shop: Shop) -> str:
    """A step kept without the server, and sent back by it; returns the job's key."""
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    page.locator("[name=amps]").fill("abc")
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open("/unsent/")
    shop.start()
    expect(page.locator(".kept-item.needs")).to_be_visible(timeout=20000)
    return job


def test_a_returned_entry_names_its_question_and_what_is_needed(tablet: Tablet, shop: Shop):
    returned_step(tablet, shop)
    state = tablet.page.locator(".kept-item [data-state]")
    expect(state).to_contain_text("Not recorded: Current: “abc” is no number")
    expect(state).to_contain_text("Open the form again, mend that and record it.")
    expect(tablet.page.locator("[data-send]")).to_be_hidden()


def test_a_returned_form_shows_at_once_what_is_to_be_mended(tablet: Tablet, shop: Shop):
    returned_step(tablet, shop)
    page = tablet.page
    page.get_by_role("link", name="Open the form again").click()
    expect(page.locator("[data-errors-for=amps]")).to_contain_text("abc")
    expect(page.locator("[data-not-recorded]")).to_contain_text(
        "Nothing is recorded yet: mend current"
    )
    expect(page.locator("button.bar")).to_contain_text("Record this step")


def test_what_is_kept_is_shown_in_the_forms_words(tablet: Tablet, shop: Shop):
    job = returned_step(tablet, shop)
    tablet.open(f"/job/?job={job}").locator("label:has([name=failing][value=yes])").click()
    says(tablet.page, "Kept on this tablet")
    page = tablet.open("/unsent/")
    expect(page.locator("[data-unsent] > .kept-item")).to_have_count(2)
    step, switch = page.locator("[data-unsent] > .kept-item").all()
    expect(switch.locator("[data-what]")).to_have_text("KX.4731D, Failing now?")
    expect(switch.locator("[data-state]")).to_contain_text("after the entry of the same car")
    for row in (step, switch):
        row.get_by_role("button", name="Look").click()
    expect(step.locator(".looked")).to_contain_text("12.38\u00a0V")
    for internal in ("coil_power", "test kind", "test version", "volts", "magnet\n"):
        expect(step.locator(".looked")).not_to_contain_text(internal)
    expect(switch.locator(".looked")).to_contain_text("Yes")


def test_a_list_drawn_several_times_at_once_has_each_entry_once(tablet: Tablet, shop: Shop):
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open("/unsent/")
    expect(page.locator("[data-state]")).to_have_count(1)
    page.evaluate(
        "document.querySelector('[data-unsent]').replaceChildren();"
        "for (let turn = 0; turn < 5; turn += 1) dispatchEvent(new Event('pageshow'));"
    )
    page.wait_for_timeout(500)
    expect(page.locator("[data-state]")).to_have_count(1)
