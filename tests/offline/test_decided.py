"""Options and decision without the server: the ways as last told, without prices, and a choice."""

import json

from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, answer, fill_coil_test, record, says, until
from tests.offline.test_kept import job_taken_in


def priced(tablet: Tablet) -> str:
    """A car tested and priced with the server there; returns the job's key."""
    job = job_taken_in(tablet)
    tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(tablet.page)
    answer(tablet.page, "holds", "no")
    answer(tablet.page, "pushed", "yes")
    record(tablet.page)
    tablet.wait_until_sent()
    page = tablet.open(f"/options/?job={job}")
    page.get_by_text("Parts", exact=False).locator("visible=true").first.wait_for()
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true })")
    page.locator("[name=part_clutch]").fill("286")
    record(page)
    tablet.wait_until_sent()
    tablet.kept_ahead()
    tablet.open(f"/job/?job={job}")  # the job that is looked at is told anew
    tablet.wait_for("shopac.store.all('jobs').then((all) => Boolean(all[0]?.options))")
    return job


def test_the_ways_are_shown_as_last_told_and_a_choice_arrives_once(tablet: Tablet, shop: Shop):
    job = priced(tablet)
    shop.kill()
    page = tablet.open(f"/options/?job={job}")
    expect(page.locator("[data-ways]")).to_contain_text("Clutch parts, in the car")
    expect(page.locator("[data-ways]")).to_contain_text("as of")
    expect(page.locator("main")).not_to_contain_text("286")
    expect(page.locator("[data-asked=hours_clutch_in_car]")).to_have_count(1)
    expect(page.locator("[data-asked=hours_evaporator]")).to_be_hidden()
    page.locator("[data-ways] a", has_text="Clutch parts, in the car").first.click()
    expect(page.locator("[name=plan][value=clutch_in_car]")).to_be_checked()
    answer(page, "decided_by", "customer")
    answer(page, "reasons", "price")
    record(page)
    says(page, "Kept on this tablet")
    until(lambda: tablet.header() == 1)
    shop.start()
    tablet.wait_until_sent()
    rows = shop.rows("select plan, offered from diagnostics_decision")
    assert [row["plan"] for row in rows] == ["clutch_in_car"]
    offered = json.loads(rows[0]["offered"])
    assert [one["code"] for one in offered if one["chosen"]] == ["clutch_in_car"]
    assert tablet.say_what_is_wrong(shop) == []


def test_prices_typed_without_the_server_arrive_and_count(tablet: Tablet, shop: Shop):
    job = priced(tablet)
    shop.kill()
    page = tablet.open(f"/options/?job={job}")
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true })")
    page.locator("[name=hours_clutch_in_car]").fill("1,5")
    record(page)
    says(page, "Kept on this tablet")
    shop.start()
    tablet.wait_until_sent()
    rows = shop.rows('select "values" from diagnostics_pricestyped order by id')
    assert [json.loads(row["values"]) for row in rows] == [
        {"part_clutch": 28600},
        {"hours_clutch_in_car": 90},
    ]
    assert tablet.say_what_is_wrong(shop) == []
