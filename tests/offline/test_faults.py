"""Every accident between tap and answer: once, whole, and never announced early."""

from typing import Any

import pytest
from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import (
    Tablet,
    fill_coil_test,
    fill_intake,
    open_coil_test,
    picture,
    record,
    says,
    take_in,
    until,
)
from tests.offline.test_kept import job_taken_in
from tests.proxy import Line

# Statements that write within the transaction of an intake: entry, customer, car, system, job,
# car state, consent and the entry's result; more would be waited for in vain.
STATEMENTS = 8
ANSWERS: dict[str, dict[str, Any]] = {
    "the answer is cut in half": {"do": "cut_answer"},
    "taken, then 500": {"do": "lose_answer", "status": "500 Internal Server Error"},
    "taken, then another 200": {"do": "lose_answer", "status": "200 OK"},
    "taken, then 422 about nothing": {"do": "lose_answer", "status": "422 Unprocessable Content"},
    "500": {"do": "fail", "status": "500 Internal Server Error"},
    "503": {"do": "fail", "status": "503 Service Unavailable"},
    "429": {"do": "fail", "status": "429 Too Many Requests"},
    "a captive portal's 200": {"do": "fail", "status": "200 OK", "body": "<h1>Free Wi-Fi</h1>"},
    "a 200 that is JSON": {"do": "fail", "status": "200 OK", "body": '{"state": "accepted"}'},
    "a redirect to the sign-in": {
        "do": "fail",
        "status": "302 Found",
        "headers": {"Location": "/sign_in/?next=/entries/"},
    },
    "a bare 403": {"do": "fail", "status": "403 Forbidden"},
    "a bare 409": {"do": "fail", "status": "409 Conflict"},
    "a bare 413": {"do": "fail", "status": "413 Content Too Large"},
}


def test_the_server_is_killed_before_it_looks_at_the_entry(tablet: Tablet, shop: Shop):
    shop.fault("die_before", times=1)
    take_in(tablet.open("/intake/"), "KX.4731D")
    says(tablet.page, "Kept on this tablet")
    shop.wait_until_dead()
    assert shop.entries() == []
    shop.start()
    tablet.wait_until_sent()
    assert len(shop.entries()) == 1
    assert tablet.say_what_is_wrong(shop) == []


@pytest.mark.parametrize("statement", range(1, STATEMENTS + 1))
def test_the_server_is_killed_within_the_transaction(tablet: Tablet, shop: Shop, statement: int):
    shop.fault("die_within", times=1, statement=statement)
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D", consent_amount="150")
    record(page)
    says(page, "Kept on this tablet")
    shop.wait_until_dead()
    assert (shop.entries(), shop.rows("SELECT id FROM jobs_job")) == ([], [])
    shop.start()
    tablet.wait_until_sent()
    assert len(shop.entries()) == 1
    assert tablet.say_what_is_wrong(shop) == []


def test_the_server_is_killed_after_the_commit_and_before_the_answer(tablet: Tablet, shop: Shop):
    shop.fault("die_after", times=1)
    take_in(tablet.open("/intake/"), "KX.4731D")
    says(tablet.page, "Kept on this tablet")
    shop.wait_until_dead()
    assert (len(shop.entries()), tablet.header()) == (1, 1)
    shop.start()
    tablet.wait_until_sent()
    assert len(shop.entries()) == 1
    assert tablet.say_what_is_wrong(shop) == []


@pytest.mark.parametrize("name", ANSWERS)
def test_an_answer_that_is_none_settles_nothing(tablet: Tablet, shop: Shop, name: str):
    page = tablet.open("/intake/")
    shop.fault(**ANSWERS[name])
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    until(lambda: tablet.items()[0]["attempts"] > 0 and tablet.items()[0]["next"] > 0)
    until(lambda: tablet.header() == 1)
    shop.no_faults()
    tablet.wait_until_sent()
    assert len(shop.entries()) == 1
    assert tablet.say_what_is_wrong(shop) == []


@pytest.mark.parametrize(
    "broken",
    [
        Line(cut_up=1),
        Line(cut_up=700),
        Line(cut_up=150_000),
        Line(cut_down=1),
        Line(cut_down=60),
    ],
    ids=str,
)
def test_a_line_that_breaks_leaves_the_photo_whole(
    prepared, playwright, shop: Shop, line, tmp_path, broken: Line
):
    tablet = Tablet(playwright, shop, tmp_path / "profile", line.port)
    tablet.begin()
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    path, digest = picture(tmp_path, "small.jpg", 300_000)
    page.locator("[name=photo]").set_input_files(path)
    page.wait_for_timeout(300)
    line.become(broken)
    record(page)
    says(page, "Kept on this tablet")
    page.wait_for_timeout(1500)
    line.become(Line())
    tablet.wait_until_sent()
    assert [one["sha256"] for one in shop.entries()[1]["photos"]] == [digest]
    assert tablet.say_what_is_wrong(shop) == []
    tablet.close()


def test_a_line_that_takes_everything_and_says_nothing(
    prepared, playwright, shop: Shop, line, tmp_path
):
    tablet = Tablet(playwright, shop, tmp_path / "profile", line.port)
    tablet.begin()
    line.become(Line(silent=True))
    take_in(tablet.open("/intake/"), "KX.4731D")
    says(tablet.page, "Kept on this tablet")
    line.become(Line())
    tablet.wait_until_sent(40)
    assert len(shop.entries()) == 1
    assert tablet.say_what_is_wrong(shop) == []
    tablet.close()


def test_text_of_other_cars_does_not_wait_behind_a_slow_photo(
    prepared, playwright, shop: Shop, line, tmp_path, photo
):
    tablet = Tablet(playwright, shop, tmp_path / "profile", line.port)
    tablet.begin()
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    page.locator("[name=photo]").set_input_files(photo[0])
    line.become(Line(rate=35_000))
    record(page)
    says(page, "Kept on this tablet")
    other = tablet.new_tab("/intake/")
    take_in(other, "RV.4736A")
    until(lambda: len(shop.entries()) == 2, 15)
    assert [row["kind"] for row in shop.entries()] == ["intake", "intake"]
    other.close()
    line.become(Line())
    tablet.wait_until_sent(60)
    assert tablet.say_what_is_wrong(shop) == []
    tablet.close()


def test_a_tab_closed_in_the_middle_of_the_tap_leaves_all_or_nothing(
    tablet: Tablet, shop: Shop, photo
):
    job = job_taken_in(tablet)
    for wait in (0, 5, 10, 20, 40):
        page = tablet.new_tab(f"/step/coil_power/?job={job}")
        fill_coil_test(page, seen=f"closed after {wait} ms")
        page.locator("[name=photo]").set_input_files(photo[0])
        page.wait_for_timeout(150)
        page.evaluate("document.querySelector('button.bar').click()")
        page.wait_for_timeout(wait)
        page.close()
    tablet.wait_until_sent(60)
    for entry in shop.entries()[1:]:
        assert [one["sha256"] for one in entry["photos"]] == [photo[1]]
    assert tablet.say_what_is_wrong(shop) == []


def test_a_tab_closed_while_it_sends_leaves_it_to_the_next(tablet: Tablet, shop: Shop):
    shop.fault("wait", seconds=3, times=1)
    page = tablet.new_tab("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    until(lambda: shop.faults_left == 0)
    page.close()
    tablet.open("/unsent/")
    tablet.wait_until_sent()
    assert len(shop.entries()) == 1
    assert tablet.say_what_is_wrong(shop) == []


def test_the_browser_is_killed_after_it_said_kept(tablet: Tablet, shop: Shop, photo):
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    page.get_by_role("link", name="Go on with this car").click()
    open_coil_test(page)
    fill_coil_test(page)
    page.locator("[name=photo]").set_input_files(photo[0])
    record(page)
    says(page, "Kept on this tablet")
    tablet.kill()
    tablet.start()
    tablet.sign_in()  # cookies this young are not on the browser's disk yet
    shop.start()
    tablet.open("/unsent/")
    tablet.wait_until_sent()
    assert [one["sha256"] for one in shop.entries()[1]["photos"]] == [photo[1]]
    assert tablet.say_what_is_wrong(shop) == []


WHOLE = """async () => {
  const items = await shopac.store.all("items");
  const photos = items.flatMap((item) => item.photos.map((photo) => [item.key, photo.sha256]));
  return Promise.all(photos.map(async (name) => {
    const bytes = await shopac.store.get("photos", name);
    return Boolean(bytes) && (await shopac.sha256(bytes)) === name[1];
  }));
}"""


@pytest.mark.parametrize("wait", [0, 8, 16, 30, 50])
def test_the_browser_is_killed_around_the_moment_of_keeping(
    tablet: Tablet, shop: Shop, photo, wait: int
):
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    page.locator("[name=photo]").set_input_files(photo[0])
    page.wait_for_timeout(300)
    shop.kill()
    page.evaluate("document.querySelector('button.bar').click()")
    page.wait_for_timeout(wait)
    tablet.kill()
    tablet.start()
    tablet.sign_in()
    shop.start()
    tablet.open("/unsent/")
    assert all(tablet.ask(WHOLE))
    tablet.wait_until_sent()
    assert len(shop.entries()) <= 2
    assert tablet.say_what_is_wrong(shop) == []


def test_two_tabs_send_each_entry_once(tablet: Tablet, shop: Shop):
    shop.kill()
    tabs = [tablet.page, tablet.new_tab("/intake/")]
    for number, page in enumerate(tabs):
        page.goto("/intake/")
        take_in(page, f"KX.473{number}D")
        says(page, "Kept on this tablet")
    shop.start()
    tablet.wait_until_sent()
    assert len(shop.entries()) == 2
    assert tablet.say_what_is_wrong(shop) == []


def test_a_line_that_comes_and_goes_loses_nothing(prepared, playwright, shop: Shop, line, tmp_path):
    tablet = Tablet(playwright, shop, tmp_path / "profile", line.port)
    tablet.begin()
    for number in range(8):
        page = tablet.open("/intake/")
        line.become(Line(refused=number % 2 == 0))
        fill_intake(page, f"KX.473{number}D")
        record(page)
        page.wait_for_timeout(150)
        line.become(Line(cut_down=40))
        page.wait_for_timeout(150)
        line.become(Line())
        until(lambda page=page: "/job/" in page.url or page.locator("[data-said]").count() > 0)  # type: ignore[misc]
    tablet.open("/unsent/")
    tablet.wait_until_sent(60)
    expect(tablet.page.locator("#kept")).to_contain_text("Last entry sent")
    assert len(shop.entries()) == 8
    assert tablet.say_what_is_wrong(shop) == []
    tablet.close()
