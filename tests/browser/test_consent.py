"""Asking somebody to agree by touch: a signature drawn on a tablet, a message in a few taps."""

import re

import pytest
from playwright.sync_api import Page, expect

from jobs.models import Consent
from tests.browser.touch import PORTRAIT, answer
from tests.jobs.agreeing import ask, came_in, last, make_estimate

pytestmark = pytest.mark.django_db(transaction=True)


def draw(page: Page, *points: tuple[float, float]) -> None:
    """One stroke of a finger; points are shares of the field."""
    field = page.locator("[data-sign]")
    field.scroll_into_view_if_needed()
    box = field.bounding_box()
    assert box
    glass = page.context.new_cdp_session(page)
    for at, (x, y) in enumerate(points):
        touch = {"x": box["x"] + x * box["width"], "y": box["y"] + y * box["height"]}
        kind = "touchMove" if at else "touchStart"
        glass.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [touch]})
    page.wait_for_timeout(200)  # a finger that is lifted in flight makes the next tap a stop
    glass.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def test_a_name_is_drawn_with_a_finger_kept_as_points_and_drawn_again(at):
    job = came_in()
    make_estimate(job)
    page = at(f"/consent/?job={job.key}", **PORTRAIT)
    expect(page.locator("[data-sign]")).to_be_hidden()
    answer(page, "consent_outcome", "agreed")
    answer(page, "consent_how", "in_person")
    draw(page, (0.5, 0.5))
    page.locator("button.bar").tap()
    expect(page.locator("#id_signature_error")).to_contain_text("That is a dot.")
    page.get_by_role("button", name="Clear").tap()
    draw(page, (0.1, 0.6), (0.3, 0.2), (0.5, 0.8), (0.7, 0.3))
    draw(page, (0.75, 0.5), (0.9, 0.55))
    page.locator("button.bar").tap()
    page.wait_for_url("**/job/**")
    strokes = last().strokes
    assert [len(stroke) // 2 for stroke in strokes] == [4, 2]
    assert strokes[0][:2] == pytest.approx([100, 180], abs=4)
    drawn = page.get_by_role("img", name="Signature to consent no. 2").locator("path")
    expect(drawn).to_have_attribute("d", re.compile(f"^M{strokes[0][0]} {strokes[0][1]}L"))


def test_a_yes_by_message_takes_four_taps_from_the_job(at):
    job = came_in()
    make_estimate(job)
    page = at(f"/job/?job={job.key}", **PORTRAIT)
    with page.expect_navigation():
        page.get_by_role("link", name="Consent", exact=True).first.tap()
    answer(page, "consent_outcome", "agreed")
    answer(page, "consent_how", "message")
    page.locator("button.bar").tap()
    page.wait_for_url("**/job/**")
    one = Consent.objects.get(number=2)
    assert (one.amount, one.number_called, one.giver) == (56000, "555 010 0199", "customer")


def test_work_in_words_and_its_sums_stand_there_before_anybody_signs(at):
    job = came_in()
    ask(job, make_estimate(job, 104286))
    page = at(f"/consent/?job={job.key}", **PORTRAIT)
    shown = page.locator("[data-sums]")
    expect(shown).to_be_hidden()
    page.locator("[name=work]").fill("Dye into the loop")
    page.locator("[name=consent_added]").fill("20")
    expect(shown).to_have_text(
        "Work: Dye into the loop\nAgreed before: 1\u00a0042.86\u00a0EUR\n"
        "Added cost: 20.00\u00a0EUR\nRevised total: 1\u00a0062.86\u00a0EUR"
    )
    answer(page, "consent_outcome", "agreed")
    answer(page, "consent_how", "phone")
    page.locator("button.bar").tap()
    page.wait_for_url("**/job/**")
    one = last()
    assert one.amount == 106286
    assert one.text.startswith(
        "Work: Dye into the loop\nAgreed before: 1\u00a0042.86\u00a0EUR\n"
        "Added cost: 20.00\u00a0EUR\nRevised total: 1\u00a0062.86\u00a0EUR\n"
    )
