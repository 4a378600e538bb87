"""A sign-in that has ended stops no work and loses nothing."""

from playwright.sync_api import Page, expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_coil_test, fill_intake, record, says, until
from tests.offline.test_kept import job_taken_in


def sign_in(page: Page, name: str = "R. Sand", pin: str = "2604") -> None:
    """As a person does: tap the name, type the PIN."""
    page.get_by_role("link", name=name).click()
    page.locator("[name=pin]").fill(pin)
    page.get_by_role("button", name=f"Sign in as {name}").click()


def test_after_a_sign_in_has_ended_the_tablet_may_still_send(tablet: Tablet, shop: Shop):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    tablet.forget_sign_in()
    record(page)
    tablet.page.wait_for_url(lambda url: "/intake/" not in url)
    [entry] = shop.entries()
    assert (entry["sender_id"], entry["author_id"] is not None) == (None, True)
    assert tablet.say_what_is_wrong(shop) == []


def test_a_tablet_that_is_not_known_any_more_waits_for_a_sign_in(tablet: Tablet, shop: Shop):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    tablet.context.clear_cookies()
    record(page)
    says(page, "It needs a sign-in to be sent.")
    expect(page.locator("#kept")).to_contain_text("1 needs you")
    assert (tablet.header(), shop.entries()) == (1, [])
    page.locator("[data-said]").get_by_role("link", name="Sign in").click()
    sign_in(page)
    tablet.wait_until_sent()
    [entry] = shop.entries()
    assert entry["fields"]["plate"] == ["KX.4731D"]
    assert tablet.say_what_is_wrong(shop) == []


def test_a_form_token_that_was_renewed_stops_nothing(tablet: Tablet, shop: Shop):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    tablet.context.clear_cookies(name="shopac_csrf")
    record(page)
    page.wait_for_url("**/job/?job=*")
    assert len(shop.entries()) == 1


def test_signing_out_clears_nothing_that_is_kept(tablet: Tablet, shop: Shop):
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    shop.fault("fail", status="503 Service Unavailable", path="/entries/")
    shop.start()
    page = tablet.open("/sign_in/")
    page.get_by_role("button", name="Sign R. Sand out").click()
    page.get_by_text("Who are you?").wait_for()
    until(lambda: tablet.header() == 1)
    shop.no_faults()
    tablet.wait_until_sent()
    assert len(shop.entries()) == 1
    assert tablet.say_what_is_wrong(shop) == []


def test_after_a_change_of_person_each_entry_is_its_authors(tablet: Tablet, shop: Shop):
    shop.fault("fail", status="503 Service Unavailable")
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open("/sign_in/?next=/intake/")
    sign_in(page, "E. Quist", "3517")
    fill_intake(page, "RV.4736A")
    record(page)
    says(page, "Kept on this tablet")
    shop.no_faults()
    tablet.wait_until_sent()
    authors = {entry["fields"]["plate"][0]: shop.author(entry) for entry in shop.entries()}
    assert authors == {"KX.4731D": "R. Sand", "RV.4736A": "E. Quist"}  # two lanes, in any order
    assert tablet.say_what_is_wrong(shop) == []


def test_a_tap_right_after_the_sign_in_is_not_the_last_persons(tablet: Tablet, shop: Shop):
    shop.fault("wait", method="GET", path="/ping/", seconds=1)
    page = tablet.open("/sign_in/?next=/intake/")
    sign_in(page, "E. Quist", "3517")
    fill_intake(page, "RV.4736A")
    record(page)
    page.wait_for_url("**/job/?job=*")
    assert [shop.author(entry) for entry in shop.entries()] == ["E. Quist"]


def test_a_ping_while_somebody_signs_in_gives_nobody_the_last_persons_name(
    tablet: Tablet, shop: Shop
):
    shop.fault("wait", method="GET", path="/ping/", seconds=1)
    shop.fault("wait", method="POST", path="/sign_in/", seconds=3)
    page = tablet.open("/sign_in/?next=/intake/")
    page.get_by_role("link", name="E. Quist").click()
    page.locator("[name=pin]").fill("3517")
    # Asked after the tap, answered before the sign-in is.
    page.get_by_role("button", name="Sign in as E. Quist").evaluate(
        "(button) => { button.click(); setTimeout(() => shopac.server.ping(), 200); }"
    )
    page.wait_for_url("**/intake/")
    fill_intake(page, "RV.4736A")
    record(page)
    page.wait_for_url("**/job/?job=*")
    assert [shop.author(entry) for entry in shop.entries()] == ["E. Quist"]


def test_after_a_sign_out_nobody_types_under_the_name_of_who_left(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    page = tablet.open("/sign_in/")
    page.get_by_role("button", name="Sign R. Sand out").click()
    page.get_by_role("link", name="E. Quist").wait_for()
    shop.kill()
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    record(page)
    says(page, "Kept on this tablet")
    shop.start()
    sign_in(tablet.open("/sign_in/"), "E. Quist", "3517")
    tablet.wait_until_sent()
    assert [shop.author(entry) for entry in shop.entries()] == ["R. Sand", "E. Quist"]
    assert "nameless" in shop.entries()[1]["marks"]


def signed_out_without_the_server(tablet: Tablet, shop: Shop) -> str:
    """R. Sand signs out while it is away, then a test is recorded; returns the job's key."""
    job = job_taken_in(tablet)
    page = tablet.open("/sign_in/")
    tablet.wait_for("shopac.server.first.then(Boolean)")
    shop.kill()
    page.get_by_role("button", name="Sign R. Sand out").click()
    signed_out = "Signed out on this tablet. The shop server does not answer"
    expect(page.locator("[data-leave]")).to_contain_text(signed_out)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    record(page)
    says(page, "Goes out when the server answers and somebody has signed in")
    return job


def test_a_sign_out_without_the_server_is_told_before_anything_else(tablet: Tablet, shop: Shop):
    signed_out_without_the_server(tablet, shop)
    shop.start()
    until(lambda: tablet.items()[0]["state"] == "sign_in")
    assert [row["kind"] for row in shop.entries()] == ["intake"]
    page = tablet.open("/")
    page.get_by_text("Who are you?").wait_for()
    expect(page.locator("[data-leave]")).to_have_count(0)
    sign_in(page, "E. Quist", "3517")
    tablet.wait_until_sent()
    assert [shop.author(entry) for entry in shop.entries()] == ["R. Sand", "E. Quist"]
    assert tablet.say_what_is_wrong(shop) == []


def test_a_sign_out_told_late_does_not_end_the_next_sign_in(tablet: Tablet, shop: Shop):
    job_taken_in(tablet)
    page = tablet.open("/sign_in/")
    tablet.wait_for("shopac.server.first.then(Boolean)")
    shop.fault("fail", status="503 Service Unavailable", path="/ping/", method="GET")
    page.get_by_role("button", name="Sign R. Sand out").click()
    expect(page.locator("[data-leave]")).to_contain_text("Signed out on this tablet.")
    sign_in(page, "R. Sand")
    shop.no_faults()
    tablet.open("/unsent/")
    tablet.wait_for(
        "shopac.store.get('about', 'who').then((who) => who?.person.name === 'R. Sand')"
    )
    expect(tablet.open("/sign_in/").locator("[data-leave]")).to_have_count(1)


def test_after_the_end_of_all_sign_ins_the_same_person_stands_by_what_was_kept(
    tablet: Tablet, shop: Shop
):
    shop.fault("fail", status="503 Service Unavailable", path="/entries/")
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    shop.write("UPDATE jobs_person SET passes_from = datetime('now') WHERE name = 'R. Sand'")
    shop.no_faults()
    page = tablet.open("/sign_in/?next=/unsent/")
    sign_in(page, "E. Quist", "3517")
    expect(page.locator("[data-state]")).to_contain_text("once R. Sand has signed in here anew")
    assert shop.entries() == []
    sign_in(tablet.open("/sign_in/?next=/unsent/"))
    tablet.wait_until_sent()
    assert [shop.author(entry) for entry in shop.entries()] == ["R. Sand"]


def test_a_page_without_the_server_says_whose_name_an_entry_gets(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.kept_ahead()
    shop.kill()
    page = tablet.open(f"/step/coil_power/?job={job}")
    recorder = page.locator("[data-recorder]")
    expect(recorder).to_contain_text("Recorded by R. Sand")
    way = recorder.get_by_role("link", name="Someone else").get_attribute("href") or ""
    assert way.endswith(f"/sign_in/?next=%2Fstep%2Fcoil_power%2F%3Fjob%3D{job}")
