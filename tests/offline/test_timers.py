"""Timers are times of entries: the same after reload, on another tablet, and without the server."""

import re
from pathlib import Path

from playwright.sync_api import Page, Playwright, expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, answer, record, says
from tests.offline.test_kept import job_taken_in

LEFT = re.compile(r"until \d\d:\d\d, 4[45] minutes left")


def start_vacuum(tablet: Tablet, job: str) -> Page:
    """Two taps and the bar."""
    page = tablet.open(f"/waiting/?job={job}")
    answer(page, "what", "vacuum")
    answer(page, "minutes", "'45'")
    record(page)
    return page


def timer(page: Page):
    return page.locator("[data-waits] [data-timer=left]")


def until_words(page: Page) -> str:
    """The end of the timer as the page says it: until 15:20."""
    expect(timer(page)).to_have_text(LEFT)
    return (timer(page).text_content() or "").split(",")[0]


def test_a_timer_is_the_same_after_reload_and_on_a_second_tablet(
    tablet: Tablet, shop: Shop, playwright: Playwright, tmp_path: Path
):
    job = job_taken_in(tablet)
    page = start_vacuum(tablet, job)
    page.wait_for_url("**/job/?job=*")
    first = until_words(page)
    page.reload()
    assert until_words(page) == first
    second = Tablet(playwright, shop, tmp_path / "second", shop.port)
    second.start()
    try:
        second.sign_in()
        assert until_words(second.open(f"/job/?job={job}")) == first
        assert second.seen.trouble == []
    finally:
        second.close()
    assert tablet.say_what_is_wrong(shop) == []


def test_when_it_is_over_the_words_and_the_title_change_by_themselves(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    start_vacuum(tablet, job).wait_for_url("**/job/?job=*")
    shop.write("UPDATE jobs_waiting SET until = strftime('%Y-%m-%d %H:%M:%f', 'now', '+8 seconds')")
    page = tablet.open(f"/waiting/?job={job}")  # the job’s page is kept for a minute
    expect(timer(page)).to_contain_text("less than a minute left")
    page.get_by_role("button", name="Sound when a timer is over").click()
    expect(timer(page)).to_have_text(re.compile(r"\d+ minutes are up: read the vacuum"))
    expect(page.locator("[data-timer-said]")).to_have_text("Vacuum: its minutes are up.")
    assert page.title().startswith("Over: ")
    assert tablet.seen.trouble == []


def test_one_started_without_the_server_runs_and_is_ended_there_too(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    page = start_vacuum(tablet, job)
    says(page, "Kept on this tablet")
    page = tablet.open(f"/job/?job={job}")
    until_words(page)
    page.get_by_role("button", name="Vacuum: no longer").click()
    expect(page.locator("[data-waits-none]")).to_be_visible()
    shop.start()
    tablet.wait_until_sent()
    [row] = shop.rows("SELECT ended_by_id FROM jobs_waiting")
    assert row["ended_by_id"]
    assert tablet.say_what_is_wrong(shop) == []


def test_what_is_told_without_the_server_has_the_words_of_the_server(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    shop.kill()
    for what, minutes in (("timer", "'45'"), ("pause", ""), ("person", "")):
        page = tablet.open(f"/waiting/?job={job}")
        answer(page, "what", what)
        if minutes:
            answer(page, "minutes", minutes)
        if what == "person":
            page.fill("[name=words]", "prove it dead")
        record(page)
        says(page, "Kept on this tablet")
    page = tablet.open(f"/job/?job={job}")
    names = ["Own timer", "Break", "Someone: prove it dead"]
    expect(page.locator("[data-wait] .name")).to_have_text(names)
    expect(timer(page).nth(1)).to_have_text(re.compile(r"until \d\d:\d\d, (29|30) minutes left"))
    shop.start()
    tablet.wait_until_sent()
    page = tablet.open(f"/job/?job={job}")
    expect(page.locator("[data-wait] .name")).to_have_text(names[::-1])  # by when it is over
    assert tablet.say_what_is_wrong(shop) == []


def test_the_board_without_the_server_says_what_a_car_waits_for_as_the_server_does(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    place = tablet.open(f"/place/?job={job}")
    place.fill("[name=bay_words]", "2")
    record(place)
    place.wait_for_url("**/job/?job=*")
    page = tablet.open(f"/waiting/?job={job}")
    answer(page, "what", "yes")
    record(page)
    page.wait_for_url("**/job/?job=*")
    told = "shopac.store.all('jobs').then((all) => all.some((one) => one.waiting.length))"
    tablet.wait_for(told)
    tablet.wait_for("caches.open('pages').then((all) => all.match('/board/?kept')).then(Boolean)")
    shop.kill()
    row = tablet.open("/").locator("[data-group=waits] .row")
    expect(row.locator(".board-word")).to_have_text("asked")
    expect(row.locator(".board-what")).to_have_text("Customer, yes or no")
    expect(row.locator(".board-lines")).to_contain_text("bay 2")


def test_the_board_without_the_server_says_next_what_the_job_says(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    tablet.wait_for("caches.open('pages').then((all) => all.match('/board/?kept')).then(Boolean)")
    shop.kill()
    page = tablet.open(f"/step/complaint_seen/?job={job}")
    page.fill("[name=seen]", "Warm air after ten minutes.")
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open(f"/job/?job={job}")
    expect(page.locator("[data-done]")).to_contain_text("Complaint seen")
    bar = page.locator("[data-next]:visible")
    expect(bar).to_have_count(1)
    title = (bar.inner_text()).splitlines()[0].strip()
    assert "Complaint seen" not in title
    row = tablet.open("/").locator("[data-group=now] .row")
    expect(row.locator(".board-what")).to_contain_text(title[:12], ignore_case=True)
    shop.start()
    tablet.wait_until_sent()
    assert tablet.say_what_is_wrong(shop) == []


def test_the_board_without_the_server_shows_the_cars_kept_here_and_of_when_that_is(
    tablet: Tablet, shop: Shop
):
    runs = job_taken_in(tablet)
    start_vacuum(tablet, runs).wait_for_url("**/job/?job=*")
    told = "shopac.store.all('jobs').then((all) => all.some((one) => one.waiting.length))"
    tablet.wait_for(told)
    job_taken_in(tablet, "PW.5504K")
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 2)")
    tablet.wait_for("caches.open('pages').then((all) => all.match('/board/?kept')).then(Boolean)")
    shop.kill()
    page = tablet.open("/")
    running, free = page.locator("[data-group=runs]"), page.locator("[data-group=now]")
    expect(running.locator("a")).to_have_text(["KX.4731D"])
    expect(running).to_contain_text("Vacuum, 0 of 45 minutes")
    expect(free.locator("a")).to_have_text(["PW.5504K"])
    expect(free).to_contain_text(re.compile(r"Next: .+, \d+ minutes"))
    expect(page.locator("[data-as-of]")).to_contain_text("kept on this tablet")
    running.locator("a").click()
    expect(page.locator("h1")).to_have_text("KX.4731D")
    shop.start()
    tablet.open("/board/")
    expect(page.locator("[data-board-kept]")).to_have_count(0)
    assert tablet.say_what_is_wrong(shop) == []
