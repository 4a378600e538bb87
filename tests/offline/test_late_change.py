"""Some browsers tell of a change when a field is left, long after the tap: nothing was typed."""

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, fill_coil_test, says, until
from tests.offline.test_kept import job_taken_in


def test_a_field_left_after_the_tap_leaves_no_draft_behind(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    shop.kill()
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, seen="hums")
    page.evaluate("document.querySelector('button.bar').click()")  # the field keeps the focus
    says(page, "Kept on this tablet")
    page.evaluate("document.activeElement.blur()")
    page.wait_for_timeout(400)
    page = tablet.open(f"/step/coil_power/?job={job}")
    until(lambda: len(page.locator("[name=key]").input_value()) == 36)
    assert page.locator("[name=seen]").input_value() == ""
    assert len(tablet.ask("shopac.store.all('drafts')")) == 0
