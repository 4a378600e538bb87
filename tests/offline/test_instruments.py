"""The instruments beside a tablet are named by steps made without the server, too."""

import subprocess
import sys

from playwright.sync_api import expect

from tests.offline.shop import Shop, settings
from tests.offline.tablet import Tablet, answer, record, says
from tests.offline.test_kept import job_taken_in
from tests.shopac.starting import PROGRAM

TELL = """
import django
django.setup()
from tests.factories import make_thing
make_thing("multimeter", name="Bench meter", accuracy_voltage="0.5 %", checked_on="2026-08-02",
           until="2090-08-02")
make_thing("multimeter", name="Cart meter")
"""
IN_KEPT_PAGE = """caches.open("pages").then((all) => all.match("/step/coil_power/"))
  .then((one) => one.text()).then((text) => /value="[0-9a-f]{32}" checked/.test(text))"""


def test_a_step_made_without_the_server_names_what_lies_beside_the_tablet(
    tablet: Tablet, shop: Shop
):
    told = [sys.executable, "-c", TELL]
    subprocess.run(told, cwd=PROGRAM, env=settings(shop.folder), check=True)
    job = job_taken_in(tablet)
    page = tablet.open("/equipment/")
    page.locator("label.answer", has_text="Bench meter").click()
    page.get_by_role("button", name="Keep it so for this tablet").click()
    page.wait_for_url("**/equipment/?beside=1")
    tablet.wait_for(IN_KEPT_PAGE)
    shop.kill()

    page = tablet.open(f"/step/coil_power/?job={job}")
    beside = page.get_by_role("radiogroup", name="Voltage read with")
    expect(beside.get_by_role("radio", name="Bench meter")).to_be_checked()
    expect(beside).to_contain_text("checked until 2 Aug 2090")
    answer(page, "ground", "good")
    page.locator("[name=volts]").fill("12.38")
    page.locator("[name=amps]").fill("3.05")
    page.locator("#id_with_current label", has_text="Cart meter").click()
    record(page)
    says(page, "Kept on this tablet")
    shop.start()
    tablet.wait_until_sent()
    named = shop.rows(
        "SELECT quantity, name FROM diagnostics_named JOIN jobs_equipment"
        " ON equipment_id = jobs_equipment.id ORDER BY quantity"
    )
    assert [(one["quantity"], one["name"]) for one in named] == [
        ("current", "Cart meter"),
        ("voltage", "Bench meter"),
    ]
