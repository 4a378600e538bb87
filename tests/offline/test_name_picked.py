"""Another person takes the tablet while the server is away: their name waits for their PIN."""

from playwright.sync_api import Page, expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_coil_test, fill_intake, record, says, until
from tests.offline.test_kept import job_taken_in
from tests.offline.test_signed_out import sign_in

PEOPLE = "shopac.store.get('about', 'people').then((all) => all?.length === 2)"


def picked(tablet: Tablet, shop: Shop, name: str = "E. Quist") -> Page:
    """The server goes away, and somebody taps their name."""
    tablet.wait_for(PEOPLE)
    shop.kill()
    page = tablet.open("/sign_in/?next=/intake/")
    page.get_by_role("button", name=name).click()
    page.get_by_role("link", name="Go on").click()
    page.wait_for_url("**/intake/")
    return page


def recorded(page: Page, plate: str) -> None:
    fill_intake(page, plate)
    expect(page.locator("[data-recorder-name]")).to_have_text("E. Quist, name not confirmed")
    record(page)
    says(page, "Name not confirmed: goes out once E. Quist has given the PIN here.")


def test_what_is_recorded_under_a_picked_name_waits_for_that_persons_pin(
    tablet: Tablet, shop: Shop
):
    recorded(picked(tablet, shop), "KX.4731D")
    shop.start()
    expect(tablet.page.locator("#kept")).to_contain_text("1 needs you")
    assert shop.entries() == []
    page = tablet.open("/sign_in/?next=/unsent/")
    page.get_by_role("link", name="E. Quist").click()
    expect(page.locator("[data-confirms]")).to_contain_text("Your PIN confirms these too.")
    page.locator("[name=pin]").fill("3517")
    page.get_by_role("button", name="Sign in as E. Quist").click()
    tablet.wait_until_sent()
    [entry] = shop.entries()
    assert shop.author(entry) == "E. Quist"
    assert "named_first" in entry["marks"]
    assert tablet.say_what_is_wrong(shop) == []


def test_anothers_pin_confirms_nothing_and_gets_no_entry(tablet: Tablet, shop: Shop):
    recorded(picked(tablet, shop), "KX.4731D")
    shop.start()
    page = tablet.open("/sign_in/?next=/intake/")
    sign_in(page)
    fill_intake(page, "PW.5504K")
    record(page)
    page.wait_for_url("**/job/?job=*")
    [entry] = shop.entries()
    assert (entry["fields"]["plate"], shop.author(entry)) == (["PW.5504K"], "R. Sand")
    [waits] = tablet.items()
    assert (waits["state"], waits["who"]["person"]["name"]) == ("sign_in", "E. Quist")


def test_the_session_of_who_was_here_before_ends_with_the_pick(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    page = picked(tablet, shop)
    shop.start()
    until(lambda: shop.rows("SELECT 1 FROM django_session") == [])
    page = tablet.open(f"/step/coil_power/?job={job}")
    page.wait_for_url("**/sign_in/**")


def test_who_is_signed_in_and_taps_their_own_name_stays_signed_in(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    picked(tablet, shop, "R. Sand")
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    record(page)
    says(page, "Goes out by itself when the server answers.")
    shop.start()
    tablet.wait_until_sent()
    assert {shop.author(entry) for entry in shop.entries()} == {"R. Sand"}
