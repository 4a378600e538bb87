"""A job and its forms without the server: what this tablet knows of the car."""

import pytest
from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, answer, record
from tests.offline.test_kept import job_taken_in

WAITS = "Worked out when the server answers."

FILL = """() => {
  const box = document.querySelector("form.step [name=low]");
  box.value = "200";
  box.dispatchEvent(new Event("input", { bubbles: true }));
}"""


def opened_loop(tablet: Tablet) -> str:
    """The key of a job whose loop was looked into, as its tablet is told."""
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/debris/?job={job}")
    answer(page, "expansion", "clean")
    record(page)
    page.wait_for_url("**/job/?job=*")
    tablet.wait_for("shopac.store.all('jobs').then((all) => all[0]?.steps.length === 1)")
    return job


def test_readings_typed_without_the_server_are_not_called_unread(tablet: Tablet, shop: Shop):
    job = opened_loop(tablet)
    shop.kill()
    page = tablet.open(f"/step/running_pressures/?job={job}")
    expect(page.locator("#meaning")).to_have_text("Nothing is read yet.")
    page.fill("[name=low]", "200")
    expect(page.locator("#meaning")).to_have_text(WAITS)
    page = tablet.open("/step/running_pressures/")  # of no job: nobody can be asked
    page.evaluate(FILL)
    expect(page.locator("#meaning")).to_have_text(WAITS)
    page = tablet.open(f"/step/running_pressures/?job={job}")
    shop.start()
    page.fill("[name=high]", "1300")
    expect(page.locator("#meaning .finding")).to_be_visible()


@pytest.mark.parametrize("only_board", [False, True])
def test_an_open_loop_is_told_on_the_job_and_on_forms_without_the_server(
    tablet: Tablet, shop: Shop, only_board: bool
):
    job = opened_loop(tablet)
    if only_board:
        tablet.ask(
            "shopac.store.write(['jobs', 'about'], (at) => {"
            " at('jobs').clear(); at('about').delete('jobs_at'); })"
        )
        tablet.open("/")
        tablet.wait_for("shopac.store.all('jobs').then((all) => all[0]?.steps.length === 1)")
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    expect(page.locator("main")).to_contain_text("Must not be run")
    for path in ("oil", "step/debris", "step/running_pressures"):
        page = tablet.open(f"/{path}/?job={job}")
        expect(page.locator("form.step, form.ask").first).to_be_visible()
        expect(page.locator("main [data-instead]")).to_be_hidden()
    expect(page.locator("main")).to_contain_text("Must not be run: the loop is open")
