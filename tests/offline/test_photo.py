"""Photos taken without the server: kept as they will be sent, smaller than they were chosen."""

import hashlib

from playwright.sync_api import FilePayload, expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, record, says, take_in, until
from tests.pictures import jpeg, noisy

HELD = """async () => {
  const items = await shopac.store.all("items");
  const [item] = items.filter((one) => one.kind === "photo");
  return Promise.all(item.photos.map(async (photo) => {
    const bytes = await shopac.store.get("photos", [item.key, photo.sha256]);
    return { sha256: photo.sha256, size: bytes.byteLength, again: await shopac.sha256(bytes) };
  }));
}"""


def open_photo_page(tablet: Tablet) -> None:
    """From the car that was just taken in."""
    tablet.page.get_by_role("link", name="Go on with this car").click()
    tablet.page.get_by_text("KX.4731D").wait_for()
    tablet.page.get_by_role("link", name="Take photos").click()
    tablet.page.locator("[data-fill=plate]", has_text="KX.4731D").wait_for()


def choose(tablet: Tablet, *pictures: bytes) -> None:
    files: list[FilePayload] = [
        {"name": f"p{at}.jpg", "mimeType": "image/jpeg", "buffer": data}
        for at, data in enumerate(pictures)
    ]
    tablet.page.get_by_label("Take a photo").set_input_files(files)


def test_two_photos_taken_without_the_server_arrive_once_as_they_were_kept(
    tablet: Tablet, shop: Shop
):
    large = noisy(3000, 2250)
    shop.kill()
    take_in(tablet.open("/intake/"), "KX.4731D")
    says(tablet.page, "Kept on this tablet")
    open_photo_page(tablet)
    choose(tablet, large, jpeg(3))
    tablet.page.locator("label:has([name=place][value=clutch])").click()
    record(tablet.page)
    says(tablet.page, "Kept on this tablet")
    held = tablet.page.evaluate(HELD)
    assert [one["again"] for one in held] == [one["sha256"] for one in held]
    assert held[0]["size"] < len(large) / 2
    assert held[1]["sha256"] == hashlib.sha256(jpeg(3)).hexdigest()  # small enough as it was
    shop.start()
    tablet.wait_until_sent()
    entry = next(one for one in shop.entries() if one["kind"] == "photo")
    assert [one["sha256"] for one in entry["photos"]] == [one["sha256"] for one in held]
    assert [row["place"] for row in shop.rows("SELECT place FROM jobs_photo")] == ["clutch"] * 2
    assert tablet.say_what_is_wrong(shop) == []


def test_photos_chosen_and_not_yet_recorded_are_there_again_after_a_reload(
    tablet: Tablet, shop: Shop
):
    take_in(tablet.open("/intake/"), "KX.4731D")
    tablet.page.wait_for_url("**/job/?job=*")
    tablet.page.get_by_role("link", name="Take photos").click()
    choose(tablet, jpeg(1))
    choose(tablet, jpeg(2))
    drafted = "shopac.store.all('drafts').then((all) => all.some((one) => one.photos.length === 2))"
    tablet.wait_for(drafted)
    tablet.page.reload()
    expect(tablet.page.locator("[data-taken] img")).to_have_count(2)
    record(tablet.page)
    tablet.page.wait_for_url("**/photos/**")
    until(lambda: len(shop.rows("SELECT id FROM jobs_photo")) == 2)
    assert tablet.say_what_is_wrong(shop) == []


def test_a_thirteenth_photo_is_said_at_its_field_and_nothing_is_lost(tablet: Tablet, shop: Shop):
    take_in(tablet.open("/intake/"), "KX.4731D")
    tablet.page.wait_for_url("**/job/?job=*")
    tablet.page.get_by_role("link", name="Take photos").click()
    choose(tablet, *[jpeg(at) for at in range(13)])
    record(tablet.page)
    problem = tablet.page.locator("[data-errors-for=photo]")
    expect(problem).to_have_text("13 photos: one entry takes 12. Take the rest with another.")
    tablet.page.get_by_role("button", name="Remove 13").click()
    record(tablet.page)
    tablet.page.wait_for_url("**/photos/**")
    until(lambda: len(shop.rows("SELECT id FROM jobs_photo")) == 12)
