"""A revoked tablet says so and keeps what it has; what it saves to a file comes in by an owner."""

import json
import subprocess
import sys
from pathlib import Path

from playwright.sync_api import expect

from tests.offline.shop import Shop, settings
from tests.offline.tablet import Tablet, fill_coil_test, record, says, until
from tests.offline.test_kept import job_taken_in
from tests.shopac.starting import PROGRAM

# As the page `bring_in` does it.
BRING_IN = """
import json, sys
import django
django.setup()
from jobs.models import Entry
from jobs.models.marks import marks_in_words
from shopac.views.kept_file import bring, in_order, read_file
from tests.factories import make_person
owner = make_person("owner", name="T. Okafor")
for _ in range(2):
    with open(sys.argv[1], "rb") as file:
        came = [bring(said, owner, own=False) for said in in_order(read_file(file, 1))]
states = [one.outcome.state if one.outcome else one.why for one in came]
marks = [[said.code for said in marks] for marks in marks_in_words(Entry.objects.all()).values()]
print(json.dumps({"states": states, "marks": marks}))
"""


def test_what_a_revoked_tablet_keeps_is_saved_to_a_file_and_comes_in_once(
    new_tablet: Tablet, shop: Shop, tmp_path: Path, photo: tuple[Path, str]
):
    """Photo, umlauts, line ends and an emoji: both sides have to read the same seal out of them."""
    tablet = new_tablet
    tablet.sign_in()
    tablet.open("/unsent/")
    until(lambda: shop.rows("SELECT unsent FROM jobs_tablet") == [{"unsent": 0}])
    [row] = shop.rows("SELECT * FROM jobs_tablet")
    assert (row["version"], row["kept_bytes"]) == ("0.1.0", 0)
    job = job_taken_in(tablet)
    page = tablet.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, seen="Bläst “warm”.\nSince \\ week 🔧")
    page.locator("[name=photo]").set_input_files(photo[0])
    shop.write(
        "UPDATE jobs_tablet SET revoked_at = '2026-11-30 10:00:00', revoked_by_id ="
        " (SELECT id FROM jobs_person WHERE name = 'E. Quist')"
    )
    record(page)
    says(page, "E. Quist revoked this tablet")
    assert len(shop.entries()) == 1
    page = tablet.open("/unsent/")
    expect(page.locator("[data-revoked]")).to_contain_text("it sends nothing and no PIN works here")
    expect(page.locator("[data-send]")).to_be_hidden()
    expect(page.locator(".kept-item [data-sign-in]")).to_be_hidden()
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save all to a file").click()
    file = tmp_path / "kept.json"
    saving.value.save_as(file)
    signed = tablet.items()[0]["who"]["pass"]
    assert signed not in file.read_text()
    assert signed.rpartition(":")[2] not in file.read_text()
    done = subprocess.run(
        [sys.executable, "-c", BRING_IN, str(file)],
        cwd=PROGRAM,
        env=settings(shop.folder),
        check=True,
        capture_output=True,
        text=True,
    )
    came = json.loads(done.stdout.splitlines()[-1])
    assert came == {"states": ["again"], "marks": [[], ["brought_in"]]}
    _, entry = shop.entries()
    assert (entry["key"], shop.author(entry)) == (tablet.items()[0]["key"], "R. Sand")
    shop.write("UPDATE jobs_tablet SET revoked_at = NULL, revoked_by_id = NULL")
    page.reload()
    tablet.wait_until_sent(90)
    assert tablet.say_what_is_wrong(shop) == []
