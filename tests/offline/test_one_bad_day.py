"""One shop, one tablet, one accident after another, without a clean start in between.

Numbers are those of the table in DEVELOPERS.md ("Faults"). Each test takes cars of its own, and
ends by holding all that this tablet ever called kept against the server.
"""

import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, Playwright, expect

from tests.offline.shop import Prepared, Shop
from tests.offline.tablet import (
    Tablet,
    answer,
    fill_coil_test,
    fill_intake,
    record,
    says,
    take_in,
    until,
)
from tests.offline.test_kept import job_taken_in
from tests.pictures import jpeg

# The switch of a job says the same again on purpose.
SAME_AGAIN = "twice on the server: ('failing_now'"


@dataclass
class Day:
    """The shop, its tablet, and plates that nobody had yet."""

    shop: Shop
    tablet: Tablet
    cars: int = 0

    def plate(self) -> str:
        self.cars += 1
        return f"DY.{5100 + self.cars}K"

    def entries_of(self, job: str) -> list[str]:
        return [row["kind"] for row in self.shop.entries() if row["job_key"] == job]

    def holds(self) -> None:
        """Everything arrives, and no promise is broken."""
        self.shop.no_faults()
        self.tablet.open("/unsent/")
        self.tablet.wait_until_sent()
        wrong = self.tablet.say_what_is_wrong(self.shop)
        assert [one for one in wrong if not one.startswith(SAME_AGAIN)] == []


@pytest.fixture(scope="module")
def day(
    prepared: Prepared, playwright: Playwright, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Day]:
    folder = tmp_path_factory.mktemp("day")
    shop = Shop(prepared, folder / "data")
    shop.start()
    tablet = Tablet(playwright, shop, folder / "profile", shop.port)
    tablet.start()
    try:
        tablet.sign_in()
        tablet.kept_ahead()
        yield Day(shop, tablet)
    finally:
        tablet.close()
        shop.kill()


def coil_test(day: Day, photo: tuple[Path, str]) -> tuple[Page, str]:
    """A test with its photo, filled in on a car of its own and not recorded yet."""
    job = job_taken_in(day.tablet, day.plate())
    page = day.tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, seen=f"on {job}")
    page.locator("[name=photo]").set_input_files(photo[0])
    page.wait_for_timeout(300)
    return page, job


def intake(day: Day) -> tuple[Page, str]:
    """An intake filled in and not recorded yet; its key, which will be the job's."""
    page = day.tablet.open("/intake/")
    fill_intake(page, day.plate())
    return page, page.locator("[name=key]").input_value()


def test_fault_9_a_large_entry_is_refused_before_it_was_read(day: Day, photo):
    page, job = coil_test(day, photo)
    day.shop.fault("refuse_unread", times=1)
    record(page)
    says(page, "Kept on this tablet")
    until(lambda: day.shop.faults_left == 0)
    day.holds()
    assert day.entries_of(job) == ["intake", "step"]


def test_fault_10_the_network_goes_and_comes_during_the_tap(day: Day):
    for wait in (0, 10, 40):
        page, job = intake(day)
        page.evaluate("document.querySelector('button.bar').click()")
        page.wait_for_timeout(wait)
        day.tablet.context.set_offline(True)
        until(lambda page=page: "/job/" in page.url or page.locator("[data-said]").count() > 0)  # type: ignore[misc]
        day.tablet.context.set_offline(False)
        day.holds()
        assert day.entries_of(job) == ["intake"]


def test_fault_17_the_worker_is_stopped_while_an_entry_is_sent(day: Day):
    page, job = intake(day)
    day.shop.fault("wait", seconds=1, times=1)
    record(page)
    until(lambda: day.shop.faults_left == 0)
    tool = day.tablet.context.new_cdp_session(page)
    tool.send("ServiceWorker.enable")
    tool.send("ServiceWorker.stopAllWorkers")
    day.holds()
    assert day.entries_of(job) == ["intake"]


def test_fault_28_the_database_is_locked_longer_than_anybody_waits(day: Day):
    page, job = intake(day)
    with closing(sqlite3.connect(day.shop.folder / "shop.sqlite3", timeout=10)) as other:
        other.execute("BEGIN IMMEDIATE")
        record(page)
        says(page, "Kept on this tablet")
        until(lambda: day.tablet.items()[0]["attempts"] > 0)
        time.sleep(6)  # the server waits 5 s for the lock
        assert day.tablet.header() == 1
        other.rollback()
    day.holds()
    assert day.entries_of(job) == ["intake"]


@pytest.mark.parametrize("number", [2, 8])
def test_fault_32_every_post_arrives_several_times(day: Day, photo, number: int):
    day.shop.fault("deliver", number=number)
    page, job = coil_test(day, photo)
    record(page)
    until(lambda: len(day.entries_of(job)) == 2)
    day.holds()
    assert day.entries_of(job) == ["intake", "step"]


def test_fault_40_the_servers_clock_is_set_back_an_hour(day: Day):
    job = job_taken_in(day.tablet, day.plate())
    try:
        day.shop.clock(-3600)
        for code in ("yes", "no"):
            answer(day.tablet.page, "failing", code)
            until(lambda code=code: day.shop.entries()[-1]["fields"].get("failing") == [code])  # type: ignore[misc]
    finally:
        day.shop.clock(0)
    day.holds()
    assert told_failing(day, job) == ["yes", "no"]


def test_fault_44_a_job_is_closed_while_an_entry_for_it_waits(day: Day, photo):
    page, job = coil_test(day, photo)
    day.shop.fault("fail", status="503 Service Unavailable")
    record(page)
    says(page, "Kept on this tablet")
    day.shop.write("UPDATE jobs_job SET stage = 'closed' WHERE id = (SELECT max(id) FROM jobs_job)")
    day.holds()
    assert day.entries_of(job) == ["intake", "step"]


def test_fault_45_files_that_are_no_picture_are_said_and_take_nothing_with_them(day: Day):
    job = job_taken_in(day.tablet, day.plate())
    files = {"none.jpg": b"", "words.jpg": b"no picture", "turned.jpg": turned()}
    for number, (name, data) in enumerate(files.items(), start=2):
        page = day.tablet.new_tab(f"/step/coil_power/?job={job}")
        fill_coil_test(page, seen=name)
        page.locator("[name=photo]").set_input_files(
            {"name": name, "mimeType": "image/jpeg", "buffer": data}
        )
        page.wait_for_timeout(200)
        record(page)
        until(lambda number=number: len(day.entries_of(job)) == number)  # type: ignore[misc]
        page.close()
    day.holds()
    assert day.entries_of(job) == ["intake", "step", "step", "step"]


def turned() -> bytes:
    """A picture whose camera was held upright."""
    turn = Image.Exif()
    turn[0x0112] = 6  # orientation
    return jpeg(5, exif=turn.tobytes())


def test_fault_46_a_private_window_keeps_for_as_long_as_it_is_open(day: Day, playwright):
    browser = playwright.chromium.launch(**day.tablet.launch_arguments())
    context = browser.new_context(base_url=day.tablet.url)
    try:
        context.add_cookies([{**one} for one in day.tablet.context.cookies()])
        page = context.new_page()
        page.goto("/unsent/")
        page.wait_for_timeout(1500)
        page.goto("/intake/")
        day.shop.kill()
        take_in(page, day.plate())
        says(page, "Kept on this tablet")
        key = page.locator("[name=key]").input_value()
        day.shop.start()
        page.goto("/unsent/")
        until(lambda: day.entries_of(key) == ["intake"], 30)
    finally:
        context.close()
        browser.close()


def test_fault_48_the_server_stands_still_and_wakes_up(day: Day):
    page, job = intake(day)
    day.shop.pause()
    try:
        record(page)
        says(page, "Kept on this tablet")
        time.sleep(6)
    finally:
        day.shop.go_on()
    day.holds()
    assert day.entries_of(job) == ["intake"]


def queued(day: Day, number: int) -> str:
    """Entries of one car that wait, made without the server, which is away then."""
    job = job_taken_in(day.tablet, day.plate())
    page = day.tablet.open(f"/job/?job={job}")
    before = len(day.tablet.items())
    day.shop.kill()
    for at in range(number):
        answer(page, "failing", ("yes", "no")[at % 2])
        until(lambda at=at: len(day.tablet.items()) == before + at + 1)  # type: ignore[misc]
    return job


def told_failing(day: Day, job: str) -> list[str]:
    """What was answered on a job, in the order of the server."""
    rows = [row for row in day.shop.entries() if row["job_key"] == job and row["kind"] != "intake"]
    return [row["fields"]["failing"][0] for row in rows]


def test_fault_22_a_new_worker_comes_while_twenty_entries_wait(day: Day):
    job = queued(day, 20)
    day.shop.fault(
        "replace", method="GET", path="/sw.js", texts=[("LIMIT_MS = 2000", "LIMIT_MS = 2001")]
    )
    day.shop.start()
    day.tablet.ask(
        "navigator.serviceWorker.getRegistration().then((one) => one.update()).then(Boolean)"
    )
    day.tablet.open("/unsent/")
    day.tablet.wait_until_sent(60)
    day.holds()
    assert told_failing(day, job) == ["yes", "no"] * 10


NEWER = """() => new Promise((resolve, reject) => {
  const request = indexedDB.open("shopac", 2);
  request.onupgradeneeded = () => request.result.createObjectStore("later");
  request.onsuccess = () => resolve(request.result.close());
  request.onerror = () => reject(request.error);
})"""


def test_fault_23_a_newer_page_changes_the_database_while_an_older_tab_is_open(day: Day):
    job = queued(day, 1)
    day.tablet.page.evaluate(NEWER)
    answer(day.tablet.page, "failing", "no")
    until(lambda: len(day.tablet.items()) == 2)
    day.tablet.open(f"/job/?job={job}")  # an old script, loaded after the change
    answer(day.tablet.page, "failing", "yes")
    until(lambda: len(day.tablet.items()) == 3)
    day.shop.start()
    day.holds()
    assert told_failing(day, job) == ["yes", "no", "yes"]


def test_fault_24_the_server_was_updated_and_a_field_has_another_name(day: Day):
    renamed = [('name="complaint"', 'name="told_before"')]
    day.shop.fault("replace", method="GET", path="/intake/", texts=renamed)
    page = day.tablet.open("/intake/")
    for name, value in {"customer_name": "Ida Marwell", "plate": day.plate()}.items():
        page.locator(f"[name={name}]").fill(value)
    page.locator("[name=told_before]").fill("Blows warm.")
    day.shop.kill()
    record(page)
    says(page, "Kept on this tablet")
    day.shop.no_faults()
    day.shop.start()
    page = day.tablet.open("/unsent/")
    until(lambda: day.tablet.items()[0]["state"] == "returned")
    [item] = day.tablet.items()
    assert item["fields"]["told_before"] == ["Blows warm."]
    page.get_by_role("link", name="Open the form again").click()
    expect(page.locator("[name=plate]")).not_to_have_value("")  # put back in a moment
    page.locator("[name=complaint]").fill("Blows warm.")
    record(page)
    page.wait_for_url("**/job/?job=*")
    day.holds()
    assert day.entries_of(item["key"]) == ["intake"]


def test_fault_26_the_browsers_storage_is_emptied(day: Day):
    sent = len(day.shop.entries())
    tool = day.tablet.context.new_cdp_session(day.tablet.page)
    kinds = "indexeddb,cache_storage,service_workers,local_storage"
    tool.send("Storage.clearDataForOrigin", {"origin": day.tablet.url, "storageTypes": kinds})
    day.tablet.kept_ahead()
    page, job = intake(day)
    day.shop.kill()
    record(page)
    says(page, "Kept on this tablet")
    day.shop.start()
    day.holds()
    assert (len(day.shop.entries()), day.entries_of(job)) == (sent + 1, ["intake"])
    expect(day.tablet.page.locator("#kept")).to_contain_text("Last entry sent")
