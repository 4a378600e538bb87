"""The first test made on a tablet: what is asked, what is told while it is typed, how many taps."""

import json

import pytest
from playwright.sync_api import expect

from diagnostics.models import Step
from tests.browser.test_look import AXE, BAY, DESK, OPEN_ALL, RULES, TOO_SMALL
from tests.browser.touch import AT_THE_DESK, PORTRAIT, answer, keys, opens_well
from tests.diagnostics.few_kinds import know_only
from tests.diagnostics.step_forms import step_of, tell
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)


def address(job) -> str:
    return f"/step/coil_power/?job={job.key}"


def test_it_opens_without_trouble_and_scrolls_down_only(at):
    opens_well(at, "coil_power", {})


def test_questions_follow_from_answers_and_what_is_not_asked_is_not_recorded(at):
    job = make_job()
    page = at(address(job), **PORTRAIT)
    expect(page.locator("[data-asked=hub]")).to_be_hidden()
    expect(page.locator("label:has([name=holds][value=slips])")).to_be_hidden()
    answer(page, "holds", "no")
    answer(page, "pushed", "yes")
    answer(page, "holds", "yes")
    expect(page.locator("[data-asked=pushed]")).to_be_hidden()
    answer(page, "lets_go", "yes")
    answer(page, "engine", "running")
    expect(page.locator("label:has([name=holds][value=slips])")).to_be_visible()
    expect(page.locator("[data-gate]")).to_be_visible()  # not answered is not found free
    answer(page, "hub", "not_done")
    expect(page.locator("[data-gate]")).to_contain_text("turn the hub by hand first")
    answer(page, "hub", "free")
    expect(page.locator("[data-gate]")).to_be_hidden()
    page.locator(".bar").tap()
    page.wait_for_url("**/job/?job=*")
    assert Step.objects.get().readings == {
        "engine": "running",
        "hub": "free",
        "holds": "yes",
        "lets_go": "yes",
    }


def test_an_answer_that_does_not_fit_the_car_is_neither_shown_nor_recorded(at):
    page = at(f"/step/noise/?job={make_job(drive='electric_hv').key}", **PORTRAIT)
    pulley, unit = (page.locator(f"[name=where][value={code}]") for code in ("pulley", "unit"))
    for one, there in ((pulley, False), (unit, True)):
        expect(page.locator("label.answer", has=one)).to_be_visible(visible=there)
        expect(one).to_be_enabled(enabled=there)
    noted = {"key": "", "system": {"drive": "belt_clutch"}}  # as the tablet's newest copy has it
    page.evaluate(
        "job => document.dispatchEvent(new CustomEvent('shopac:job', {detail: job}))", noted
    )
    expect(page.locator("label.answer", has=pulley)).to_be_visible()
    expect(page.locator("label.answer", has=unit)).to_be_hidden()


def test_what_it_shows_comes_below_the_fields_while_they_are_typed(at):
    page = at(address(make_job()), **PORTRAIT)
    below = page.locator("#meaning")
    expect(below).to_contain_text("Nothing is read yet.")
    page.locator("#id_volts").tap()
    keys(page, "12.38")
    page.locator(".key.next").tap()
    keys(page, "3.05")
    expect(below).to_contain_text("With 12.38\u00a0V the coil draws 3.05\u00a0A")
    expect(below).to_contain_text("Relay, fuse, switches and wiring were bypassed")
    assert page.locator("#id_amps").evaluate("one => one === document.activeElement")


@pytest.mark.parametrize(
    ("taps", "most"),
    [
        (["[data-fine]"], 6),
        (["magnet=yes", "holds=no", "pushed=yes"], 8),
    ],
    ids=["fine", "not fine"],
)
def test_a_coil_test_takes_few_touches_beyond_its_digits(at, taps, most, monkeypatch):
    # what comes before it in a bay was made
    know_only(monkeypatch, "coil_power")
    touched = 0

    def touch(selector: str) -> None:
        nonlocal touched
        touched += 1
        page.locator(selector).tap()

    page = at(f"/job/?job={make_job().key}", **PORTRAIT)
    touch("[data-next-step] .bar")
    page.wait_for_url("**/step/coil_power/**")
    touch("label:has([name=ground][value=good])")
    touch("#id_volts")
    keys(page, "12.38")
    touch(".key.next")
    keys(page, "3.05")
    for tap in taps:
        name, _, code = tap.partition("=")
        touch(f"label:has([name={name}][value={code}])" if code else tap)
    touch(".bar")
    page.wait_for_url("**/job/?job=*")
    step = Step.objects.get()
    assert step.readings["amps"]["si"] == pytest.approx(3.05)
    assert step.readings["holds"] == ("yes" if most == 6 else "no")
    assert touched <= most


def test_a_value_off_the_scale_is_told_when_its_field_is_left_and_can_stay_with_a_reason(at):
    page = at(address(make_job()), **PORTRAIT)
    page.locator("#id_volts").tap()
    keys(page, "123.8")
    page.locator(".key.next").tap()
    problem = page.locator("[data-errors-for=volts]")
    expect(problem).to_contain_text("Above 60 V is no clutch coil on a battery")
    expect(page.locator(".odd-strip .words")).to_have_text("can be 0–16\u00a0V")
    expect(page.locator("#id_volts_why")).to_be_hidden()
    page.get_by_role("button", name="Keep 123.8\u00a0V and say why").tap()
    page.locator("#id_volts_why").fill("meter says so")
    answer(page, "holds", "no")
    page.locator(".bar").tap()
    page.wait_for_url("**/job/?job=*")
    assert Step.objects.get().kept == {"volts": "meter says so"}


def keep_button(page):
    """The button that asks for a reason, and whether the reason's field shows: one or the other."""
    shown = page.get_by_role("button", name="and say why"), page.locator("#id_volts_why")
    return [one.is_visible() for one in shown]


def test_the_reason_is_asked_for_by_a_button_or_by_its_field_never_by_both(at):
    page = at(address(make_job()), **PORTRAIT)
    page.locator("#id_volts").fill("123.8")
    page.locator("#id_amps").tap()
    expect(page.locator(".odd-strip")).to_be_visible()
    assert keep_button(page) == [True, False]
    page.get_by_role("button", name="and say why").tap()
    assert keep_button(page) == [False, True]
    page.locator("#id_volts").fill("123.9")
    page.locator("#id_amps").tap()
    expect(page.locator(".odd-strip .said")).to_have_text("123.9\u00a0V")
    assert keep_button(page) == [True, False]
    page.locator(".bar").tap()  # the form comes back and asks for the reason
    expect(page.locator("[data-not-recorded]")).to_contain_text("Nothing is recorded yet")
    page.locator("#id_volts").fill("124")
    page.locator("#id_volts").fill("123.9")
    page.evaluate("document.querySelector('#id_volts_why').value = 'so it is'")
    page.locator("#id_amps").tap()
    expect(page.locator(".odd-strip .said")).to_have_text("123.9\u00a0V")
    assert keep_button(page) == [False, True]


def test_what_was_to_be_mended_is_told_no_more_once_it_is_changed(at):
    page = at(address(make_job()), **PORTRAIT)
    page.locator("#id_volts").fill("12..4")
    page.locator("#id_amps").fill("abc")
    page.locator(".bar").tap()
    line = page.locator("[data-not-recorded]")
    expect(line).to_contain_text("mend voltage")
    page.locator("#id_volts").fill("12.4")
    expect(page.locator("[data-errors-for=volts]")).to_be_hidden()
    expect(page.locator("[data-errors-for=amps]")).to_be_visible()
    expect(line).not_to_contain_text("voltage")
    expect(line).to_contain_text("Nothing is recorded yet: mend current")
    page.locator("#id_amps").fill("3.05")
    expect(line).to_be_empty()
    page.locator("#id_temperature").focus()
    expect(page.locator("[data-errors-for=amps]")).to_be_empty()
    expect(page.locator("[aria-invalid=true]")).to_have_count(0)


def test_a_sentence_that_goes_moves_nothing_from_under_the_finger(at):
    page = at(address(make_job()), **PORTRAIT)
    page.locator("#id_temperature").fill("abc")
    page.locator(".bar").tap()
    expect(page.locator("[data-errors-for=temperature]")).not_to_be_empty()
    page.locator("#id_temperature").tap()
    page.locator("#id_temperature").fill("")
    before = page.locator(".pad").bounding_box()
    keys(page, "48")
    expect(page.locator("[data-errors-for=temperature]")).to_be_hidden()
    assert page.locator(".pad").bounding_box() == before
    answer(page, "magnet", "yes")
    assert page.locator("[name=magnet][value=yes]").is_checked()
    expect(page.locator("[data-errors-for=temperature]")).to_be_empty()


def test_a_value_typed_again_within_the_range_asks_no_more(at):
    page = at(address(make_job()), **AT_THE_DESK)
    page.locator("#id_volts").fill("123.8")
    page.locator("#id_volts").blur()
    problem = page.locator("[data-errors-for=volts]")
    expect(problem).not_to_be_empty()
    page.locator("#id_volts").fill("12.38")
    page.locator("#id_volts").blur()
    expect(problem).to_be_empty()
    expect(page.locator(".odd-strip")).to_have_count(0)


@pytest.mark.parametrize("typed", ["12,38", "12.38 V", "12380 mV", "12380mv", "1,234", "abc", ""])
def test_nothing_is_called_odd_that_the_server_would_take_or_tell_better(at, typed):
    page = at(address(make_job()), **AT_THE_DESK)
    page.locator("#id_volts").fill(typed)
    page.locator("#id_volts").blur()
    expect(page.locator("[data-errors-for=volts]")).to_be_empty()


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("123,8 volts", "123.8 V"), ("١٢٣٫٨", "123.8 V"), ("123 800 mv", "123 800 mV"),
        ("1.238,5", "1 238.5 V"), ("−99", "−99 V"),
    ],
)  # fmt: skip
def test_what_is_off_the_scale_is_told_however_it_is_typed(at, typed, words):
    page = at(address(make_job()), **AT_THE_DESK)
    page.locator("#id_volts").fill(typed)
    page.locator("#id_volts").blur()
    words = words.replace(" ", "\u00a0")
    expect(page.get_by_role("button", name=f"Keep {words} and say why")).to_be_visible()


def test_a_barred_drive_hides_the_form_until_it_was_done_all_the_same(at):
    job = make_job(drive="electric_hv")
    page = at(address(job), **PORTRAIT)
    expect(page.locator("[data-barred]")).to_contain_text("never a 12 V test")
    expect(page.locator("form.step")).to_be_hidden()
    page.locator("[data-form-holder] > summary").tap()
    answer(page, "holds", "no")
    page.locator(".bar").tap()
    page.wait_for_url("**/job/?job=*")
    assert Step.objects.count() == 1


def test_could_not_be_done_is_two_touches(at):
    page = at(address(make_job()), **PORTRAIT)
    page.locator(".not-done > summary").tap()
    page.get_by_role("button", name="No access").tap()
    page.wait_for_url("**/job/?job=*")
    assert Step.objects.get().not_done == "no_access"


def test_a_page_kept_without_a_car_meets_the_car_it_is_opened_for(at):
    job = make_job(drive="electric_hv", voltage="24")
    page = at("/step/coil_power/", **PORTRAIT)
    told = {"drive": "electric_hv", "voltage": "24", "switched_side": "ground"}
    event = {"key": str(job.key), "system": told, "points": [{"code": "consent"}]}
    expect(page.locator("[data-no-consent]")).to_be_hidden()
    page.evaluate(
        "job => document.dispatchEvent(new CustomEvent('shopac:job', {detail: job}))", event
    )
    expect(page.locator("[data-barred]")).to_contain_text("never a 12 V test")
    expect(page.locator("form.step")).to_be_hidden()
    expect(page.locator("[data-remarks] li")).to_have_count(2)
    expect(page.locator("[data-no-consent]")).to_contain_text("what may be spent on testing?")
    assert str(job.key) in (page.locator("#meaning").get_attribute("data-hx-get") or "")


def test_what_shuts_an_order_shuts_it_on_the_page_of_a_tablet_too(at):
    page = at("/step/running_pressures/", **PORTRAIT)
    free = {"kind": "hub_turn", "outcome": "free", "stands": True, "made_at": "1", "shuts": []}
    power = {"kind": "coil_power", "outcome": "takes_hold", "stands": True, "made_at": "2"}
    for shuts, there in (([], False), (["hub_first"], True)):
        steps = [free, power | {"shuts": shuts}]
        job = {"key": "", "system": {"drive": "belt_clutch"}, "steps": steps}
        page.evaluate(
            "job => document.dispatchEvent(new CustomEvent('shopac:job', {detail: job}))", job
        )
        first = page.locator("[data-first]")
        assert ("only a free hub is run" in (first.text_content() or "")) is there


@pytest.mark.parametrize("screens", [BAY, DESK], ids=["bay", "desk"])
def test_everything_touched_is_large_enough_and_no_page_scrolls_sideways(at, screens):
    job = make_job()
    step_of(tell(job, volts="17.2", volts_why="charger on"))
    found = {}
    for path in (address(job), f"/steps/?job={job.key}"):
        page = at(path, has_touch=screens is BAY)
        page.evaluate(OPEN_ALL)
        for screen, (width, height) in screens.items():
            page.set_viewport_size({"width": width, "height": height})
            if page.locator("#id_volts").count():
                page.locator("#id_volts").focus()
            small = page.evaluate(TOO_SMALL)
            wider = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
            if small or wider > 0:
                found[path, screen] = (small, wider)
    assert found == {}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(at, scheme):
    job = make_job()
    step_of(tell(job, volts="17.2", volts_why="charger on"))
    found = {}
    for path in (address(job), f"/steps/?job={job.key}"):
        page = at(path, **PORTRAIT)
        page.evaluate("scheme => document.documentElement.dataset.scheme = scheme", scheme)
        page.evaluate(OPEN_ALL)
        if page.locator("#id_volts").count():
            page.locator("#id_volts").fill("17.2")
            page.locator("#id_amps").fill("3.05")
            page.locator("#id_amps").blur()
            page.locator("#meaning .strip").wait_for()
        page.evaluate(AXE)
        options = {"runOnly": RULES, "rules": {"color-contrast-enhanced": {"enabled": True}}}
        violations = page.evaluate("options => axe.run(document, options)", options)["violations"]
        if violations:
            found[path] = [(one["id"], one["nodes"][0]["html"][:160]) for one in violations]
    assert found == {}, json.dumps(found, indent=1)


def test_without_script_all_is_asked_and_a_problem_comes_back_at_its_field(at):
    page = at(address(make_job()), java_script_enabled=False)
    expect(page.locator("[data-fine]")).to_be_hidden()
    page.locator("#id_volts").fill("123.8")
    page.locator("label:has([name=holds][value=no])").click()
    page.locator(".bar").click()
    expect(page.locator("[data-errors-for=volts]")).to_contain_text("Above 60 V")
    expect(page.locator(".odd-strip .words")).to_have_text("can be 0–16\u00a0V")
    page.locator("#id_volts_why").fill("meter says so")
    page.locator(".bar").click()
    page.wait_for_url("**/job/?job=*")
    assert Step.objects.get().readings["volts"]["typed"] == "123.8"


def test_without_script_could_not_be_done_is_recorded_too(at):
    page = at(address(make_job()), java_script_enabled=False)
    page.locator(".not-done > summary").click()
    page.get_by_role("button", name="Unsafe").click()
    page.wait_for_url("**/job/?job=*")
    assert Step.objects.get().not_done == "unsafe"


@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_a_button_says_that_the_tablet_keeps_it_only_where_the_tablet_does(at, script):
    page = at(f"/step/coil_power/?job={make_job().key}", **PORTRAIT, java_script_enabled=script)
    expect(page.get_by_text("kept on this tablet first")).to_be_visible(visible=script)
