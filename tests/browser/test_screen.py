"""This screen: what is chosen acts at once, by touch, by keys and without script."""

import pytest
from django.urls import reverse
from playwright.sync_api import expect

from tests.browser.touch import AT_THE_DESK, LANDSCAPE, PHONE
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)

PAPER = "getComputedStyle(document.body).backgroundColor"
DARK, LIGHT = "rgb(14, 17, 20)", "rgb(255, 255, 255)"


@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_dark_is_chosen_by_a_tap_and_stays_on_the_next_page(at, script):
    page = at(reverse("screen"), **LANDSCAPE, java_script_enabled=script, color_scheme="light")
    dark = page.get_by_role("button", name="Dark for pits")
    dark.tap()
    expect(dark).to_have_attribute("aria-pressed", "true")
    expect(page.locator("body")).to_have_css("background-color", DARK)
    page.goto(reverse("find"))
    expect(page.locator("body")).to_have_css("background-color", DARK)


def test_light_is_the_default_whatever_the_tablet_prefers(at):
    page = at(reverse("find"), **LANDSCAPE, color_scheme="dark")
    assert page.evaluate(PAPER) == LIGHT


def test_a_card_of_85_6_mm_fits_the_field_and_a_target_is_then_19_mm(at):
    page = at(reverse("screen"), **LANDSCAPE)
    for _ in range(8):
        page.get_by_role("button", name="Narrower").tap()
    expect(page.locator("[data-now]")).to_contain_text("5.2")
    card = page.locator(".card").bounding_box()
    assert card
    assert card["width"] == pytest.approx(85.6 * 5.2, abs=1)
    box = page.get_by_role("button", name="Wider").bounding_box()
    assert box
    assert box["height"] >= 19 * 5.2 - 0.5
    page.get_by_role("button", name="Wider").press("Enter")
    expect(page.locator("[data-now]")).to_contain_text("5.3")
    page.goto(reverse("sign_in"))
    height = page.locator(".back").evaluate("one => one.getBoundingClientRect().height")
    assert height == pytest.approx(19 * 5.3, abs=0.5)


def test_on_a_phone_the_card_stands_upright(at):
    page = at(reverse("screen"), **PHONE)
    card = page.locator(".card").bounding_box()
    assert card
    assert card["width"] == pytest.approx(53.98 * 6, abs=1)
    expect(page.get_by_text("its short side is 54 mm")).to_be_visible()


def test_the_pad_stands_at_the_side_that_was_chosen(at):
    job = make_job()
    page = at(reverse("screen"), **LANDSCAPE)
    page.get_by_role("button", name="At the left").tap()
    page.goto(f"/step/coil_power/?job={job.key}")
    form, pad = (page.locator(one).bounding_box() for one in ("form.step", ".pad"))
    assert form
    assert pad
    assert pad["x"] + pad["width"] < form["x"]
    assert pad["y"] < 300


def test_a_page_kept_before_the_choice_is_drawn_as_chosen(at):
    """A page kept on the tablet says what was chosen when it was kept."""
    page = at(reverse("screen"), **LANDSCAPE)
    kept = page.request.get(reverse("offline")).text()
    page.get_by_role("button", name="Dark for pits").tap()
    page.route("**/offline/", lambda route: route.fulfill(body=kept, content_type="text/html"))
    page.goto(reverse("offline"))
    assert page.evaluate(PAPER) == DARK


def test_all_of_it_works_by_the_keyboard(at):
    page = at(reverse("screen"), **AT_THE_DESK)
    for _ in range(9):
        page.keyboard.press("Tab")
        if "Dark" in (page.evaluate("document.activeElement.innerText") or ""):
            break
    page.keyboard.press("Space")
    assert page.evaluate(PAPER) == DARK
    page.locator("#id_mm").fill("4,1")
    page.keyboard.press("Enter")
    expect(page.locator("html")).to_have_attribute("data-mm", "4.1")
