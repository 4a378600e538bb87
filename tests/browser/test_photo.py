"""Photos taken by touch: several at once, made smaller, filed at a place, seen."""

import base64
import io

import pytest
from PIL import Image
from playwright.sync_api import expect

from jobs.kept_bytes import place
from jobs.models import Photo
from tests.browser.touch import LANDSCAPE, PHONE, PORTRAIT, answer
from tests.factories import make_job
from tests.pictures import jpeg, noisy

pytestmark = pytest.mark.django_db(transaction=True)
TAKE, CHOOSE = "Take a photo", "Choose files"


def files(*pictures, kind="image/jpeg"):
    return [
        {"name": f"p{at}.jpg", "mimeType": kind, "buffer": data} for at, data in enumerate(pictures)
    ]


def pick(page, label, *chosen):
    with page.expect_file_chooser() as chooser:
        page.get_by_label(label).tap()
    chooser.value.set_files(list(chosen))


def test_a_photo_is_filed_at_a_place_in_five_touches_from_the_job_page(at):
    job = make_job()
    page = at(f"/job/?job={job.key}", **PORTRAIT)
    with page.expect_navigation():
        page.get_by_role("link", name="Take photos").tap()
    pick(page, TAKE, *files(jpeg(1)))
    answer(page, "place", "clutch")
    answer(page, "about", "leak")
    page.locator("button.bar").tap()
    page.wait_for_url("**/photos/**")
    expect(page.get_by_role("heading", name="Clutch and belt")).to_be_visible()
    photo = Photo.objects.get()
    assert (photo.place, photo.about) == ("clutch", "leak")


def test_two_cameras_worth_are_one_entry_and_each_can_be_taken_out_again(at):
    job = make_job()
    page = at(f"/photo/?job={job.key}", **PORTRAIT)
    pick(page, TAKE, *files(jpeg(1)))
    pick(page, TAKE, *files(jpeg(2)))
    pick(page, CHOOSE, *files(jpeg(3), jpeg(4)))
    expect(page.locator("[data-taken] img")).to_have_count(4)
    page.get_by_role("button", name="Remove 2").tap()
    expect(page.locator("[data-taken] img")).to_have_count(3)
    answer(page, "place", "fan")
    page.locator("button.bar").tap()
    page.wait_for_url("**/photos/**")
    assert Photo.objects.count() == 3
    assert Photo.objects.values("entry").distinct().count() == 1


def test_a_place_can_be_chosen_by_keyboard_and_has_its_name(at):
    page = at(f"/photo/?job={make_job().key}", **PORTRAIT)
    compressor = page.get_by_role("radio", name="Compressor")
    compressor.focus()
    page.keyboard.press("Space")
    expect(compressor).to_be_checked()
    page.keyboard.press("ArrowDown")
    expect(compressor).not_to_be_checked()


@pytest.mark.parametrize("screen", [PHONE, PORTRAIT, LANDSCAPE], ids=["phone", "up", "across"])
def test_every_place_is_as_large_as_a_glove_and_inside_the_screen(at, screen):
    page = at(f"/photo/?job={make_job(branches=['front', 'rear', 'battery']).key}", **screen)
    small = page.evaluate(
        """() => {
          const probe = document.createElement("i");
          probe.style.cssText = "position: absolute; width: var(--t)";
          document.body.append(probe);
          const t = probe.offsetWidth;
          return [...document.querySelectorAll(".place")]
            .map((place) => place.getBoundingClientRect())
            .filter((box) => box.width < t - 1 || box.height < t - 1 || box.right > innerWidth)
            .length;
        }"""
    )
    assert small == 0
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


SMALLER = """async (base64) => {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const file = new File([bytes], "large.jpg", { type: "image/jpeg" });
  const shrink = await shopac.load("shrink");
  const once = await shrink(file);
  const twice = await shrink(once);
  const bitmap = await createImageBitmap(once);
  const { width, height } = bitmap;
  const { size, type } = once;
  return { width, height, before: file.size, size, type, again: twice === once };
}"""


def test_a_large_photo_taken_sideways_is_made_smaller_and_upright_once(at):
    exif = Image.Exif()
    exif[0x0112] = 6
    image = Image.open(io.BytesIO(noisy(3000, 2000, 60)))
    out = io.BytesIO()
    image.save(out, "JPEG", quality=60, exif=exif)
    page = at(f"/photo/?job={make_job().key}", **PORTRAIT)
    told = page.evaluate(SMALLER, base64.b64encode(out.getvalue()).decode())
    assert (told["width"], told["height"]) == (1365, 2048)
    assert told["size"] < told["before"]
    assert told["type"] == "image/jpeg"
    assert told["again"]


def test_what_cannot_be_read_in_the_browser_goes_as_it_is(at):
    page = at(f"/photo/?job={make_job().key}", **PORTRAIT)
    told = page.evaluate(
        """async () => {
          const file = new File(["this is no picture"], "x.jpg", { type: "image/jpeg" });
          const heic = new File(["heic"], "x.heic", { type: "image/heic" });
          const shrink = await shopac.load("shrink");
          return [(await shrink(file)) === file, (await shrink(heic)) === heic];
        }"""
    )
    assert told == [True, True]


def test_a_photo_of_a_person_says_so_where_it_is_shown(at):
    job = make_job()
    page = at(f"/photo/?job={job.key}", **PORTRAIT)
    pick(page, TAKE, *files(jpeg(1)))
    page.locator("label:has([name=personal])").tap()
    page.locator("button.bar").tap()
    page.wait_for_url("**/photos/**")
    expect(page.get_by_text("shows a person or something private")).to_be_visible()
    assert Photo.objects.get().personal


def test_a_photo_is_filed_anew_by_touch(at):
    job = make_job()
    page = at(f"/photo/?job={job.key}", **PORTRAIT)
    pick(page, TAKE, *files(jpeg(1)))
    answer(page, "place", "fan")
    page.locator("button.bar").tap()
    page.wait_for_url("**/photos/**")
    with page.expect_navigation():
        page.locator(".by-place img").tap()
    page.get_by_text("File it anew").tap()
    answer(page, "place", "condenser")
    page.get_by_role("button", name="File it here").tap()
    expect(page.get_by_role("heading", name="Condenser", exact=True)).to_be_visible()
    photo = Photo.objects.get()
    assert photo.place == "condenser"
    assert place("photos", photo.stored_sha256, ".jpg").exists()
