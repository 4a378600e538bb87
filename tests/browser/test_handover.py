"""A job handed over by touch, and what the first screen of its page holds."""

import pytest
from django.urls import reverse
from playwright.sync_api import expect

from diagnostics.evidence.catalogue import KINDS
from jobs.entries import CHANGE, HANDOVER
from jobs.models import Handover, Tag
from tests.browser.touch import LANDSCAPE, PORTRAIT, record
from tests.factories import make_job, make_person, tell

pytestmark = pytest.mark.django_db(transaction=True)


def test_a_job_is_handed_over_in_five_touches_and_taken_back_in_one(at):
    job, to = make_job(), make_person(name="E. Quist")
    page = at(f"/job/?job={job.key}", **PORTRAIT)
    page.get_by_role("link", name="Hand over").tap()
    for words in ("E. Quist", "Hood open", "Engine has to cool"):
        page.locator(".answer", has_text=words).tap()
    record(page)
    row = Handover.objects.get()
    assert row.to == to
    assert row.next_test in KINDS
    note = page.locator("[data-note]")
    expect(note).to_contain_text("Engine has to cool · Hood open")
    note.get_by_role("button", name="Taken back").tap()
    expect(note).to_be_hidden()
    row.refresh_from_db()
    assert row.taken_over


def test_what_another_person_handed_over_is_taken_over_in_one_touch(at):
    job = make_job()
    assert tell(HANDOVER, job, said="Gauges are on.").stands
    page = at(f"/job/?job={job.key}", **PORTRAIT)
    note = page.locator("[data-note]")
    note.get_by_role("button", name="Taken over").tap()
    expect(note).to_be_hidden()
    assert Handover.objects.get().taken_over


def test_a_tag_is_made_by_four_touches_where_nothing_recorded_tells_one(at):
    page = at(f"/job/?job={make_job().key}", **PORTRAIT)
    page.get_by_role("link", name="Tag for the car").tap()
    page.locator(".answer", has_text="Belt off or bypassed").tap()
    record(page)
    assert Tag.objects.get().reasons == ["belt_off"]
    expect(page.locator(".tag-sheet")).to_contain_text("Belt off or bypassed")
    expect(page.get_by_role("button", name="Print this tag")).to_be_visible()


def test_the_printed_tag_is_the_tag_alone(at):
    job = make_job()
    tell(CHANGE, job, what="opened")
    page = at(f"{reverse('tag')}?job={job.key}")
    page.emulate_media(media="print")
    for hidden in (".top", "form", ".bar"):
        expect(page.locator(hidden).first).to_be_hidden()
    box = page.locator(".tag-sheet").bounding_box()
    assert box
    assert abs(box["width"] - 190 / 25.4 * 96) < 2  # half a sheet, in CSS px
    head = page.locator(".tag-head").evaluate("one => parseFloat(getComputedStyle(one).fontSize)")
    assert head > 12 / 25.4 * 96


@pytest.mark.parametrize("screen", [PORTRAIT, LANDSCAPE], ids=["portrait", "landscape"])
def test_the_first_screen_holds_car_loop_switch_next_step_and_open_points(at, screen):
    job = make_job()
    tell(CHANGE, job, what="opened")
    page = at(f"/job/?job={job.key}", **screen)
    height = screen["viewport"]["height"]
    for first in ("h1", "[data-fill=loop]", "#id_failing", ".bar", "[data-points-said]"):
        box = page.locator(first).first.bounding_box()
        assert box, first
        assert box["y"] + box["height"] <= height, first
