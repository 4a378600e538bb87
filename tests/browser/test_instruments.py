"""Instruments by touch: laid beside a tablet, named on a step, changed by one tap; seen by axe."""

import uuid
from collections.abc import Callable, Iterator
from contextlib import ExitStack

import pytest
from django.test import Client
from playwright.sync_api import Browser, Page, expect

from diagnostics.models import Named
from jobs.models import Qualification
from jobs.models.people import OWNER, TECHNICIAN
from jobs.passes import TABLET_COOKIE, tablet_token
from tests.browser.test_look import AXE, OPEN_ALL, RULES, TOO_SMALL
from tests.browser.touch import AT_THE_DESK, LANDSCAPE, PHONE, PORTRAIT, answer, opener, record
from tests.factories import make_job, make_person, make_shop, make_thing, qualify

pytestmark = pytest.mark.django_db(transaction=True)
Opens = Callable[..., Page]


@pytest.fixture
def opens(browser: Browser, live_server) -> Iterator[Callable[[str], Opens]]:
    """Pages of somebody of a role, on one tablet, without a pass: forms post by themselves."""
    client = Client()

    def sign_in(role: str) -> Opens:
        make_shop()
        client.force_login(make_person(role, name="T. Okafor"))
        client.cookies[TABLET_COOKIE] = tablet_token(uuid.uuid4())
        return held.enter_context(opener(browser, live_server.url, client))

    with ExitStack() as held:
        yield sign_in


def test_what_lies_beside_the_tablet_is_named_by_a_step_and_changed_by_one_tap(opens):
    go = opens(TECHNICIAN)
    make_thing("multimeter")
    make_thing("multimeter", name="Bench meter")
    page = go("/equipment/", **PORTRAIT)
    page.locator("label.answer", has_text="Bench meter").tap()
    page.get_by_role("button", name="Keep it so for this tablet").tap()
    expect(page.locator("[data-laid]")).to_be_visible()

    page.goto(f"/step/coil_power/?job={make_job().key}")
    beside = page.get_by_role("radiogroup", name="Voltage read with")
    expect(beside.get_by_role("radio", name="Bench meter")).to_be_checked()
    page.locator("#id_with_current label", has_text="Multimeter 1").tap()  # the one tap
    answer(page, "ground", "good")
    page.locator("[name=volts]").fill("12.38")
    page.locator("[name=amps]").fill("3.05")
    record(page)
    named = Named.objects.order_by("quantity").values_list("quantity", "equipment__name")
    assert list(named) == [("current", "Multimeter 1"), ("voltage", "Bench meter")]


def test_a_card_is_added_in_five_taps_beyond_what_is_typed(opens):
    go = opens(OWNER)
    sand = make_person(TECHNICIAN, name="R. Sand")
    page = go(f"/people/?person={sand.key}", **PORTRAIT)
    page.get_by_text("Add a qualification").first.tap()
    answer(page, "kind", "refrigerant")
    page.locator("[name=number]").fill("HL 4471")
    page.locator("[name=valid_from]").fill("2025-03-04")
    page.locator("label:has([name=open_end])").tap()
    with page.expect_navigation():
        page.get_by_role("button", name="Add this qualification").tap()
    assert Qualification.objects.get().number == "HL 4471"


def test_of_a_new_instrument_only_what_its_kind_reads_is_asked(opens):
    page = opens(OWNER)("/equipment/?new=1", **PORTRAIT)
    answer(page, "kind", "scale")
    expect(page.locator("[name=accuracy_mass]")).to_be_visible()
    expect(page.locator("[name=accuracy_voltage]")).to_be_hidden()
    expect(page.locator("[data-recovers]")).to_be_hidden()
    answer(page, "kind", "recovery_machine")
    expect(page.locator("[data-recovers]")).to_be_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_and_all_that_is_touched_is_large_enough(opens, scheme):
    go = opens(OWNER)
    sand = make_person(TECHNICIAN, name="R. Sand")
    qualify(sand, valid_to="2026-03-03")
    thing = make_thing("multimeter", checked_on="2024-11-02", until="2025-11-01")
    job = make_job()
    pages = (
        "/people/",
        f"/people/?person={sand.key}",
        "/equipment/",
        "/equipment/?new=1",
        f"/equipment/?thing={thing.key}",
        f"/step/coil_power/?job={job.key}",
    )
    options = {"runOnly": RULES, "rules": {"color-contrast-enhanced": {"enabled": True}}}
    for screen in (PORTRAIT, LANDSCAPE, PHONE, AT_THE_DESK):
        page = go("/people/", **screen)
        for address in pages:
            page.goto(address)
            page.evaluate("scheme => document.documentElement.dataset.scheme = scheme", scheme)
            page.evaluate(OPEN_ALL)
            wide = page.evaluate("document.documentElement.scrollWidth > innerWidth")
            assert not wide, (address, screen)
            if screen is not AT_THE_DESK:
                assert page.evaluate(TOO_SMALL) == [], (address, screen)
            if screen is PORTRAIT:
                page.evaluate(AXE)
                found = page.evaluate("options => axe.run(document, options)", options)
                wrong = [(one["id"], one["nodes"][0]["html"][:160]) for one in found["violations"]]
                assert wrong == [], (address, wrong)
