"""Two tablets work one car while the server is away: both are heard, whoever comes first.

Numbers are those of the table in DEVELOPERS.md ("Faults").
"""

from pathlib import Path

import pytest
from playwright.sync_api import Playwright

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_coil_test, record, says
from tests.offline.test_kept import job_taken_in
from tests.offline.test_signed_out import sign_in

MAKES = {"first": "Dorvane Umbra", "second": "Dorvane Alba"}


@pytest.fixture
def second(playwright: Playwright, shop: Shop, tmp_path: Path):
    """Another tablet, known to the shop as one of its own."""
    other = Tablet(playwright, shop, tmp_path / "second", shop.port)
    other.start()
    sign_in(other.open("/sign_in/?next=/unsent/"), "E. Quist", "3517")
    other.kept_ahead()
    yield other
    other.close()


def told_at(tablet: Tablet, job: str, make: str) -> None:
    """The car's make, and a test: kept, since nobody answers."""
    page = tablet.open(f"/vehicle/?job={job}")
    page.locator("[name=make_model]").fill(make)
    record(page)
    says(page, "Kept on this tablet")
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, seen=f"told with {make}")
    record(page)
    says(page, "Kept on this tablet")


@pytest.mark.parametrize("order", [("first", "second"), ("second", "first")], ids=" then ".join)
def test_faults_37_and_38_both_tell_one_field_and_a_test_each(
    tablet: Tablet, second: Tablet, shop: Shop, order: tuple[str, str]
):
    job = job_taken_in(tablet)
    tablets = {"first": tablet, "second": second}
    for one in tablets.values():
        one.open(f"/job/?job={job}")
        one.wait_for(f"shopac.store.get('jobs', '{job}').then(Boolean)")
    shop.kill()
    for name, one in tablets.items():
        told_at(one, job, MAKES[name])
    tablets[order[1]].context.set_offline(True)
    shop.start()
    for name in order:
        one = tablets[name]
        one.context.set_offline(False)
        one.open("/unsent/")
        one.wait_until_sent()
    told = [row["fields"] for row in shop.entries() if row["job_key"] == job]
    assert [one["make_model"][0] for one in told if "make_model" in one] == [
        MAKES[name] for name in order
    ]
    assert sorted(one["seen"][0] for one in told if "seen" in one) == [
        "told with Dorvane Alba",
        "told with Dorvane Umbra",
    ]
    # Typed where nothing was shown, it goes over what happened before: only the earlier to happen,
    # come second, loses and is a conflict.
    if order == ("second", "first"):
        marks = "".join(row["marks"] for row in shop.entries())
        assert all(make in marks for make in MAKES.values())
    assert [one.seen.trouble + one.seen.falsely_sent for one in tablets.values()] == [[], []]
