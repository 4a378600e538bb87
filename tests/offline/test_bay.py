"""A car from its intake on without the server: what is recorded shows at once and arrives whole."""

from playwright.sync_api import Page, expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, answer, fill_coil_test, fill_intake, record, says
from tests.offline.test_kept import job_taken_in
from tests.offline.test_loop_work import taken_out


def recorded(page: Page) -> None:
    """Tap the bar and wait until it is kept."""
    record(page)
    says(page, "Kept on this tablet")


def to_fill(tablet: Tablet, page: str, job: str) -> Page:
    """A form of that job."""
    return tablet.open(f"/{page}/?job={job}")


def test_a_new_cars_first_hour_without_the_server_shows_on_its_job_and_arrives_whole(
    tablet: Tablet, shop: Shop, photo
):
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "ZZ.7711Q")
    recorded(page)
    page.get_by_role("link", name="Go on with this car").click()
    job = page.url.split("job=")[1]
    expect(page.locator("[data-not-yet]")).to_contain_text("Identify the gas before the shop’s own")
    page = to_fill(tablet, "conditions", job)
    page.locator("[name=ambient]").fill("31")
    recorded(page)
    page = to_fill(tablet, "step/running_pressures", job)
    expect(page.locator("[name=ambient]")).to_have_value("31")
    expect(page.locator("[data-under]")).to_contain_text("Begins with what was told at")
    page = to_fill(tablet, "step/coil_power", job)
    fill_coil_test(page, volts="60")  # nobody is there to be asked when it arrives
    page.locator("[name=photo]").set_input_files(photo[0])
    recorded(page)
    page = to_fill(tablet, "recovery", job)
    taken_out(page)
    recorded(page)
    page = to_fill(tablet, "waiting", job)
    answer(page, "what", "vacuum")
    answer(page, "minutes", "'45'")
    recorded(page)
    page = to_fill(tablet, "decision", job)
    answer(page, "plan", "other")
    page.locator("[name=plan_words]").fill("A clutch alone")
    answer(page, "decided_by", "customer")
    answer(page, "reasons", "shown")
    recorded(page)
    page = to_fill(tablet, "job", job)
    done = page.locator("[data-done]")
    for title in ("Conditions", "Power straight at the coil, 1 photo", "Recovery", "Decision"):
        expect(done).to_contain_text(f"{title}, kept on this tablet")
    expect(done).to_contain_text("Recovered: 410\u00a0g")
    expect(page.locator("[data-decision-said]")).to_contain_text("A clutch alone")
    page = to_fill(tablet, "verdict", job)
    since = page.locator("[data-verdict-since]")
    expect(since).to_contain_text("Power straight at the coil")
    expect(since).to_contain_text("Recovery")
    page = tablet.open("/board/")
    expect(page.locator("[data-group=runs]")).to_contain_text("Vacuum, 0 of 45 minutes")
    shop.start()
    tablet.wait_until_sent()
    assert tablet.say_what_is_wrong(shop) == []
    assert len(shop.entries()) == 6
    assert len(shop.rows("select * from diagnostics_step where marks != '[]'")) == 1


def test_find_and_test_steps_open_something_useful_without_the_server(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    page = tablet.open("/find/")
    expect(page.locator("[data-cars]")).to_contain_text("KX.4731D")
    page.locator("[name=words]").fill("z9")
    expect(page.locator("[data-cars] li")).to_have_count(0)
    page = tablet.open(f"/steps/?job={job}")
    expect(page.locator("h1.plate")).to_have_text("KX.4731D")
    page = tablet.open(f"/tag/?job={job}")
    answer(page, "reasons", "loop_open")
    page.get_by_role("button", name="Make this tag").click()
    says(page, "Kept on this tablet")


def test_what_this_tablet_sent_shows_until_it_is_told_whatever_its_clock_says(
    tablet: Tablet, shop: Shop
):
    tablet.ask("shopac.store.put('about', 3 * 24 * 3600 * 1000, 'clock_offset')")
    told = {"key": "k", "job": "j", "kind": "step", "sequence": 1, "at": 0}
    put = "(one) => shopac.store.put('delivered', { ...one, at: Date.now() })"
    tablet.page.evaluate(put, told)
    shown = (
        "shopac.enteredHere('j', new Date(Date.now() + 3 * 24 * 3600 * 1000 - 5000).toISOString())"
    )
    assert len(tablet.ask(shown)) == 1
