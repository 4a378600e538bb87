"""A tap is kept, then sent, then the page goes on; and nothing is lost on the way."""

import pytest
from playwright.sync_api import expect

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
    until,
)


def job_taken_in(tablet: Tablet, plate: str = "KX.4731D") -> str:
    """Take in a car; returns the job's key."""
    take_in(tablet.open("/intake/"), plate)
    tablet.page.wait_for_url("**/job/?job=*")
    return tablet.page.url.split("job=")[1]


def test_with_the_server_there_a_car_is_taken_in_and_its_job_opens(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    assert [(row["kind"], row["key"]) for row in shop.entries()] == [("intake", job)]
    assert tablet.items() == []
    expect(tablet.page.locator("#kept")).to_contain_text("Last entry sent")
    assert tablet.say_what_is_wrong(shop) == []


def test_offline_a_new_car_and_its_first_test_arrive_once_and_in_order(
    tablet: Tablet, shop: Shop, photo
):
    shop.kill()
    take_in(tablet.open("/intake/"), "KX.4731D")
    says(tablet.page, "Kept on this tablet")
    tablet.page.get_by_role("link", name="Go on with this car").click()
    tablet.page.get_by_text("KX.4731D").wait_for()
    open_coil_test(tablet.page)
    fill_coil_test(tablet.page)
    tablet.page.locator("[name=photo]").set_input_files(photo[0])
    record(tablet.page)
    says(tablet.page, "Kept on this tablet")
    until(lambda: tablet.header() == 2)
    shop.start()
    tablet.wait_until_sent()
    intake, step = shop.entries()
    assert (intake["kind"], step["kind"]) == ("intake", "step")
    assert step["job_key"] == intake["key"]
    assert [one["sha256"] for one in step["photos"]] == [photo[1]]
    assert tablet.say_what_is_wrong(shop) == []


def test_an_entry_is_its_authors_even_when_it_is_sent_later(tablet: Tablet, shop: Shop):
    shop.kill()
    take_in(tablet.open("/intake/"), "KX.4731D")
    says(tablet.page, "Kept on this tablet")
    shop.start()
    tablet.wait_until_sent()
    [entry] = shop.entries()
    assert (shop.author(entry), entry["tablet"] is not None) == ("R. Sand", True)


def test_a_typing_mistake_with_the_server_there_leaves_nothing_unsent(tablet: Tablet, shop: Shop):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D", consent_amount="sixty")
    record(page)
    expect(page.locator("[data-errors-for=consent_amount]")).not_to_be_empty()
    expect(page.locator("[data-not-recorded]")).to_have_text(
        "Nothing is recorded yet: mend amount agreed to. All you typed is still here."
    )
    expect(page.locator("[name=customer_name]")).to_have_value("Ida Marwell")
    assert (tablet.header(), shop.entries()) == (0, [])
    key = page.locator("[name=key]").input_value()
    page.locator("[name=consent_amount]").fill("150")
    record(page)
    page.wait_for_url("**/job/?job=*")
    assert [(row["key"], row["rev"]) for row in shop.entries()] == [(key, 1)]
    assert tablet.items() == []
    assert tablet.say_what_is_wrong(shop) == []


def test_an_odd_number_keeps_its_place_until_a_reason_is_given(tablet: Tablet, shop: Shop, photo):
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, volts="123.8")
    page.locator("[name=photo]").set_input_files(photo[0])
    record(page)
    expect(page.locator("[data-not-recorded]")).to_contain_text("Nothing is recorded yet:")
    page.locator("[name=volts_why]").fill("Read twice, leads swapped.")
    record(page)
    page.wait_for_url(lambda url: "/step/" not in url)
    step = shop.entries()[1]
    assert step["fields"]["volts"] == ["123.8"]
    assert [one["sha256"] for one in step["photos"]] == [photo[1]]
    assert tablet.say_what_is_wrong(shop) == []


def test_a_double_tap_is_one_entry(tablet: Tablet, shop: Shop):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    page.locator("button.bar").dblclick()
    page.wait_for_url("**/job/?job=*")
    tablet.wait_until_sent()
    assert len(shop.entries()) == 1
    assert tablet.say_what_is_wrong(shop) == []


def test_ten_taps_while_the_server_is_away_are_one_entry(tablet: Tablet, shop: Shop):
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    for _ in range(10):
        record(page)
    says(page, "Kept on this tablet")
    until(lambda: tablet.header() == 1)
    shop.start()
    tablet.wait_until_sent()
    assert len(shop.entries()) == 1


def test_back_and_the_same_tap_again_is_the_same_entry(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.page.go_back()
    expect(tablet.page.locator("[name=plate]")).to_have_value("KX.4731D")
    says(tablet.page, "On the shop server")
    record(tablet.page)
    tablet.page.wait_for_url(f"**/job/?job={job}")
    assert len(shop.entries()) == 1
    assert tablet.say_what_is_wrong(shop) == []


def test_back_to_a_test_with_its_photo_is_the_same_entry(tablet: Tablet, shop: Shop, photo):
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    page.locator("[name=photo]").set_input_files(photo[0])
    record(page)
    page.wait_for_url(lambda url: "/step/" not in url)
    page.go_back()
    says(page, "On the shop server")
    record(page)
    page.wait_for_url(lambda url: "/step/" not in url)
    assert len(shop.entries()) == 2


@pytest.mark.parametrize(
    ("choice", "corrects_the_first"), [("Correct it", True), ("One more", False)]
)
def test_back_and_other_content_asks_whether_it_corrects(
    tablet: Tablet, shop: Shop, choice: str, corrects_the_first: bool
):
    first = job_taken_in(tablet)
    page = tablet.page
    page.go_back()
    says(page, "On the shop server")
    page.locator("[name=plate]").fill("KX.4732D")
    record(page)
    says(page, "Is this a correction, or one more?")
    assert len(shop.entries()) == 1
    page.get_by_role("button", name=choice).click()
    page.wait_for_url("**/job/?job=*")
    second = shop.entries()[1]
    assert second["corrects"] == (first if corrects_the_first else None)
    assert tablet.say_what_is_wrong(shop) == []


def test_a_link_to_the_same_form_is_a_new_entry(tablet: Tablet, shop: Shop):
    job_taken_in(tablet)
    job_taken_in(tablet, "RV.4736A")
    assert [row["fields"]["plate"] for row in shop.entries()] == [["KX.4731D"], ["RV.4736A"]]


def test_what_is_changed_after_it_may_have_been_sent_goes_as_a_correction(
    tablet: Tablet, shop: Shop
):
    shop.fault("die_after", times=1)
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    shop.wait_until_dead()
    page.locator("[name=phone]").fill("0660 1234567")
    record(page)
    until(lambda: tablet.header() == 2)
    shop.start()
    tablet.wait_until_sent()
    first, second = shop.entries()
    assert second["corrects"] == first["key"]
    assert len(shop.rows("SELECT id FROM jobs_job")) == 1
    assert tablet.say_what_is_wrong(shop) == []


def test_what_is_changed_before_it_was_ever_sent_replaces_it(tablet: Tablet, shop: Shop):
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    page.locator("[name=phone]").fill("0660 1234567")
    record(page)
    expect(page.locator("#kept")).to_contain_text("1 kept here")
    shop.start()
    tablet.wait_until_sent()
    [entry] = shop.entries()
    assert entry["fields"]["phone"] == ["0660 1234567"]
    assert tablet.say_what_is_wrong(shop) == []


def test_the_switch_acts_at_once_and_again(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    for number, code in enumerate(("yes", "no", "yes"), start=2):
        answer(tablet.page, "failing", code)
        until(lambda number=number: len(shop.entries()) == number)  # type: ignore[misc]
        expect(tablet.page.locator(f"[name=failing][value={code}]")).to_be_checked()
    told = [row["fields"]["failing"] for row in shop.entries()[1:] if row["job_key"] == job]
    assert told == [["yes"], ["no"], ["yes"]]


def test_the_switch_turned_again_without_the_server_is_one_more_entry(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    for number, code in enumerate(("yes", "no", "yes"), start=1):
        answer(page, "failing", code)
        until(lambda number=number: len(tablet.items()) == number)  # type: ignore[misc]
    assert {item["rev"] for item in tablet.items()} == {0}
    shop.start()
    tablet.wait_until_sent()
    told = [row["fields"]["failing"] for row in shop.entries()[1:] if row["job_key"] == job]
    assert told == [["yes"], ["no"], ["yes"]]


def test_a_tap_before_the_page_is_whole_is_kept_too(new_tablet: Tablet, shop: Shop):
    new_tablet.sign_in()
    shop.fault("wait", method="GET", path="/static/js/vin", seconds=4)
    page = new_tablet.page
    page.goto("/intake/", wait_until="commit")
    fill_intake(page, "KX.4731D")
    assert page.evaluate("document.readyState") != "complete"
    record(page)
    page.wait_for_url("**/job/?job=*")
    assert [row["tablet"] is not None for row in shop.entries()] == [True]


def test_without_a_pass_the_form_posts_by_itself(new_tablet: Tablet, shop: Shop):
    new_tablet.sign_in()
    new_tablet.context.clear_cookies(name="shopac_tablet")
    take_in(new_tablet.open("/intake/"), "KX.4731D")
    new_tablet.page.wait_for_url("**/job/?job=*")
    assert [row["tablet"] for row in shop.entries()] == [None]


NO_ROOM = """() => {
  IDBObjectStore.prototype.put = () => {
    throw new DOMException("no room", "QuotaExceededError");
  };
}"""


def test_without_room_the_text_stays_in_the_form_and_can_be_sent_as_it_is(
    tablet: Tablet, shop: Shop
):
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    page.evaluate(NO_ROOM)
    record(page)
    says(page, "Not kept: no room on this tablet.")
    assert (tablet.header(), shop.entries()) == (0, [])
    expect(page.locator("[name=plate]")).to_have_value("KX.4731D")
    page.get_by_role("button", name="Send it without keeping it").click()
    page.wait_for_url("**/job/?job=*")
    assert len(shop.entries()) == 1
