"""By the keyboard alone: a car is taken in and a test recorded, and it shows where one is."""

from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from diagnostics.models import Step
from jobs.models import Job
from tests.browser.touch import AT_THE_DESK, LANDSCAPE
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)

HERE = "document.activeElement"
NAME = f"{HERE}.name || {HERE}.innerText || ''"
# The line around what is in use: on it, or on the words of a choice.
OUTLINE = f"""() => {{
  const words = {HERE}.matches(".answer > input") ? {HERE}.nextElementSibling : {HERE};
  const of = (...more) => getComputedStyle(words, ...more);
  return [of(), of("::after")].some((one) =>
    one.outlineStyle === "solid" && parseFloat(one.outlineWidth) >= 4);
}}"""


def tab_to(page: Page, name: str, most: int = 40) -> None:
    """Press Tab until a field or a button of this name is in use; each stop on the way is seen."""
    for _ in range(most):
        page.keyboard.press("Tab")
        assert page.evaluate(OUTLINE), f"nothing shows that {page.evaluate(NAME)!r} is in use"
        if str(page.evaluate(NAME)).startswith(name):
            return
    raise AssertionError(f"Tab does not come to {name}")


def choose(page: Page, name: str, code: str) -> None:
    """Come to a choice and take one of its answers by Space and arrows."""
    tab_to(page, name)
    page.keyboard.press("Space")
    for _ in range(9):
        if page.locator(f"[name={name}][value={code}]").is_checked():
            return
        page.keyboard.press("ArrowRight")
    raise AssertionError(f"the arrows do not come to {code}")


def test_a_car_is_taken_in(at):
    page = at(reverse("intake"), **AT_THE_DESK)
    for name, typed in (("customer_name", "Ida Marwell"), ("plate", "KX.4731D")):
        tab_to(page, name)
        page.keyboard.type(typed)
    tab_to(page, "complaint")
    page.keyboard.type("Blows warm.")
    choose(page, "since", "weeks")
    choose(page, "topped_up", "no")
    tab_to(page, "The car")
    page.keyboard.press("Enter")
    tab_to(page, "vin")
    tab_to(page, "Take in this car")
    page.keyboard.press("Enter")
    page.wait_for_url("**/job/?job=*")
    job = Job.objects.get()
    assert job.vehicle.plate == "KX.4731D"
    assert (job.complaint_answers["since"], job.complaint_answers["topped_up"]) == ("weeks", "no")


@pytest.mark.parametrize("screen", [AT_THE_DESK, LANDSCAPE], ids=["desk", "tablet with keys"])
def test_a_test_is_recorded_and_the_pad_is_never_in_the_way(at, screen: Any):
    page = at(f"/step/coil_power/?job={make_job().key}", **screen)
    choose(page, "ground", "good")
    for name, typed in (("volts", "12.38"), ("amps", "3.05")):
        tab_to(page, name, most=2)
        page.keyboard.type(typed)
    choose(page, "magnet", "yes")
    choose(page, "holds", "no")
    choose(page, "pushed", "yes")
    tab_to(page, "Record this step")
    page.keyboard.press("Enter")
    page.wait_for_url("**/job/?job=*")
    told = Step.objects.get().readings
    assert (told["holds"], told["pushed"]) == ("no", "yes")
    assert (told["volts"]["typed"], told["amps"]["typed"]) == ("12.38", "3.05")


def test_the_way_leads_down_the_page(at):
    """What Tab comes to next stands below, or beside at the right."""
    page = at(f"/step/coil_power/?job={make_job().key}", **LANDSCAPE)
    before, order = (-1.0, -1.0), []
    for _ in range(25):
        page.keyboard.press("Tab")
        box = page.evaluate(
            f"(() => {{ const {{ top, left }} = {HERE}.getBoundingClientRect();"
            " return [top + scrollY, left]; })()"
        )
        order.append((str(page.evaluate(NAME))[:20], box))
        if page.evaluate(f"{HERE} === document.body"):
            break
        down, right = box[0] > before[0] + 1, box[1] > before[1]
        assert down or (right and box[0] > before[0] - 60), order[-2:]
        before = (box[0], box[1])


def test_forced_colors_keep_the_bar_and_the_chosen_answer_apart(at):
    page = at(f"/step/coil_power/?job={make_job().key}", **LANDSCAPE, forced_colors="active")
    expect(page.locator("button.bar")).to_have_css("border-top-style", "double")
    chosen = page.locator("input:checked + span").first
    expect(chosen).to_have_css("border-top-style", "double")
    expect(chosen).to_have_css("border-top-width", "6px")


def test_nothing_moves_for_who_wants_no_motion(at):
    page = at(reverse("intake"), **LANDSCAPE)
    moving = """[...document.querySelectorAll("*")].filter((one) =>
      parseFloat(getComputedStyle(one).transitionDuration) > 0).length"""
    assert page.evaluate(moving) == 0
    page.emulate_media(reduced_motion="no-preference")
    assert page.evaluate(moving) > 0
