"""A tablet whose clock is days off, and is put right before what was typed is sent."""

import json
from datetime import UTC, datetime, timedelta
from typing import Any

from jobs.clocks import CLOCK_CHANGED
from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_intake, record, says

DAYS_MS = 3 * 24 * 3_600_000
SECONDS = timedelta(seconds=60)  # for all of the test to happen
# The page's clock, wrong by what lies in `shift`.
WRONG_CLOCK = """{
  const True = Date;
  const shift = () => Number(localStorage.getItem("shift"));
  window.Date = class extends True {
    constructor(...told) {
      if (told.length) super(...told);
      else super(True.now() + shift());
    }
    static now() { return True.now() + shift(); }
  };
}"""


def set_clock(tablet: Tablet, shift_ms: int) -> None:
    """From now on the tablet's clock is off by so much."""
    tablet.ask(f"localStorage.setItem('shift', '{shift_ms}')")


def kept_three_days_behind(tablet: Tablet, shop: Shop) -> None:
    """A car taken in without the server, on a tablet that was last told of its wrong clock."""
    tablet.context.add_init_script(WRONG_CLOCK)
    set_clock(tablet, -DAYS_MS)
    page = tablet.open("/intake/")
    tablet.wait_for(
        f"shopac.store.get('about', 'clock_offset').then((ms) => Math.abs(ms - {DAYS_MS}) < 5000)"
    )
    shop.kill()
    fill_intake(page, "KX.4731D")
    record(page)
    says(page, "Kept on this tablet")


def arrived(shop: Shop) -> tuple[dict[str, Any], datetime]:
    """The one entry, its marks read, and when it happened."""
    [entry] = shop.entries()
    happened_at = datetime.fromisoformat(entry["happened_at"]).replace(tzinfo=UTC)
    return {**entry, "marks": json.loads(entry["marks"])}, happened_at


def test_an_entry_keeps_the_offset_of_its_tap_when_the_clock_is_set_before_it_is_sent(
    tablet: Tablet, shop: Shop
):
    began = datetime.now(UTC)
    kept_three_days_behind(tablet, shop)
    [item] = tablet.items()
    assert abs(item["clock_offset_ms"] - DAYS_MS) < 5000
    set_clock(tablet, 0)
    shop.start()
    tablet.wait_until_sent()
    entry, happened_at = arrived(shop)
    assert abs(entry["clock_offset_ms"] - DAYS_MS) < 5000
    assert abs(entry["clock_offset_sent_ms"]) < 5000
    assert abs(happened_at - began) < SECONDS
    assert entry["marks"] == [CLOCK_CHANGED]
    assert tablet.say_what_is_wrong(shop) == []


def test_a_clock_that_stays_wrong_is_corrected_without_a_mark(tablet: Tablet, shop: Shop):
    began = datetime.now(UTC)
    kept_three_days_behind(tablet, shop)
    shop.start()
    tablet.wait_until_sent()
    entry, happened_at = arrived(shop)
    assert abs(entry["clock_offset_sent_ms"] - DAYS_MS) < 5000
    assert abs(happened_at - began) < SECONDS
    assert entry["marks"] == []
