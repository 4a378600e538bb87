"""A repair told without the server: parts of one opening, what stays, where the old one went."""

from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, answer, record
from tests.offline.test_kept import job_taken_in


def test_parts_that_stay_and_old_parts_are_told_without_the_server(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    page = tablet.open(f"/repair/?job={job}")
    for name, code in (("what", "fitted"), ("part", "compressor"), ("source", "new")):
        answer(page, name, code)
    answer(page, "also", "drier")
    record(page)
    page.wait_for_url("**/job/?job=*")
    tablet.wait_for("shopac.store.all('jobs').then((all) => all[0]?.changes?.length === 1)")
    shop.kill()
    page = tablet.open(f"/loop_parts/?job={job}")
    drier = page.locator("[data-loop-part=drier] [data-now]")
    expect(drier).to_have_text("So far: Replaced, new")
    expect(page.locator("[data-loop-part=expansion_device_rear]")).to_be_hidden()
    answer(page, "condenser", "clean")
    record(page)
    expect(page.locator("[data-said]")).to_contain_text("Kept on this tablet")
    page = tablet.open(f"/taken_out/?job={job}")
    page.get_by_role("link", name="Compressor (car state 1)").click()
    expect(page.locator("[data-change]")).to_have_text("Compressor (car state 1)")
    answer(page, "went", "core")
    page.locator("[name=core]").fill("45.50")
    record(page)
    expect(page.locator("[data-said]")).to_contain_text("Kept on this tablet")
    told = {item["kind"]: item["fields"] for item in tablet.items()}
    assert told["loop_parts"]["condenser"] == ["clean"]
    assert "compressor" not in told["loop_parts"]
    assert told["taken_out"]["core"] == ["45.50"]
    assert len(told["taken_out"]["change"][0]) == 36


def test_what_was_fitted_without_the_server_is_listed_and_what_comes_first_does_not_pass_for_all(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    tablet.kept_ahead()
    tablet.open(f"/job/?job={job}")
    tablet.wait_for("shopac.store.all('jobs').then((all) => Boolean(all[0]?.gates?.length))")
    shop.kill()
    page = tablet.open(f"/repair/?job={job}")
    for name, code in (("what", "fitted"), ("part", "compressor"), ("source", "new")):
        answer(page, name, code)
    record(page)
    expect(page.locator("[data-said]")).to_contain_text("Kept on this tablet")
    page = tablet.open(f"/taken_out/?job={job}")
    expect(page.locator("[data-none]")).to_be_hidden()
    page.get_by_role("link", name="kept on this tablet").click()
    answer(page, "went", "core")
    record(page)
    expect(page.locator("[data-said]")).to_contain_text("Kept on this tablet")
    (part, old) = [item for item in tablet.items() if item["kind"] in ("change", "taken_out")]
    assert old["fields"]["change"] == [part["key"]]
    page = tablet.open(f"/recovery/?job={job}")
    first = page.locator("[data-bars]")
    expect(first).to_contain_text("Kept on this tablet since, and not in this: Repair")
