"""What a person meets on the pages: targets large enough, nothing wider than the screen, readable.

Sizes in millimeters follow MIL-STD-1472 (keys for gloved hands, 19 mm). What is asked of every page
is in tests/browser/test_every_page.py; here is what is asked of some.
"""

import json
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path

import axe_playwright_python
import pytest
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Browser, Page, expect

from jobs.entries import CHANGE, FOLLOWS, HANDOVER, PHOTO, WAITING
from jobs.logbook import enter
from jobs.models import Photo
from jobs.models.people import OWNER
from jobs.passes import TABLET_COOKIE, tablet_token
from jobs.vin import mark
from tests.browser.touch import opener
from tests.diagnostics.test_issue import freeze
from tests.diagnostics.test_record_steps import make_step
from tests.factories import INTAKE_FIELDS, make_job, make_person, make_told, tell
from tests.pictures import jpeg, sent

pytestmark = pytest.mark.django_db(transaction=True)

BAY = {
    "landscape tablet": (1024, 768),
    "portrait tablet": (800, 1280),
    "phone": (390, 844),
    "small phone": (360, 780),
    "zoomed to 400 %": (320, 256),
}
DESK = {"desk": (1440, 900)}
TABLET = {"viewport": {"width": 800, "height": 1280}, "has_touch": True}
AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text()
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# The smallest side of everything that can be touched, against the page's own --t.
TOO_SMALL = """() => {
  const probe = document.createElement("div");
  probe.setAttribute("class", "button");
  document.body.append(probe);
  const least = parseFloat(getComputedStyle(probe).minHeight) - 0.5;
  probe.remove();
  const touched = "a, button, input:not([type=hidden]), select, textarea, summary";
  return [...document.querySelectorAll(touched)].filter((one) => one.checkVisibility())
    .map((one) => [one, (one.matches(".whole") ? one.closest("tr, .row") : one)])
    .filter(([, box]) => {
      const { width, height } = box.getBoundingClientRect();
      return width < least || height < least;
    })
    .map(([one]) => one.outerHTML.slice(0, 120));
}"""


# Words of answers and buttons that stand on two lines: broken inside, not at a hyphen.
# A word may break at a soft hyphen of ours, and there alone.
BROKEN = """() => {
  const broken = [];
  for (const one of document.querySelectorAll(".answer > span, .button, .bar, .key")) {
    const walker = document.createTreeWalker(one, NodeFilter.SHOW_TEXT);
    for (let text; one.checkVisibility() && (text = walker.nextNode()); ) {
      for (const { 0: word, index } of text.data.matchAll(/[^\\s\\u00ad-]+/g)) {
        const range = new Range();
        range.setStart(text, index);
        range.setEnd(text, index + word.length);
        const lines = new Set([...range.getClientRects()].map((box) => Math.round(box.top)));
        const most = text.data[index - 1] === "\\u00ad" ? 2 : 1; // its hyphen stands above
        if (lines.size > most) broken.push(word);
      }
    }
  }
  return broken;
}"""
# Frames that can be touched and leave less than a millimeter between them.
TOUCHING = """() => {
  const frames = [...document.querySelectorAll(".answer, .button, .bar, .key, .typed")]
    .filter((one) => one.checkVisibility());
  const near = [];
  frames.forEach((one, at) => {
    const a = one.getBoundingClientRect();
    for (const other of frames.slice(at + 1)) {
      const b = other.getBoundingClientRect();
      const across = Math.max(a.left, b.left) - Math.min(a.right, b.right);
      const down = Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom);
      if (!one.contains(other) && Math.max(across, down) < 5) {
        near.push([one.innerText || one.className, other.innerText || other.className]);
      }
    }
  });
  return near;
}"""
# How close a question stands under what is above it, where that is no heading.
CLOSE = """() => [...document.querySelectorAll("form.ask > :is(.hint, .field) + .field")]
  .filter((one) => one.checkVisibility())
  .filter((one) => one.getBoundingClientRect().top
    - one.previousElementSibling.getBoundingClientRect().bottom < 16)
  .map((one) => one.innerText.slice(0, 40))"""


# How many lines the text of an element takes.
LINES = """one => {
  const range = document.createRange();
  range.selectNodeContents(one);
  return new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size;
}"""
# What is filled or framed as a button and wider than a line reads well: 46 rem.
TOO_WIDE = """() => {
  const most = 46 * parseFloat(getComputedStyle(document.documentElement).fontSize) + 0.5;
  return [...document.querySelectorAll(".bar, .button, .caution")]
    .filter((one) => one.checkVisibility() && one.offsetWidth > most)
    .map((one) => one.outerHTML.slice(0, 120));
}"""
OPEN_ALL = "document.querySelectorAll('details').forEach((one) => { one.open = true })"


@pytest.fixture
def at(browser: Browser, live_server) -> Iterator[Callable[..., Page]]:
    """Open a page of ours as somebody signed in; an error of its script fails the test."""
    client = Client()
    client.force_login(make_person(OWNER))
    client.cookies[TABLET_COOKIE] = tablet_token(uuid.uuid4())
    with opener(browser, live_server.url, client) as go:
        yield go


def photographed(job) -> Photo:
    """A photo at a place of a car whose system has everything."""
    told = {"place": "condenser", "about": "serial", "note": "Behind the grille."}
    assert enter(PHOTO, make_told(told, job_key=job.key, photos=[sent(jpeg())])).stands
    return Photo.objects.get()


def pages() -> dict[str, str]:
    """Every page of ours that is drawn for people, with a car that leaves much open."""
    whole = make_job()
    nothing = dict.fromkeys(INTAKE_FIELDS) | {"vin": "1J9RP1A36A164434", "plate": "RV.4736A"}
    job = make_job(
        **nothing | {"complaint": "Warm.", "customer_name": "Bartholomäus Featherstonehaugh-Höll"}
    )
    make_step(whole, seen="A click was heard.")
    assert freeze(whole).stands
    assert tell(WAITING, whole, what="vacuum", minutes="45").stands
    assert tell(WAITING, whole, what="part", words="receiver-drier").stands
    mended = make_job()
    make_step(mended, corrects=make_step(mended).key)
    assert tell(CHANGE, mended, what="fitted", part="clutch", source="new").stands
    assert tell(FOLLOWS, mended, follows=str(whole.key)).stands
    make_step(mended)
    assert tell(CHANGE, mended, what="opened").stands
    note = {"stands": ["open", "no_drier"], "next_test": "hub_turn", "said": "Bolts in the trunk."}
    assert tell(HANDOVER, mended, **note).stands
    photo = photographed(whole)
    return {
        "photo": f"{reverse('photo')}?job={whole.key}",
        "one photo": reverse("photos_view", args=[photo.entry.key, photo.number]),
        "board": reverse("board"),
        "customer's history": f"{reverse('history')}?customer={whole.customer.key}",
        "car's history": f"{reverse('history')}?vehicle={mended.vehicle.key}",
        "others to merge": f"{reverse('merge')}?customer={whole.customer.key}",
        "two customers": (
            f"{reverse('merge')}?customer={whole.customer.key}&other={job.customer.key}"
        ),
        "two cars": f"{reverse('merge')}?vehicle={whole.vehicle.key}&other={mended.vehicle.key}",
        "redact": f"{reverse('redact')}?customer={whole.customer.key}",
        "follows": f"{reverse('follows')}?job={mended.key}",
        "find": reverse("find"),
        "found": f"{reverse('find')}?words=473",
        "found nothing": f"{reverse('find')}?words=zzz",
        "intake": reverse("intake"),
        "job": f"{reverse('job')}?job={job.key}",
        "complete job": f"{reverse('job')}?job={whole.key}",
        "frozen record": f"{reverse('record')}?job={whole.key}",
        "second issue": f"{reverse('issue')}?job={whole.key}",
        "photos": f"{reverse('photos')}?job={whole.key}",
        "step": f"{reverse('step', args=['coil_power'])}?job={mended.key}",
        **{
            f"{name} of a mended car": f"{reverse(name)}?job={mended.key}"
            for name in ("job", "steps", "repair", "handover", "tag", "issue", "record")
        },
        **{name: reverse(name) for name in ("sign_in", "people", "unsent")},
        **{
            name: f"{reverse(name)}?job={job.key}"
            for name in ("customer", "vehicle", "system", "consent", "record", "issue")
        },
        **{
            f"{name} of a car that waits": f"{reverse(name)}?job={whole.key}"
            for name in ("place", "waiting", "job")
        },
    }


def test_at_the_desk_everything_touched_is_large_enough_and_nothing_scrolls_sideways(at):
    """In the bay: tests/browser/test_every_page.py."""
    found = {}
    for name, path in pages().items():
        page = at(path)
        page.evaluate(OPEN_ALL)
        for screen, (width, height) in DESK.items():
            page.set_viewport_size({"width": width, "height": height})
            small = page.evaluate(TOO_SMALL)
            wider = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
            if small or wider > 0:
                found[name, screen] = (small, wider)
    assert found == {}


def test_at_the_desk_no_button_is_as_wide_as_the_screen(at):
    found = {}
    for name, path in pages().items():
        page = at(path, viewport={"width": 1440, "height": 900})
        page.evaluate(OPEN_ALL)
        if wide := page.evaluate(TOO_WIDE):
            found[name] = wide
    assert found == {}


@pytest.mark.parametrize("width", [800, 1024])
def test_a_long_title_and_the_kept_words_take_two_lines_each(at, width):
    path = reverse("step", args=["line_temperatures"])
    page = at(f"{path}?job={make_job().key}", viewport={"width": width, "height": 1280})
    kept = page.locator("#kept")
    for words in (
        "Shop server not answering since 14:32",
        "12 kept here, not sent, 3 photos, since 14:32",
        "2 need you, 12 to send; no server since 14:32",
    ):
        kept.evaluate("(one, words) => { one.hidden = false; one.textContent = words }", words)
        assert kept.evaluate(LINES) <= 2
        assert page.locator("h1").evaluate(LINES) <= 2


def test_a_car_is_taken_in_by_taps_and_a_problem_is_shown_at_its_field(at):
    page = at(reverse("intake"), **TABLET)
    page.fill("[name=customer_name]", "Ida Marwell")
    page.fill("[name=plate]", "KX.4731D")
    page.fill("[name=complaint]", "Warm.")
    assert not page.is_visible("[name=topped_up_with]")
    page.locator("label:has([name=topped_up][value=yes])").tap()
    assert page.is_visible("[name=topped_up_with]")
    page.locator("summary", has_text="Its air conditioning").tap()
    page.fill("[name=label_charge]", "6500 g")
    page.locator(".bar").tap()
    problem = page.locator("[data-errors-for=label_charge]")
    problem.filter(has_text="more than a car holds").wait_for()
    page.fill("[name=label_charge_why]", "coach")
    page.locator(".bar").tap()
    page.wait_for_url("**/job/?job=*")
    assert "KX.4731D" in page.inner_text("h1")
    assert "more than a car holds" in page.inner_text("main")


def test_only_belt_and_electric_asks_for_a_magnetic_clutch(at):
    page = at(f"{reverse('system')}?job={make_job().key}", **TABLET)
    question = page.get_by_text("Is there a magnetic clutch?")
    expect(question).to_be_hidden()
    page.locator("label:has([name=drive][value=belt_electric])").tap()
    expect(question).to_be_visible()


def test_the_failing_now_switch_acts_at_once(at):
    job = make_job()
    page = at(f"{reverse('job')}?job={job.key}", **TABLET)
    with page.expect_response(lambda answer: answer.request.method == "POST"):
        page.locator("label:has([name=failing][value=yes])").tap()
    job.refresh_from_db()
    assert job.failing_now == "yes"


def test_a_page_kept_without_a_car_is_filled_from_the_job_s_json(at):
    nothing = dict.fromkeys(INTAKE_FIELDS) | {"plate": "RV.4736A", "drive": "belt_clutch"}
    job = make_job(**nothing | {"complaint": "Warm.", "customer_name": "Ida", "make_model": "Pavo"})
    neutral: dict[str, str] = {}

    def kept(route, request):
        name = request.url.split("/")[3]
        route.fulfill(body=neutral[name], content_type="text/html")

    page = at("/unsent/", **TABLET)
    for name in ("job", "system"):
        neutral[name] = page.request.get(reverse(name)).text()
        assert "RV.4736A" not in neutral[name]
        page.route(f"**/{name}/?job=*", kept)
    page.goto(f"{reverse('job')}?job={job.key}")
    page.wait_for_function("document.querySelector('h1').textContent === 'RV.4736A'")
    assert page.inner_text("[data-fill=car]") == "Pavo"
    assert "Consent no. 1" in page.inner_text("[data-points]")
    link = page.locator(".bar:visible").get_attribute("href") or ""
    assert link.startswith("/step/")
    assert link.endswith(f"/?job={job.key}")
    page.locator("[data-points] a", has_text="Air conditioning").tap()
    page.wait_for_selector("[name=drive][value=belt_clutch]:checked", state="attached")
    assert page.get_attribute("[data-to-job]", "href") == f"/job/?job={job.key}"


def test_the_page_says_of_a_vin_what_the_server_says(at):
    samples = json.loads((Path(__file__).parents[1] / "jobs" / "vins.json").read_text())
    page = at(reverse("intake"))
    vins = [sample["vin"] for sample in samples] + ["", "1", "wg4ah59h54g118341", "Ø" * 17]
    said = page.evaluate("vins => vins.map((vin) => window.shopac.vinMark(vin))", vins)
    assert said == [mark(vin) for vin in vins]
