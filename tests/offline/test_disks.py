"""Full disks and power cuts: on disks of the test's own, mounted here (Linux, as root).

Where this machine refuses to mount them these tests fail and say so; none is left out in silence.
Numbers are those of the table in DEVELOPERS.md ("Faults").
"""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright, expect

from tests.campaign.disks import Disk, fill_up, small
from tests.offline.shop import CARELESS, Prepared, Shop
from tests.offline.tablet import Tablet, fill_coil_test, record, says, take_in, until
from tests.offline.test_kept import job_taken_in

pytestmark = pytest.mark.sqlite
KILOBYTES = 1024


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Disk]:
    """A disk that can lose its power."""
    made = Disk(tmp_path / "disk", megabytes=120)
    yield made
    made.close()


def test_fault_25_the_tablets_disk_is_full(
    playwright: Playwright, shop: Shop, tmp_path: Path, photo
):
    with small(tmp_path / "tablet", 120) as place:
        tablet = Tablet(playwright, shop, place / "profile", shop.port)
        tablet.begin()
        job = job_taken_in(tablet)
        page = tablet.open(f"/step/coil_power/?job={job}")
        fill_coil_test(page, seen="with a photo")
        filler = fill_up(place, leave=200 * KILOBYTES)
        page.locator("[name=photo]").set_input_files(photo[0])
        page.wait_for_timeout(300)
        shop.kill()
        record(page)
        says(page, "Not kept:")
        says(page, "What you typed stays in this form.")
        expect(page.locator("[name=seen]")).to_have_value("with a photo")
        filler.unlink()
        record(page)
        says(page, "Kept on this tablet")
        shop.start()
        tablet.open("/unsent/")
        tablet.wait_until_sent()
        assert [one["sha256"] for one in shop.entries()[1]["photos"]] == [photo[1]]
        tablet.seen.trouble.clear()  # the browser's own complaints of its full disk
        assert tablet.say_what_is_wrong(shop) == []
        tablet.kill()


def test_fault_27_the_servers_disk_is_full(
    prepared: Prepared, playwright: Playwright, tmp_path: Path, photo
):
    with small(tmp_path / "server", 60) as place:
        shop = Shop(prepared, place / "data")
        shop.start()
        tablet = Tablet(playwright, shop, tmp_path / "profile", shop.port)
        try:
            tablet.begin()
            job = job_taken_in(tablet)
            page = tablet.open(f"/step/coil_power/?job={job}")
            fill_coil_test(page)
            page.locator("[name=photo]").set_input_files(photo[0])
            page.wait_for_timeout(300)
            filler = fill_up(place, leave=0)
            record(page)
            says(page, "Kept on this tablet")
            until(lambda: "disk is full" in tablet.items()[0]["why"])
            assert tablet.header() == 1
            take_in(tablet.open("/intake/"), "RV.4736A")
            says(tablet.page, "Kept on this tablet")
            filler.unlink()
            tablet.open("/unsent/")
            tablet.wait_until_sent(60)
            kinds = sorted(row["kind"] for row in shop.entries())
            assert kinds == ["intake", "intake", "step"]
            assert tablet.say_what_is_wrong(shop) == []
        finally:
            tablet.close()
            shop.kill()


@pytest.mark.parametrize("careless", [False, True], ids=["FULL", "NORMAL, the control"])
def test_fault_21_the_server_loses_its_power(
    prepared: Prepared,
    playwright: Playwright,
    tmp_path: Path,
    disk: Disk,
    monkeypatch: pytest.MonkeyPatch,
    photo,
    careless: bool,
):
    if careless:
        monkeypatch.setitem(CARELESS, "SHOPAC_TEST_SYNCHRONOUS", "NORMAL")
    shop = Shop(prepared, disk.place / "data")
    disk.sync()
    shop.start()
    tablet = Tablet(playwright, shop, tmp_path / "profile", shop.port)
    try:
        tablet.begin()
        job = job_taken_in(tablet)
        page = tablet.open(f"/step/coil_power/?job={job}")
        fill_coil_test(page)
        page.locator("[name=photo]").set_input_files(photo[0])
        record(page)
        until(lambda: len(shop.entries()) == 2)
        tablet.open("/unsent/")
        tablet.wait_until_sent()
        shop.kill()
        disk.lose_power()
        assert shop.rows("PRAGMA integrity_check") == [{"integrity_check": "ok"}]
        told = [row["kind"] for row in shop.entries()]
        if careless:
            assert told != ["intake", "step"]
        else:
            assert told == ["intake", "step"]
            assert tablet.say_what_is_wrong(shop) == []
    finally:
        tablet.close()
        shop.kill()
