"""Signing in as a person does it: by touch, without script, and with a sign-in that ended."""

import uuid
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from jobs.models import Entry, Person
from jobs.models.people import OWNER, TECHNICIAN
from jobs.pins import hash_pin
from tests.browser.test_look import AXE, BAY, DESK, OPEN_ALL, RULES, TABLET, TOO_SMALL
from tests.browser.touch import opener
from tests.factories import PASSWORD, make_person, make_shop

pytestmark = pytest.mark.django_db(transaction=True)

PIN = "4071"
HTML = {"Content-Type": "text/html"}
Opens = Callable[..., Page]


@pytest.fixture
def opens(browser: Browser, live_server) -> Iterator[Opens]:
    """A page of a fresh browser; an error of its script fails the test."""
    with opener(browser, live_server.url) as go:
        yield lambda path, **screen: go(path, **{**TABLET, **screen})


@pytest.fixture
def quist() -> Person:
    make_shop()
    return make_person(TECHNICIAN, name="E. Quist", pin=hash_pin(PIN, uuid.uuid4()))


@pytest.fixture
def owner() -> Person:
    return make_person(OWNER, name="T. Okafor", pin=hash_pin("5082", uuid.uuid4()))


def sign_in(page: Page, name: str = "E. Quist", pin: str = PIN) -> Page:
    page.goto("/sign_in/")
    page.get_by_role("link", name=name).click()
    page.locator("[data-pin]").fill(pin)
    page.get_by_role("button", name=f"Sign in as {name}").click()
    page.wait_for_url("**/")
    return page


def end_sign_in(page: Page) -> None:
    """The session is over; the tablet stays known."""
    page.context.clear_cookies(name="shopac_sign_in")


def type_in_a_car(page: Page) -> None:
    page.goto("/intake/")
    page.locator("[name=customer_name]").fill("Ida Marwell")
    page.locator("[name=plate]").fill("KX.4731D")
    page.locator("[name=complaint]").fill("Blows warm.\nIn the evening it was cold.")


def test_a_pin_is_typed_by_touch_alone(opens, quist):
    page = opens("/sign_in/")
    page.get_by_role("link", name="E. Quist").tap()
    for digit in ("4", "0", "9", "7", "1"):
        page.locator(".pin-pad button", has_text=digit).tap()
        if digit == "9":
            page.locator(".pin-pad button", has_text="del").tap()
    page.get_by_role("button", name="Sign in as E. Quist").tap()
    page.wait_for_url("**/")
    expect(page.get_by_role("link", name="E. Quist")).to_be_visible()


@pytest.mark.parametrize("screen", [*BAY, *DESK])
def test_all_of_the_pin_page_is_in_view_where_a_pin_is_typed(opens, quist, screen):
    """The key that ends it too: nobody scrolls with gloves to sign in. Zoomed pages aside."""
    width, height = {**BAY, **DESK}[screen]
    page = opens(f"/sign_in/?person={quist.key}", viewport={"width": width, "height": height})
    bar = page.get_by_role("button", name="Sign in as E. Quist").bounding_box()
    assert bar is not None
    assert bar["y"] + bar["height"] <= height * (1.05 if screen == "phone" else 1) or height < 300


def test_without_script_the_tablets_own_number_keys_do(opens, quist):
    page = opens("/sign_in/", java_script_enabled=False)
    sign_in(page)
    expect(page.get_by_role("link", name="E. Quist")).to_be_visible()


def test_a_sign_in_leads_back_to_the_page_that_was_wanted(opens, quist):
    page = opens("/intake/")
    page.get_by_role("link", name="E. Quist").click()
    page.locator("[data-pin]").fill(PIN)
    page.get_by_role("button", name="Sign in as E. Quist").click()
    page.wait_for_url("**/intake/")


def test_a_car_typed_in_without_script_outlives_the_sign_in_and_arrives_once(opens, quist):
    page = sign_in(opens("/sign_in/", java_script_enabled=False))
    type_in_a_car(page)
    key = page.locator("form.ask [name=key]").input_value()
    end_sign_in(page)
    page.get_by_role("button", name="Take in this car").click()
    expect(page.get_by_text("Your sign-in had ended")).to_be_visible()
    expect(page.get_by_text("In the evening it was cold.")).to_be_visible()
    assert Entry.objects.count() == 0
    page.get_by_label("E. Quist").check()
    page.locator("[name=held_pin]").fill("9998")
    page.get_by_role("button", name="Sign and send it").click()
    expect(page.get_by_text("That is not the PIN")).to_be_visible()
    page.locator("[name=held_pin]").fill(PIN)
    page.get_by_role("button", name="Sign and send it").click()
    page.wait_for_url("**/job/**")
    entry = Entry.objects.get()
    assert str(entry.key) == key
    assert entry.fields["complaint"] == ["Blows warm.\nIn the evening it was cold."]


def test_a_form_older_than_the_token_arrives_once_too(opens, quist):
    page = sign_in(opens("/sign_in/", java_script_enabled=False))
    type_in_a_car(page)
    page.context.clear_cookies(name="shopac_csrf")
    page.get_by_role("button", name="Take in this car").click()
    expect(page.get_by_text("too old to be taken as it is")).to_be_visible()
    page.locator("[name=held_pin]").fill(PIN)
    page.get_by_role("button", name="Sign and send it").click()
    page.wait_for_url("**/job/**")
    assert Entry.objects.count() == 1


def test_another_sites_form_is_not_laid_before_anybody_to_sign(opens, quist, live_server):
    page = sign_in(opens("/sign_in/"))
    evil = f"""<form method="post" action="{live_server.url}/intake/">
      <input name="plate" value="EVIL"><button>Win</button></form>"""
    page.route("http://elsewhere.example/", lambda route: route.fulfill(body=evil, headers=HTML))
    page.goto("http://elsewhere.example/")
    page.get_by_role("button", name="Win").click()
    page.wait_for_url("**/intake/")
    expect(page.get_by_text("sent from a page that is not the shop")).to_be_visible()
    expect(page.get_by_text("EVIL")).not_to_be_visible()
    assert Entry.objects.count() == 0


def drawn(opens: Opens) -> Iterator[tuple[str, Page]]:
    """Every page about people, each as it is when somebody needs it."""
    yield "names", opens("/sign_in/")
    page = opens("/sign_in/")
    page.get_by_role("link", name="E. Quist").click()
    expect(page.locator("[data-pin]")).to_be_visible()
    yield "PIN", page
    page.locator("[data-pin]").fill("9998")
    page.get_by_role("button", name="Sign in as").click()
    expect(page.get_by_text("That is not the PIN")).to_be_visible()
    yield "wrong PIN", page
    yield "password", opens("/sign_in/?by=password")
    owner = sign_in(opens("/sign_in/"), "T. Okafor", "5082")
    for name, path in (("person switch", "/sign_in/"), ("people", "/people/"), ("404", "/no/")):
        owner.goto(path)
        yield name, owner
    owner.goto("/people/")
    owner.get_by_role("button", name="Add this person").click()
    expect(owner.get_by_text("Nothing is recorded yet:")).to_be_visible()
    yield "people, nothing typed", owner
    owner.goto("/people/")
    owner.get_by_role("link", name="E. Quist").click()
    expect(owner.get_by_role("button", name="Give this role")).to_be_visible()
    yield "one person", owner
    held = sign_in(opens("/sign_in/", java_script_enabled=True))
    held.goto("/people/")
    yield "not for you", held
    held.goto("/sign_in/")
    end_sign_in(held)
    held.evaluate(
        "const form = document.querySelector('form');"
        " form.action = '/people/change/'; form.removeAttribute('data-leave');"
    )
    held.get_by_role("button", name="Sign E. Quist out").click()
    expect(held.get_by_text("Who sends this?")).to_be_visible()
    yield "held", held


@pytest.mark.parametrize("screens", [BAY, DESK], ids=["bay", "desk"])
def test_everything_touched_is_large_enough_and_no_page_scrolls_sideways(
    opens, quist, owner, screens
):
    def fresh(path: str, **more) -> Page:
        return opens(path, has_touch=screens is BAY, **more)

    found = {}
    for name, page in drawn(fresh):
        page.evaluate(OPEN_ALL)
        for screen, (width, height) in screens.items():
            page.set_viewport_size({"width": width, "height": height})
            small = page.evaluate(TOO_SMALL)
            wider = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
            if small or wider > 0:
                found[name, screen] = (small, wider)
        page.set_viewport_size({"width": 800, "height": 1280})
    assert found == {}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(opens, quist, owner, scheme):
    found = {}
    for name, page in drawn(opens):
        page.evaluate("scheme => document.documentElement.dataset.scheme = scheme", scheme)
        page.evaluate(OPEN_ALL)
        page.evaluate(AXE)
        options = {"runOnly": RULES, "rules": {"color-contrast-enhanced": {"enabled": True}}}
        violations = page.evaluate("options => axe.run(document, options)", options)["violations"]
        if violations:
            found[name] = [(one["id"], one["nodes"][0]["html"][:160]) for one in violations]
    assert found == {}


def test_the_owner_opens_an_empty_shop_on_the_machine_itself(opens, settings, tmp_path):
    settings.DATA = tmp_path
    (tmp_path / "begin_token").write_text("one-word")
    page = opens("/begin/?token=one-word")
    page.evaluate(AXE)
    options = {"runOnly": RULES}
    assert page.evaluate("options => axe.run(document, options)", options)["violations"] == []
    assert page.evaluate(TOO_SMALL) == []
    for name, text in {
        "name": "Hollow Lane Cooling",
        "currency": "usd",
        "owner": "T. Okafor",
        "password": PASSWORD,
        "password_again": PASSWORD,
    }.items():
        page.locator(f"[name={name}]").fill(text)
    page.get_by_label("Letter").check()
    page.get_by_role("button", name="Open the shop").click()
    page.wait_for_url("**/")
    expect(page.get_by_role("link", name="T. Okafor")).to_be_visible()
