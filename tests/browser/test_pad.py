"""The number pad of the bay: which keys it has, where it stands, when it goes."""

import pytest
from playwright.sync_api import expect

from diagnostics.models import Step
from tests.browser.touch import AT_THE_DESK, LANDSCAPE, PHONE, PORTRAIT, answer, keys
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)
# Whether all of the element is on the screen.
IN_VIEW = """one => {
  const { top, bottom } = one.getBoundingClientRect();
  return top >= 0 && bottom <= innerHeight;
}"""
# Where the page stands, so that the element is cut off by the screen's lower end after its field.
AT_THE_FOOT = "one => scrollBy(0, one.getBoundingClientRect().bottom - innerHeight + 10)"


def address(job, kind: str = "coil_power") -> str:
    return f"/step/{kind}/?job={job.key}"


def test_the_unit_key_changes_the_unit_and_what_is_recorded(at):
    page = at(address(make_job()), **PORTRAIT)
    page.locator("#id_amps").tap()
    page.locator(".pad .key", has_text="mA").tap()
    expect(page.locator("#id_amps_unit ~ .unit, #id_amps + .unit")).to_have_text("mA")
    keys(page, "3050")
    expect(page.locator("#meaning")).to_contain_text("3\u00a0050\u00a0mA")
    page.locator(".bar").tap()
    page.wait_for_url("**/job/?job=*")
    assert Step.objects.get().readings["amps"] == {"si": 3.05, "typed": "3050", "unit": "mA"}


def test_below_zero_can_be_typed_where_a_value_can_be_below_zero(at):
    page = at(address(make_job(), "static_pressure"), **PORTRAIT)
    page.locator("#id_low").tap()
    keys(page, "50−")
    assert page.locator("#id_low").input_value() == "−50"
    page.locator("#id_temperature").tap()
    keys(page, "−.5")
    assert page.locator("#id_temperature").input_value() == "−0.5"


def test_there_is_no_minus_where_nothing_is_below_zero(at):
    page = at(address(make_job(), "vacuum_hold"), **PORTRAIT)
    page.locator("[data-quantity]:visible").first.tap()
    expect(page.locator(".pad")).to_be_visible()
    expect(page.locator(".pad .key", has_text="−")).to_be_hidden()


def test_a_vacuum_at_rest_is_taken_without_a_reason(at):
    page = at(address(make_job(), "static_pressure"), **PORTRAIT)
    page.locator("#id_low").tap()
    keys(page, "−50")
    page.locator(".key.next").tap()
    expect(page.locator("#meaning")).to_contain_text("vacuum")
    expect(page.locator(".odd-strip")).to_have_count(0)
    page.locator(".bar").tap()
    page.wait_for_url("**/job/?job=*")
    step = Step.objects.get()
    assert (step.readings["low"]["typed"], step.kept) == ("−50", {})


@pytest.mark.parametrize(("typed", "left"), [("-3", True), ("123.8", False)])
def test_what_is_off_the_scale_stands_on_its_own_side_with_script_and_without(at, typed, left):
    places = []
    for script in (True, False):
        page = at(address(make_job()), java_script_enabled=script)
        page.locator("#id_volts").fill(typed)
        page.locator(".bar").click()
        strip = page.locator(".odd-strip .strip")
        expect(strip.locator(".words")).to_have_text("can be 0–16\u00a0V")
        point = strip.locator(".point").get_attribute("cx") or ""
        # Without script the answer is a new page that draws the strip again: wait for each tick.
        expect(strip.locator(".tick")).to_have_text(["0", "4", "8", "12", "16"])
        places.append(float(point.rstrip("%")))
    assert places[0] == places[1]
    assert (places[0] < 50) is left


@pytest.mark.parametrize("screen", [PORTRAIT, PHONE], ids=["portrait", "phone"])
def test_the_whole_pad_and_its_field_are_on_the_screen_once_it_opens(at, screen):
    page = at(address(make_job()), **screen)
    field = page.locator("#id_volts")
    field.evaluate(AT_THE_FOOT)
    field.tap()
    assert page.locator(".key.next").evaluate(IN_VIEW)
    assert field.evaluate(IN_VIEW)


def test_a_pad_that_is_whole_on_the_screen_moves_nothing_as_it_opens(at):
    page = at(address(make_job()), **PORTRAIT)
    field = page.locator("#id_volts")
    field.evaluate("one => scrollBy(0, one.getBoundingClientRect().top - 300)")
    before = page.evaluate("scrollY")
    field.tap()
    expect(page.locator(".pad")).to_be_visible()
    assert page.evaluate("scrollY") == before > 0


def test_the_last_number_says_done_and_its_key_takes_the_pad_away(at):
    page = at(address(make_job()), **PORTRAIT)
    page.locator("#id_volts").tap()
    expect(page.locator(".key.next")).to_have_text("V, next")
    page.locator("#id_temperature").tap()
    expect(page.locator(".key.next")).to_have_text("°C, done")
    keys(page, "48")
    page.locator(".key.next").tap()
    expect(page.locator(".pad")).to_have_count(0)
    page.locator("#id_temperature").tap()
    expect(page.locator(".pad")).to_be_visible()


def test_an_answer_tapped_takes_the_pad_away_and_stays_where_it_is(at):
    page = at(address(make_job()), **PORTRAIT)
    page.locator("#id_temperature").tap()
    keys(page, "48")
    tapped = page.locator("label:has([name=magnet][value=yes])")
    tapped.scroll_into_view_if_needed()
    before = tapped.bounding_box()
    tapped.tap()
    expect(page.locator(".pad")).to_have_count(0)
    assert page.locator("[name=magnet][value=yes]").is_checked()
    after = tapped.bounding_box()
    assert abs(after["y"] - before["y"]) < 2


def test_beside_the_form_the_pad_stays(at):
    page = at(address(make_job()), **LANDSCAPE)
    page.locator("#id_temperature").tap()
    answer(page, "magnet", "yes")
    expect(page.locator(".pad-side > .pad")).to_be_visible()


def test_at_the_desk_the_keyboard_does_and_there_is_no_pad(at):
    page = at(address(make_job()), **AT_THE_DESK)
    page.locator("#id_volts").click()
    expect(page.locator(".pad")).to_have_count(0)
    assert page.locator("#id_volts").get_attribute("inputmode") == "decimal"


@pytest.mark.parametrize("screen", [LANDSCAPE, PHONE], ids=["landscape", "phone"])
def test_an_answer_below_the_pad_stays_under_the_finger_that_taps_it(at, screen):
    page = at(address(make_job()), **screen)
    page.locator("#id_temperature").tap()
    keys(page, "48")
    answer(page, "magnet", "yes")
    assert page.locator("[name=magnet][value=yes]").is_checked()


def test_the_pad_stays_on_the_screen_when_the_number_before_is_called_odd(at):
    page = at(address(make_job()), **PORTRAIT)
    page.locator("#id_volts").tap()
    keys(page, "123")
    page.locator(".key.next").tap()
    expect(page.locator(".odd-strip")).to_be_visible()
    assert page.locator(".key.next").evaluate(IN_VIEW)
    assert page.locator("#id_amps").evaluate(IN_VIEW)


def test_the_next_key_passes_no_question_by_that_nobody_has_answered(at):
    page = at(address(make_job(), "vacuum_hold"), **PHONE)
    answer(page, "gauge", "needle")
    page.locator("#id_needle").tap()
    keys(page, "29")
    expect(page.locator(".key.next")).to_have_text("inHg, done")
    page.locator(".key.next").tap()
    expect(page.locator(".pad")).to_have_count(0)
    assert page.locator("[data-asked=needle_after]").evaluate(IN_VIEW)
    answer(page, "needle_after", "stayed")
    page.locator("#id_needle").tap()
    page.locator(".key.next").tap()
    expect(page.locator("#id_pumped")).to_be_focused()


@pytest.mark.parametrize("screen", [PORTRAIT, PHONE], ids=["portrait", "phone"])
@pytest.mark.parametrize("kind", ["coil_power", "static_pressure"])
def test_a_keyboard_types_into_each_number_that_was_tapped(at, kind: str, screen):
    """The pad that opens under a field may move the page while its tap still places the cursor."""
    page = at(address(make_job(), kind), **screen)
    for one in page.locator("[data-quantity]").all():
        if one.is_visible():
            one.tap()
            page.keyboard.type("12.3")
            assert one.input_value() == "12.3", one.get_attribute("name")
