"""What the shop server acknowledged and lost comes back from the tablet, whole and once."""

import shutil
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.offline.shop import Shop, settings
from tests.offline.tablet import Tablet, fill_coil_test, picture, record, says
from tests.offline.test_kept import job_taken_in
from tests.shopac.starting import PROGRAM

MINUTE = 60
DELIVERED = "shopac.store.all('delivered').then((all) => all.length)"
BEGIN_EPOCH = """
import django
django.setup()
from jobs.actions.epoch import begin
begin("restored from a backup")
"""
FULL_ONCE = """() => {
const put = IDBObjectStore.prototype.put;
IDBObjectStore.prototype.put = function (...record) {
  if (this.name !== "photos" || window.wasFull) return put.apply(this, record);
  window.wasFull = true;
  throw new DOMException("", "QuotaExceededError");
};
}"""
PHOTOS_HERE = "shopac.load('ring').then((ring) => ring.size()).then((one) => one.photos)"
LET_GO = """shopac.store.write(["photos"], (at) => { at("photos").clear(); })"""


def copied(shop: Shop, folder: Path) -> Path:
    """The database as it is now, in one file."""
    path = folder / "copy.sqlite3"
    source, target = sqlite3.connect(shop.folder / "shop.sqlite3"), sqlite3.connect(path)
    with closing(source), closing(target):
        source.backup(target)
    return path


def put_back(shop: Shop, copy: Path, by_hand: bool) -> None:
    """The copy in place of the database, and the photos of then; by hand no epoch begins."""
    shop.kill()
    for old in shop.folder.glob("shop.sqlite3*"):
        old.unlink()
    shutil.copy(copy, shop.folder / "shop.sqlite3")
    shutil.rmtree(shop.folder / "photos", ignore_errors=True)
    if not by_hand:
        command = [sys.executable, "-c", BEGIN_EPOCH]
        subprocess.run(command, cwd=PROGRAM, env=settings(shop.folder), check=True)


def record_test(tablet: Tablet, job: str, volts: str, photo: Path | None = None) -> None:
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, volts=volts)
    if photo:
        page.locator("[name=photo]").set_input_files(photo)
    record(page)


def wait_until_back(tablet: Tablet, shop: Shop, count: int, seconds: float = MINUTE) -> None:
    """Until the server has so many entries and the tablet has nothing unsent."""
    end = time.monotonic() + seconds
    while len(shop.entries()) < count or tablet.items():
        assert time.monotonic() < end, (len(shop.entries()), tablet.items())
        tablet.page.wait_for_timeout(100)


@pytest.mark.parametrize("by_hand", [False, True])
def test_after_a_restore_all_comes_back_once_in_order_with_its_photos(
    tablet: Tablet, shop: Shop, photo, tmp_path: Path, by_hand: bool
):
    old = job_taken_in(tablet, "KX.4731D")
    copy = copied(shop, tmp_path)
    record_test(tablet, old, "12.38", photo[0])
    tablet.page.wait_for_url("**/job/?job=*")
    new = job_taken_in(tablet, "PW.5504K")
    record_test(tablet, new, "11.90")
    tablet.page.wait_for_url("**/job/?job=*")
    before = [(row["key"], row["job_key"], row["fields"]) for row in shop.entries()]
    shop.kill()
    record_test(tablet, new, "10.75")
    says(tablet.page, "Kept on this tablet")
    put_back(shop, copy, by_hand)
    shop.start()
    wait_until_back(tablet, shop, 5)
    after = [(row["key"], row["job_key"], row["fields"]) for row in shop.entries()]
    [late] = [one for one in after if one not in before]
    assert late[2]["volts"] == ["10.75"]
    assert sorted([one for one in after if one != late], key=str) == sorted(before, key=str)
    of_new = [one for one in after if one[1] == new]
    assert of_new == [*[one for one in before if one[1] == new], late]
    assert tablet.ask(DELIVERED) == 5
    assert tablet.say_what_is_wrong(shop) == []


def test_with_nothing_unsent_the_tablet_notices_by_itself(
    tablet: Tablet, shop: Shop, tmp_path: Path
):
    copy = copied(shop, tmp_path)
    job = job_taken_in(tablet)
    put_back(shop, copy, by_hand=True)
    shop.start()
    wait_until_back(tablet, shop, 1)  # the page that stays open asks every few seconds
    assert [row["key"] for row in shop.entries()] == [job]


def test_an_entry_whose_photo_was_let_go_is_never_sent_as_half(
    tablet: Tablet, shop: Shop, photo, tmp_path: Path
):
    job = job_taken_in(tablet)
    copy = copied(shop, tmp_path)
    record_test(tablet, job, "12.38", photo[0])
    tablet.page.wait_for_url("**/job/?job=*")
    tablet.ask(LET_GO)
    put_back(shop, copy, by_hand=True)
    page = tablet.open("/unsent/")
    shop.start()
    expect(page.locator("[data-unsent]")).to_contain_text("Its photo is on this tablet no more")
    expect(page.locator("#kept")).to_contain_text("1 needs you")
    assert len(shop.entries()) == 1


def test_an_entry_that_finds_no_room_takes_that_of_the_oldest_photos_on_the_server(
    tablet: Tablet, shop: Shop, photo, tmp_path: Path
):
    job = job_taken_in(tablet)
    record_test(tablet, job, "12.38", photo[0])
    tablet.page.wait_for_url("**/job/?job=*")
    assert tablet.ask(PHOTOS_HERE) == 1
    shop.kill()
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, volts="11.90")
    page.locator("[name=photo]").set_input_files(picture(tmp_path, "other.jpg", 500_000)[0])
    tablet.wait_for("shopac.store.all('drafts').then((all) => all[0]?.photos.length === 1)")
    tablet.page.evaluate(FULL_ONCE)
    record(page)
    says(page, "Kept on this tablet")
    assert tablet.ask(PHOTOS_HERE) == 0
    shop.start()
    wait_until_back(tablet, shop, 3)
    assert tablet.say_what_is_wrong(shop) == []
