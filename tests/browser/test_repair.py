"""A change on the car told by touch."""

import pytest
from playwright.sync_api import expect

from jobs.models import Change
from tests.browser.touch import PORTRAIT, answer
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)


def test_a_fitted_clutch_is_told_in_four_touches_and_asks_for_its_number(at):
    job = make_job()
    page = at(f"/repair/?job={job.key}", **PORTRAIT)
    expect(page.get_by_label("Serial number")).to_be_hidden()
    for name, code in (("what", "fitted"), ("part", "clutch"), ("source", "new")):
        answer(page, name, code)
    expect(page.get_by_label("Serial number")).to_be_visible()
    page.get_by_role("button", name="Record this change").click()
    page.wait_for_url("**/job/**")
    change = Change.objects.get()
    assert (change.what, change.part, change.source) == ("fitted", "clutch", "new")
    expect(page.get_by_text("serial number not noted yet")).to_be_visible()


def test_a_gap_that_was_set_asks_for_no_part(at):
    page = at(f"/repair/?job={make_job().key}", **PORTRAIT)
    answer(page, "what", "gap_set")
    expect(page.get_by_text("On which part?")).to_be_hidden()


def test_a_tap_anywhere_on_the_photo_button_chooses_files(at):
    page = at(f"/repair/?job={make_job().key}", **PORTRAIT)
    for words in (page.get_by_text("Add photos"), page.get_by_label("Photo")):
        with page.expect_file_chooser() as chosen:
            words.tap(force=True)  # the words lie over the field and let the tap through
        assert chosen.value.is_multiple()


def test_where_and_what_else_shows_all_of_a_long_sentence(at):
    page = at(f"/repair/?job={make_job().key}", **PORTRAIT)
    where = page.get_by_label("Where, and what else?")
    before = where.bounding_box()
    where.fill("Ground strap left of the battery cleaned and bolted again. " * 5)
    shown, whole = where.evaluate("field => [field.clientHeight, field.scrollHeight]")
    assert whole <= shown
    assert before
    assert shown > before["height"]
