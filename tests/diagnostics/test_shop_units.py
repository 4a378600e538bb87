"""Tests asked, told and recorded in the shop's units and under the shop's air."""

import json
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.assess import steps_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.readings import Reading, from_json
from diagnostics.forms.step import StepForm
from diagnostics.physics.shown_units import ShownIn
from diagnostics.record.readings import number_text
from diagnostics.shop_told import shop_told
from jobs.models import Job, ShopChange
from jobs.models.people import TECHNICIAN
from tests.diagnostics.step_forms import some_key, tell
from tests.diagnostics.test_record_frozen import frozen
from tests.factories import make_job, make_person
from tests.jobs.frozen_schema import faults
from tests.jobs.test_settings import UNITS
from tests.jobs.test_settings import tell as tell_settings

pytestmark = pytest.mark.django_db
AT_REST: dict[str, Any] = {
    "test_kind": "static_pressure",
    "low": "68",
    "low_unit": "psi",
    "temperature": "22 °C",
    "temperature_unit": "°F",
    "soaked": "yes",
} | dict.fromkeys(("engine", "ground", "volts", "volts_unit", "amps", "amps_unit"))
BAR = Reading(469_000.0, "4.69", "bar")
NO_MORE: dict[str, Any] = dict.fromkeys(("magnet", "holds", "pushed"))


@pytest.fixture
def signed_in() -> Client:
    client = Client()
    client.force_login(make_person(TECHNICIAN))
    return client


def american() -> None:
    assert tell_settings(**UNITS).stands


def at_rest(job: Job, **fields):
    outcome = tell(job, None, **AT_REST, **NO_MORE, **fields)
    assert outcome.stands, outcome.form and outcome.form.errors
    return outcome


def shown(client: Client, page: str, job: Job | None = None, *parts: str) -> str:
    asked = {"job": str(job.key)} if job else {}
    return client.get(reverse(page, args=parts), asked).content.decode()


def test_a_field_begins_with_the_shops_unit_and_offers_the_others(signed_in):
    job = make_job()
    american()
    page = shown(signed_in, "step", job, "static_pressure")
    assert 'name="low_unit" value="psi"' in page
    assert '<span class="unit" id="id_low_unit">psi</span>' in page
    assert "psi, kPa too, bar too." in page
    assert 'name="temperature_unit" value="°F"' in page


def test_without_a_choice_a_field_begins_as_its_kind_has_it(signed_in):
    page = shown(signed_in, "step", make_job(), "static_pressure")
    assert 'name="low_unit" value="kPa"' in page
    assert "kPa, psi too, bar too." in page


def test_the_page_kept_without_a_car_begins_with_the_shops_units_too(signed_in):
    american()
    page = shown(signed_in, "step", None, "static_pressure")
    assert 'name="low_unit" value="psi"' in page
    assert '"shown": {"kPa": "psi"' in page


def test_a_correction_begins_with_the_unit_that_was_typed(signed_in):
    job = make_job()
    american()
    outcome = at_rest(job, high="4.7", high_unit="bar")
    told = {"job": str(job.key), "corrects": str(outcome.key)}
    page = signed_in.get(reverse("step", args=["static_pressure"]), told).content.decode()
    assert 'name="high_unit" value="bar"' in page
    assert '<span class="unit" id="id_high_unit">bar</span>' in page


def test_a_page_from_before_a_change_is_read_in_the_unit_it_says(signed_in):
    job = make_job()
    american()
    at_rest(job, high="470", high_unit="kPa")
    assert job.steps.get().readings["high"]["si"] == 470_000


def test_a_number_out_of_reach_is_told_with_its_range_in_the_shops_unit(signed_in):
    job = make_job()
    american()
    told = {"test_kind": "static_pressure", "test_version": "1", "low": "900", "low_unit": "psi"}
    page = signed_in.post(
        f"{reverse('step', args=['static_pressure'])}?job={job.key}", {"key": some_key(), **told}
    )
    assert page.status_code == 422
    assert "can be −15\u00a0to\u00a0218\u00a0psi" in page.content.decode()


def test_meaning_steps_and_job_tell_in_the_shops_units_and_typed_as_typed(signed_in):
    job = make_job()
    american()
    at_rest(job)
    page = shown(signed_in, "steps", job)
    assert "68\u00a0psi low, at 22\u00a0°C." in page
    assert "gauge pressure, psi" in page
    assert "temperature, °F" in page
    assert "R-134a at rest, ±4\u00a0psi" in page
    assert "18.3\u00a0oz\u00a0(520\u00a0g)" in shown(signed_in, "job", job)


def test_a_tablet_keeps_units_and_air_with_each_job(signed_in):
    job = make_job()
    american()
    assert tell_settings(part="place", altitude="1600").stands
    told = json.loads(shown(signed_in, "job_json", job))
    assert (told["units"]["kPa"], told["units"]["psi"]) == ("psi", "kPa")
    assert told["air"] == pytest.approx(83_524, abs=15)
    listed = json.loads(shown(signed_in, "jobs_json"))["jobs"][0]
    assert listed["units"] == told["units"]


def test_what_tablets_keep_is_told_anew_after_the_units_changed(signed_in):
    make_job()
    before = signed_in.get(reverse("jobs_json")).headers["ETag"]
    american()
    assert signed_in.get(reverse("jobs_json")).headers["ETag"] != before


def test_the_shops_altitude_is_said_where_it_is_used_and_moves_no_step_made_before(signed_in):
    job = make_job()
    at_rest(job)
    assert tell_settings(part="place", altitude="1600").stands
    at_rest(job)
    first, second = (one.meaning.band if one.meaning else "" for one in steps_of(Job.objects.get()))
    assert "at sea level, as long as the shop’s altitude is not set" in first
    assert "over the 83.5\u00a0kPa of the air, shop’s setting: 1\u00a0600\u00a0m above" in second


def test_an_altitude_taken_out_again_leaves_sea_level():
    assert tell_settings(part="place", altitude="1600").stands
    ShopChange.objects.update(from_at=timezone.now() - timedelta(days=1))
    assert tell_settings(part="place").stands
    told = shop_told()
    assert told.around({}).air.pa == 101_325
    assert told.around({}, moment=timezone.now() - timedelta(hours=1)).air.pa < 84_000


def test_a_record_has_the_shops_unit_first_and_the_others_beside(signed_in):
    job = make_job()
    american()
    at_rest(job)
    data = frozen(job)
    readings = {one["field"]: one for one in data["steps"][0]["readings"]}
    assert readings["low"]["text"] == "68\u00a0psi\u00a0(469\u00a0kPa)"
    assert readings["temperature"]["text"] == "72\u00a0°F\u00a0(22\u00a0°C)"
    assert (readings["low"]["typed"], readings["low"]["unit"]) == ("68", "psi")
    charge = next(one for one in data["system"] if "charge" in one["label"].lower())
    assert charge["lines"][0] == "18.3\u00a0oz\u00a0(520\u00a0g)"
    assert faults(data) == []


def test_a_record_says_by_which_settings_it_was_made_and_has_the_places_wording():
    job = make_job()
    law = tell_settings(part="law", law="Old parts are yours.\nAsk for them.")
    data = frozen(job)
    assert data["shop"]["law"] == "Old parts are yours.\nAsk for them."
    assert data["shop"]["settings"] == [{"part": "law", "entry": str(law.key)}]


def test_an_issued_record_keeps_its_bytes_when_the_shop_changes(signed_in):
    job = make_job()
    frozen(job)
    record = job.records.get()
    before = (record.data, record.pdf_sha256)
    american()
    assert tell_settings(part="law", law="Old parts are yours.").stands
    record.refresh_from_db()
    assert (record.data, record.pdf_sha256) == before


@given(st.data(), st.sampled_from([k for k in KINDS.values() if k.numbers]))
@pytest.mark.django_db(transaction=False)
def test_a_value_typed_in_any_unit_comes_back_as_typed(data, kind):
    asked = data.draw(st.sampled_from(kind.numbers))
    unit = data.draw(st.sampled_from(asked.units))
    digits = data.draw(st.integers(0, 3))
    typed = f"{data.draw(st.floats(1, 900)):.{digits}f}"
    form = StepForm(kind=kind, around=shop_told().around({}))
    form.cleaned_data = {asked.name: typed, f"{asked.name}_unit": unit}
    read = form.read(kind)[asked.name]
    assert isinstance(read, Reading)
    back = from_json({"read": read.as_json()})["read"]
    assert isinstance(back, Reading)
    assert (back.typed, back.unit, back.si) == (typed, unit, read.si)
    assert typed in back.shown.replace("\u00a0", "")


@pytest.mark.parametrize(
    ("told", "unit", "usual", "text"),
    [
        (BAR, "psi", "kPa", "68.0\u00a0psi\u00a0(4.69\u00a0bar, 469\u00a0kPa)"),
        (Reading(460_000.0, "460", "kPa"), "kPa", "kPa", "460\u00a0kPa"),
        (Reading(460_000.0, "460", "kPa"), "psi", "kPa", "66.7\u00a0psi\u00a0(460\u00a0kPa)"),
        (Reading(321.15, "48", "°C"), "°C", "°C", "48\u00a0°C\u00a0(118\u00a0°F)"),
    ],
)  # fmt: skip
def test_every_unit_stands_once_the_shops_first(told, unit, usual, text):
    assert number_text(told, unit, usual) == text


def test_units_that_were_chosen_hold_for_all_who_read_them():
    american()
    assert shop_told().units == ShownIn({"pressure": "psi", "temperature": "°F", "mass": "oz"})
