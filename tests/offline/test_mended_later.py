"""What came back from the shop server and is mended later stays of when and by whom it was told."""

import json
from typing import Any

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_intake, record, says, until
from tests.offline.test_signed_out import sign_in
from tests.offline.test_unsent_words import returned_step


def mend(tablet: Tablet, field: str, value: str) -> None:
    """E. Quist signs in, opens the form again, mends one field and records it."""
    page = tablet.open("/sign_in/?next=/unsent/")
    sign_in(page, "E. Quist", "3517")
    page.get_by_role("link", name="Open the form again").click()
    until(lambda: page.locator(f"[name={field}]").input_value() != "")  # it is back in the form
    page.locator(f"[name={field}]").fill(value)
    record(page)
    tablet.wait_until_sent()


def told_by(shop: Shop, entry: dict[str, Any]) -> tuple[str, list[str]]:
    """Whose entry it is, and who mended it."""
    marks = [one for one in json.loads(entry["marks"]) if one["code"] == "mended"]
    people = shop.rows("SELECT key, name FROM jobs_person")
    names = {row["key"]: row["name"] for row in people}
    return shop.author(entry), [names[one["person"].replace("-", "")] for one in marks]


def typed_at(text: str) -> str:
    """A time to the millisecond, as the tablet and as the database file spell it."""
    return text.replace("T", " ").rstrip("Z")[:23]


def test_a_step_mended_by_another_stays_its_first_tellers_and_of_then(tablet: Tablet, shop: Shop):
    returned_step(tablet, shop)
    [kept] = tablet.items()
    mend(tablet, "amps", "3.05")
    step = shop.entries()[-1]
    assert told_by(shop, step) == ("R. Sand", ["E. Quist"])
    assert typed_at(step["typed_at"]) == typed_at(kept["typed_at"])
    assert step["clock_offset_ms"] == kept["clock_offset_ms"]
    assert tablet.say_what_is_wrong(shop) == []


def test_an_intake_mended_by_another_stays_its_first_tellers_and_of_then(
    tablet: Tablet, shop: Shop
):
    shop.kill()
    page = tablet.open("/intake/")
    fill_intake(page, "KX.4731D")
    page.locator("summary").first.click()
    page.locator("[name=model_year]").fill("20O9x")
    record(page)
    says(page, "Kept on this tablet")
    tablet.open("/unsent/")
    shop.start()
    until(lambda: tablet.items()[0]["state"] == "returned")
    [kept] = tablet.items()
    mend(tablet, "model_year", "2009")
    [intake] = shop.entries()
    assert told_by(shop, intake) == ("R. Sand", ["E. Quist"])
    assert typed_at(intake["typed_at"]) == typed_at(kept["typed_at"])
    assert "Mended on the tablet" in tablet.open(f"/job/?job={intake['key']}").content()
