"""What a step was read with: asked, defaulted from the tablet, kept, and told as of that day."""

import uuid
from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from diagnostics.assess import steps_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.read_with import quantities_of
from diagnostics.models import Named, Step
from diagnostics.physics.quantities import QUANTITIES
from diagnostics.points import step_points
from diagnostics.waived import identity
from jobs.entries import EQUIPMENT_CHECK, EQUIPMENT_TABLET
from jobs.logbook import enter
from jobs.models import Equipment, Job
from jobs.models.people import OWNER, TECHNICIAN
from jobs.passes import TABLET_COOKIE, tablet_token
from tests.diagnostics.step_forms import step_of, tell
from tests.factories import make_job, make_person, make_thing, make_told

pytestmark = pytest.mark.django_db
COIL = "/step/coil_power/"


@pytest.fixture
def tablet() -> uuid.UUID:
    return uuid.uuid4()


@pytest.fixture
def browser(tablet: uuid.UUID) -> Client:
    client = Client()
    client.force_login(make_person(TECHNICIAN))
    client.cookies[TABLET_COOKIE] = tablet_token(tablet)
    return client


def lay_beside(tablet: uuid.UUID, *things: Equipment) -> None:
    told = make_told({"things": [str(one.key) for one in things]}, tablet=tablet)
    assert enter(EQUIPMENT_TABLET, told).stands


def page_of(browser: Client, job: Job | None = None, more: str = "") -> str:
    return browser.get(f"{COIL}?job={job.key}{more}" if job else COIL).content.decode()


def tapped(page: str, name: str) -> list[str]:
    """The values of a question's buttons that are tapped."""
    inputs = [one for one in page.split("<input ") if f'name="{name}"' in one]
    return [
        one.partition('value="')[2].partition('"')[0]
        for one in inputs
        if " checked" in one.partition(">")[0]
    ]


def points_of(job: Job) -> list[tuple[str, str]]:
    return [(one.code, one.sentence.replace("\u00a0", " ")) for one in step_points(steps_of(job))]


def test_a_kind_asks_for_each_quantity_that_an_instrument_reads_once():
    assert quantities_of(KINDS["coil_power"]) == ("voltage", "current", "temperature")
    assert quantities_of(KINDS["vacuum_hold"]) == ("vacuum", "pressure", "temperature")
    assert quantities_of(KINDS["recovered_share"]) == ("mass", "temperature", "recovery")
    assert quantities_of(KINDS["leak_search"]) == ("pressure", "leak")
    assert quantities_of(KINDS["noise"]) == ()
    assert {name for kind in KINDS.values() for name in quantities_of(kind)} <= set(QUANTITIES)


def test_a_shop_without_instruments_is_asked_nothing_of_them(browser):
    assert "read-with" not in page_of(browser, make_job()).partition("<main>")[2]


def test_what_lies_beside_the_tablet_stands_tapped_with_accuracy_and_check(browser, tablet):
    make_thing("multimeter")
    mine = make_thing(
        "multimeter", accuracy_voltage="0.5 % + 20 mV", checked_on="2026-08-02", until="2090-08-02"
    )
    lay_beside(tablet, mine)
    shown = page_of(browser, make_job()).replace("\u00a0", " ")
    assert tapped(shown, "with_voltage") == tapped(shown, "with_current") == [mine.key.hex]
    assert "±0.5 % + 20 mV; checked until 2 Aug 2090" in shown
    assert "with_temperature" not in shown  # nothing of the list reads it


def test_on_another_tablet_nothing_is_named_until_it_is_tapped(browser):
    make_thing("multimeter")
    assert tapped(page_of(browser, make_job()), "with_voltage") == ["none"]


def test_the_page_that_a_tablet_keeps_has_them_too_with_keys_that_stay(browser, tablet):
    """The worker takes out what looks like a form's key, so these stand without dashes."""
    mine = make_thing("multimeter")
    lay_beside(tablet, mine)
    shown = page_of(browser)
    assert tapped(shown, "with_voltage") == [mine.key.hex]
    assert str(mine.key) not in shown


def test_the_step_keeps_what_was_named_and_tells_it():
    job, meter = make_job(), make_thing("multimeter", accuracy_voltage="0.5 %")
    step_of(tell(job, with_voltage=meter.key.hex, with_current="none"))
    (one,) = steps_of(job)
    assert [(used.quantity, used.thing) for used in one.read_with] == [("voltage", meter)]
    assert one.read_with[0].line == "Multimeter 1 (±0.5\u00a0%; check not noted)"
    page = Client()
    page.force_login(make_person())
    shown = page.get(f"/steps/?job={job.key}").content.decode()
    assert "Voltage read with</dt><dd><bdi>Multimeter 1" in shown


def test_a_form_that_came_back_keeps_what_was_tapped_the_tablet_s_own_or_not(browser, tablet):
    mine, other = make_thing("multimeter"), make_thing("multimeter")
    lay_beside(tablet, mine)
    told = {"test_version": "1", "volts": "x", "with_voltage": other.key.hex}
    response = browser.post(f"{COIL}?job={make_job().key}", told)
    assert response.status_code == 422
    assert tapped(response.content.decode(), "with_voltage") == [other.key.hex]


def test_a_correction_begins_with_what_the_step_named_not_with_the_tablet(browser, tablet):
    job = make_job()
    mine, other = make_thing("multimeter"), make_thing("multimeter")
    lay_beside(tablet, mine)
    step = step_of(tell(job, with_voltage=other.key.hex))
    shown = page_of(browser, job, f"&corrects={step.key}")
    assert tapped(shown, "with_voltage") == [other.key.hex]
    assert tapped(shown, "with_current") == ["none"]


@pytest.mark.parametrize("told", ["x", "6f0d3a52-51f3-4c0e-9f1f-3d0c2a7f8b19", "\u00e9" * 90])
def test_an_instrument_that_is_not_in_the_list_is_kept_as_told_and_marked(told):
    job = make_job()
    step = step_of(tell(job, with_voltage=told))
    assert not Named.objects.exists()
    assert f"Read with “{told}”" in step.marks_said[0]["sentence"]
    assert [code for code, _ in points_of(job)] == ["unknown_instrument"]


def test_the_same_step_sent_twice_names_its_instruments_once():
    job, meter, key = make_job(), make_thing("multimeter"), uuid.uuid4()
    for _ in range(2):
        tell(job, make_person(), told={"key": key}, with_voltage=meter.key.hex)
    assert Step.objects.count() == Named.objects.count() == 1


def test_an_instrument_overdue_that_day_is_a_word_and_an_open_point_and_no_refusal(browser, tablet):
    job = make_job()
    meter = make_thing("multimeter", checked_on="2024-11-02", until="2025-11-01")
    lay_beside(tablet, meter)
    shown = page_of(browser, job).replace("\u00a0", " ")
    assert "<strong>was to be checked by 1 Nov 2025</strong>" in shown
    step_of(tell(job, with_voltage=meter.key.hex, with_current=meter.key.hex))
    sentence = "Step 1: Multimeter 1 was to be checked by 1 Nov 2025."
    assert points_of(job) == [("check_overdue", sentence)]


def test_two_overdue_instruments_of_one_step_are_two_points_each_waived_on_its_own():
    job = make_job()
    days = {"checked_on": "2024-11-02", "until": "2025-11-01"}
    one, two = make_thing("multimeter", **days), make_thing("multimeter", **days)
    step_of(tell(job, with_voltage=one.key.hex, with_current=two.key.hex))
    points = step_points(steps_of(job))
    assert [point.code for point in points] == ["check_overdue"] * 2
    assert len({identity(point) for point in points}) == 2


def test_the_point_goes_once_the_check_that_covered_that_day_is_noted():
    job = make_job()
    meter = make_thing("multimeter", checked_on="2024-11-02", until="2025-11-01")
    step_of(tell(job, with_voltage=meter.key.hex))
    today = timezone.localdate()
    told = {"thing": str(meter.key), "checked_on": (today - timedelta(days=3)).isoformat()}
    assert enter(EQUIPMENT_CHECK, make_told(told, make_person(OWNER))).stands
    assert points_of(job) == []


def test_one_coarser_than_the_finding_was_worked_out_with_is_an_open_point():
    """At 12.38 V, 5 % is 0.62 V; the finding rests on 0.5 % and 0.02 V."""
    job = make_job()
    coarse, fine = (make_thing("multimeter", accuracy_voltage=one) for one in ("5 %", "0.1 %"))
    step_of(tell(job, with_voltage=fine.key.hex))
    assert points_of(job) == []
    step_of(tell(job, with_voltage=coarse.key.hex))
    ((code, sentence),) = points_of(job)
    assert code == "coarser"
    assert "Multimeter 1 states ±5 %; the finding was worked out with volts ±0.5 %" in sentence


def test_a_share_of_a_temperature_is_of_degrees_celsius():
    """2 % of 48 °C is 1 °C; of 321 K it would be 6."""
    job = make_job()
    probe = make_thing("thermometer", accuracy_temperature="2 %")
    step_of(tell(job, temperature="48", with_temperature=probe.key.hex))
    assert points_of(job) == []


def test_steps_with_many_instruments_take_as_many_queries(django_assert_num_queries):
    job = make_job()
    things = [make_thing("multimeter", checked_on="2026-08-02") for _ in range(4)]
    step_of(tell(job, with_voltage=things[0].key.hex))
    with django_assert_num_queries(
        6
    ):  # states, overrides, shop, steps, instruments named, their checks
        steps_of(job)
    for one in things:
        step_of(tell(job, with_voltage=one.key.hex, with_current=things[1].key.hex))
    with django_assert_num_queries(5):
        steps_of(job)
