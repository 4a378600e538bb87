"""What waits for a person: shown, kept, and in nobody's way but its own car's."""

import json

from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_coil_test, fill_intake, record, says, take_in, until
from tests.offline.test_kept import job_taken_in


def make_desk(shop: Shop) -> None:
    """The person of this tablet works at the desk from now on: test steps are not theirs."""
    shop.write("UPDATE jobs_person SET role = 'desk'")


def refused_step(tablet: Tablet, shop: Shop) -> str:
    """A step that the server turns away for its author's role; returns the job's key."""
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page)
    make_desk(shop)
    record(page)
    says(page, "Refused:")
    return job


def test_a_refused_entry_says_why_and_stays_as_typed(tablet: Tablet, shop: Shop):
    refused_step(tablet, shop)
    says(tablet.page, "Front desk cannot enter this.")
    says(tablet.page, "Kept as you typed it.")
    expect(tablet.page.locator("#kept")).to_contain_text("1 needs you")
    page = tablet.open("/unsent/")
    expect(page.locator(".kept-item.needs [data-what]")).to_have_text(
        "KX.4731D, Power straight at the coil"
    )
    assert tablet.say_what_is_wrong(shop) == []


def test_a_refused_entry_stops_its_own_car_only(tablet: Tablet, shop: Shop):
    job = refused_step(tablet, shop)
    page = tablet.open(f"/job/?job={job}")
    page.locator("label:has([name=failing][value=yes])").click()
    says(page, "Kept on this tablet")
    take_in(tablet.open("/intake/"), "RV.4736A")
    tablet.page.wait_for_url("**/job/?job=*")
    kinds = [(row["kind"], row["fields"].get("plate")) for row in shop.entries()]
    assert kinds == [("intake", ["KX.4731D"]), ("intake", ["RV.4736A"])]
    until(lambda: tablet.header() == 2)
    assert tablet.say_what_is_wrong(shop) == []


def test_discarding_takes_a_reason_and_is_logged_with_what_was_typed(tablet: Tablet, shop: Shop):
    job = refused_step(tablet, shop)
    [item] = tablet.items()
    page = tablet.open("/unsent/")
    page.get_by_role("button", name="Discard: say why").click()
    page.get_by_role("button", name="Discard it").click()
    expect(page.locator("[data-no-reason]")).to_have_text("Say in a few words why it is discarded.")
    assert len(tablet.items()) == 1
    page.locator("[name=reason]").fill("Not mine to enter; R. Sand does it.")
    page.get_by_role("button", name="Discard it").click()
    tablet.wait_until_sent()
    entry = shop.entries()[-1]
    assert (entry["kind"], entry["job_key"]) == ("discard", job)
    assert entry["fields"]["reason"] == ["Not mine to enter; R. Sand does it."]
    assert entry["fields"]["discarded"] == [item["key"]]
    assert json.loads(entry["fields"]["content"][0])["fields"] == item["fields"]
    expect(page.locator("[data-nothing]")).to_be_visible()
    assert tablet.say_what_is_wrong(shop) == []


def test_an_entry_can_be_looked_at_and_saved_with_its_photo(tablet: Tablet, shop: Shop, photo):
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, seen="<b>hissing</b>")
    page.locator("[name=photo]").set_input_files(photo[0])
    shop.kill()
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open("/unsent/")
    page.get_by_role("button", name="Look").click()
    expect(page.locator("[data-looked]")).to_contain_text("<b>hissing</b>")
    with page.expect_download() as coming:
        page.get_by_role("button", name="Save to a file").click()
    [told] = json.loads(coming.value.path().read_text())["entries"]
    assert told["fields"]["volts"] == ["12.38"]
    assert [(one["sha256"], len(one["base64"]) > 4_000_000) for one in told["photos"]] == [
        (photo[1], True)
    ]
    assert "pass" not in told
    assert tablet.items()[0]["who"]["pass"] not in json.dumps({**told, "photos": []})


def returned_and_left(tablet: Tablet, shop: Shop, photo) -> str:
    """A step with what is no number, while nobody looks at its form any more."""
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, volts="12..38")
    page.locator("[name=photo]").set_input_files(photo[0])
    shop.kill()
    record(page)
    says(page, "Kept on this tablet")
    tablet.open("/unsent/")
    shop.start()
    until(lambda: tablet.items()[0]["state"] == "returned")
    return job


def test_an_entry_that_went_back_needs_somebody_when_its_form_is_gone(
    tablet: Tablet, shop: Shop, photo
):
    returned_and_left(tablet, shop, photo)
    expect(tablet.page.locator("#kept")).to_contain_text("1 needs you")
    expect(tablet.page.locator("[data-state]")).to_contain_text("Not recorded:")
    assert tablet.say_what_is_wrong(shop) == []


def test_its_form_opens_again_as_typed_and_takes_its_place(tablet: Tablet, shop: Shop, photo):
    returned_and_left(tablet, shop, photo)
    [item] = tablet.items()
    tablet.page.get_by_role("link", name="Open the form again").click()
    page = tablet.page
    expect(page.locator("[name=volts]")).to_have_value("12..38")
    expect(page.locator("[data-not-recorded]")).to_contain_text("Nothing is recorded yet:")
    until(lambda: tablet.header() == 0)
    page.locator("[name=volts]").fill("12.38")
    record(page)
    page.wait_for_url(lambda url: "/step/" not in url)
    step = shop.entries()[1]
    assert (step["key"], step["rev"]) == (item["key"], 1)
    assert [one["sha256"] for one in step["photos"]] == [photo[1]]
    assert tablet.say_what_is_wrong(shop) == []


def test_what_was_mended_in_a_form_that_came_back_is_not_asked_for_again(
    tablet: Tablet, shop: Shop, photo
):
    returned_and_left(tablet, shop, photo)
    tablet.page.get_by_role("link", name="Open the form again").click()
    page = tablet.page
    expect(page.locator("[data-not-recorded]")).to_contain_text("Nothing is recorded yet:")
    page.locator("[name=volts]").fill("12.38")
    expect(page.locator("[data-not-recorded]")).to_be_empty()
    page.locator("[name=amps]").focus()
    expect(page.locator("[data-errors-for=volts]")).to_be_empty()
    tablet.wait_for("shopac.store.all('drafts').then((all) => all[0]?.fields.volts[0] === '12.38')")
    page.reload()
    expect(page.locator("[data-back]")).to_contain_text("What you typed here before")
    expect(page.locator("[data-back] button")).to_have_count(0)  # thrown away for a reason only
    expect(page.locator("[data-not-recorded]")).to_be_empty()
    expect(page.locator("[data-errors-for=volts]")).to_be_empty()
    record(page)
    page.wait_for_url(lambda url: "/step/" not in url)
    assert tablet.say_what_is_wrong(shop) == []


def test_a_key_the_server_holds_for_something_else_is_refused_and_both_are_kept(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    shop.write("UPDATE jobs_entry SET fingerprint = 'another'")
    tablet.page.go_back()
    says(tablet.page, "On the shop server")
    tablet.page.evaluate("shopac.store.write(['delivered'], (at) => at('delivered').clear())")
    record(tablet.page)
    says(tablet.page, "Refused:")
    assert [row["key"] for row in shop.entries()] == [job]
    assert len(shop.rows("SELECT id FROM jobs_reused")) == 1
    until(lambda: tablet.header() == 1)


def test_try_to_send_now_does_not_wait(tablet: Tablet, shop: Shop):
    page = tablet.open("/intake/")
    shop.fault("fail", status="500 Internal Server Error")
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")
    until(lambda: tablet.items()[0]["next"] > 0)
    page = tablet.open("/unsent/")
    page.evaluate(
        "shopac.store.write(['items'], async (at) => {"
        " const [item] = await shopac.store.value(at('items').getAll());"
        " at('items').put({ ...item, next: Date.now() + 50000 }); })"
    )
    shop.no_faults()
    page.get_by_role("button", name="Try to send now").click()
    tablet.wait_until_sent(5)
    expect(page.locator("[data-delivered]")).to_contain_text("On the shop server")


def test_a_clock_that_was_set_back_does_not_stop_sending(tablet: Tablet, shop: Shop):
    page = tablet.open("/intake/")
    shop.fault("fail", status="500 Internal Server Error")
    fill_intake(page, "KX.4731D")
    record(page)
    until(lambda: bool(tablet.items()) and tablet.items()[0]["next"] > 0)
    page.evaluate(
        "shopac.store.write(['items'], async (at) => {"
        " const [item] = await shopac.store.value(at('items').getAll());"
        " at('items').put({ ...item, next: Date.now() + 3 * 86400000 }); })"
    )
    shop.no_faults()
    tablet.open("/unsent/")
    tablet.wait_until_sent(10)
    assert len(shop.entries()) == 1


def test_a_kept_page_of_a_test_says_beforehand_that_it_is_not_the_desks(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    said = tablet.page.locator("[data-not-yours]")
    tablet.open(f"/step/coil_power/?job={job}")
    expect(said).to_be_hidden()
    make_desk(shop)
    tablet.open("/unsent/")
    tablet.wait_for("shopac.store.get('about', 'who').then((who) => who.person.role === 'desk')")
    shop.kill()
    tablet.open(f"/step/coil_power/?job={job}")
    expect(said).to_contain_text("Tests are the technicians’ work")
    tablet.open(f"/repair/?job={job}")
    expect(said).to_contain_text("the technicians’ work")
