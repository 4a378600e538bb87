"""A change on the car told by touch."""

import pytest
from playwright.sync_api import expect

from jobs.entries import CHANGE
from jobs.models import Change, LoopTold
from tests.browser.touch import PORTRAIT, answer
from tests.factories import make_job, tell

pytestmark = pytest.mark.django_db(transaction=True)


def test_a_fitted_clutch_is_told_in_four_touches_and_asks_for_its_number(at):
    job = make_job()
    page = at(f"/repair/?job={job.key}", **PORTRAIT)
    expect(page.get_by_label("Serial number", exact=True)).to_be_hidden()
    for name, code in (("what", "fitted"), ("part", "clutch"), ("source", "new")):
        answer(page, name, code)
    expect(page.get_by_label("Serial number", exact=True)).to_be_visible()
    page.get_by_role("button", name="Record this change").click()
    page.wait_for_url("**/job/**")
    change = Change.objects.get()
    assert (change.what, change.part, change.source) == ("fitted", "clutch", "new")
    expect(page.get_by_text("serial number not noted yet")).to_be_visible()


def test_a_compressor_with_three_parts_of_the_same_opening_takes_seven_touches(at):
    job = make_job()
    page = at(f"/repair/?job={job.key}", **PORTRAIT)
    expect(page.get_by_text("What else, in the same opening?")).to_be_hidden()
    told = [("what", "fitted"), ("part", "compressor"), ("source", "new")]
    for name, code in [*told, *(("also", part) for part in ("drier", "expansion_device", "seal"))]:
        answer(page, name, code)
    expect(page.locator("#id_number_drier")).to_be_visible()
    expect(page.locator("#id_number_condenser")).to_be_hidden()
    expect(page.locator("#id_gap_4")).to_be_hidden()
    page.get_by_role("button", name="Record this change").click()
    page.wait_for_url("**/job/**")
    assert [part.part for part in Change.objects.get().parts] == [
        *("compressor", "drier", "expansion_device", "seal"),
    ]


def test_one_touch_answers_for_all_parts_of_the_loop_that_nothing_is_told_of(at):
    job = make_job()
    tell(CHANGE, job, what="fitted", part="drier", source="new")
    page = at(f"/loop_parts/?job={job.key}", **PORTRAIT)
    answer(page, "condenser", "clean")
    page.get_by_role("button", name="All others: kept, not looked at").click()
    page.get_by_role("button", name="Record what was seen").click()
    page.wait_for_url("**/repair/**")
    told = {row.part: row.told for row in LoopTold.objects.all()}
    rest = dict.fromkeys(("compressor", "expansion_device", "evaporator", "hose", "seal"), "unseen")
    assert told == {"condenser": "clean", **rest}


def test_a_gap_that_was_set_asks_for_no_part(at):
    page = at(f"/repair/?job={make_job().key}", **PORTRAIT)
    answer(page, "what", "gap_set")
    expect(page.get_by_text("On which part?")).to_be_hidden()


def test_a_tap_anywhere_on_the_photo_button_chooses_files(at):
    page = at(f"/repair/?job={make_job().key}", **PORTRAIT)
    for words in (page.get_by_text("Add photos").last, page.get_by_label("Other photos")):
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
