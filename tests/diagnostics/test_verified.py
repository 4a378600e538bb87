"""Caps and service label: taps of an own entry, which no kind of test asks for together."""

import uuid
from typing import Any

import pytest
from django.urls import reverse

from diagnostics.entries import VERIFIED
from diagnostics.models import Verified
from diagnostics.verification import verification_of
from jobs.entries import CHARGE
from jobs.logbook import AGAIN, RETURNED, enter
from jobs.models import Person
from jobs.models.people import DESK
from tests.diagnostics.jobs_told import LIQUID, Told, stood
from tests.diagnostics.verified_jobs import COMPRESSOR
from tests.factories import make_person, make_told, said_of

pytestmark = pytest.mark.django_db
LABEL: dict[str, Any] = {
    "label": "updated",
    "label_refrigerant": "R-134a",
    "label_grams": "520",
    "label_oil": "PAG 46, 120 mL",
    "label_on": "2026-11-30",
}


@pytest.fixture
def told() -> Told:
    job = Told()
    job.change(**COMPRESSOR)
    return job


def stands(told: Told) -> dict[str, tuple[str, str]]:
    shown = verification_of(told.again).shown
    return {one.item.code: (one.stands, one.because) for one in shown if not one.item.by}


def look(told: Told, **fields: Any):
    return stood(
        told.tell(
            VERIFIED,
            Person.objects.filter(name="R. Sand").first() or make_person(name="R. Sand"),
            **fields,
        )
    )


def test_neither_is_shown_before_it_is_told(told):
    assert {one[0] for one in stands(told).values()} == {"not_yet"}


def test_caps_that_are_on_are_shown_with_who_saw_them(told):
    look(told, caps="on")
    how, why = stands(told)["caps"]
    assert how == "shown"
    assert why.startswith("Both on. R. Sand, ")
    assert stands(told)["label"][0] == "not_yet"


def test_a_missing_cap_is_not_in_order_and_one_out_of_reach_is_no_pass(told):
    look(told, caps="missing")
    assert stands(told)["caps"][0] == "not_fine"
    look(told, caps="no_reach")
    assert stands(told)["caps"][0] == "could_not"


def test_a_label_is_shown_with_refrigerant_and_grams_oil_and_day(told):
    look(told, **LABEL)
    how, why = stands(told)["label"]
    assert how == "shown"
    assert why.startswith("R-134a, 520\u00a0g, PAG 46, 120 mL, 30 Nov 2026. ")


def test_a_label_of_which_something_was_not_told_is_shown_in_part(told):
    look(told, **LABEL | {"label_oil": None, "label_on": None})
    how, why = stands(told)["label"]
    assert how == "in_part"
    assert "Not told what stands there of: oil, day." in why


def test_what_stands_on_a_label_tells_that_there_is_one(told):
    look(told, label_refrigerant="R-134a")
    assert Verified.objects.get().label == "updated"


def test_no_label_is_no_fault_and_no_pass(told):
    look(told, label="none")
    assert stands(told)["label"][0] == "could_not"


def test_each_stands_as_last_told_and_the_other_is_left_as_it_was(told):
    look(told, caps="missing", **LABEL)
    look(told, caps="on")
    assert {name: one[0] for name, one in stands(told).items()} == {
        "caps": "shown",
        "label": "shown",
    }


def test_both_count_no_more_once_the_loop_was_worked_on_again(told):
    look(told, caps="on", **LABEL)
    told.change(what="opened")
    how, why = stands(told)["caps"]
    assert how == "not_yet"
    assert "that counts no more" in why


def test_caps_count_no_more_once_gauges_were_on_again(told):
    look(told, caps="on")
    told.test(LIQUID)
    how, why = stands(told)["caps"]
    assert how == "not_yet"
    assert "before step 1, pressure at rest, for which they came off again" in why
    look(told, caps="on")
    assert stands(told)["caps"][0] == "shown"


def test_a_correction_takes_its_place_and_both_stay(told):
    first = look(told, caps="on")
    fields = {"caps": "missing", "corrected_why": "Low side is off."}
    stood(enter(VERIFIED, make_told(fields, job_key=told.job.key, corrects=first.key)))
    old, new = Verified.objects.all()
    assert (old.superseded_by, new.corrected_why) == (new, "Low side is off.")


def test_the_same_key_sent_twice_is_one_look(told):
    sent = make_told({"caps": "on"}, make_person(), job_key=told.job.key, key=uuid.uuid4())
    assert stood(enter(VERIFIED, sent)).state != AGAIN
    assert enter(VERIFIED, sent).state == AGAIN
    assert Verified.objects.count() == 1


def test_nothing_told_goes_back_to_its_form(told):
    assert told.tell(VERIFIED).state == RETURNED


@pytest.mark.parametrize("typed", ["-5", "9999999999999"])
def test_grams_that_cannot_be_are_kept_once_it_is_said_why_and_computed_with_by_nothing(
    told, typed
):
    assert told.tell(VERIFIED, label_grams=typed).state == RETURNED
    kept = look(told, label="updated", label_grams=typed, label_grams_why="As it stands there.")
    row = Verified.objects.get()
    assert row.label_mg is None
    [said] = said_of(row.entry)
    assert said.startswith("Grams on the service label")
    assert kept.stands


def test_grams_with_a_comma_and_in_ounces_are_whole_milligrams(told):
    look(told, label_grams="18,3 oz")
    assert (Verified.objects.get().label_mg, Verified.objects.get().label_unit) == (518796, "oz")


def test_the_front_desk_tells_no_caps(client, told):
    client.force_login(make_person(DESK))
    answer = client.post(f"{reverse('verification')}?job={told.job.key}", {"caps": "on"})
    assert answer.status_code == 403
    assert not Verified.objects.exists()


def test_the_page_takes_it_and_comes_back_with_it(client, told):
    client.force_login(make_person())
    address = f"{reverse('verification')}?job={told.job.key}"
    answer = client.post(address, {"caps": "on", **LABEL})
    assert answer["Location"] == address
    assert (
        "Caps: Both on; label: Filled in and put on; R-134a" in client.get(address).content.decode()
    )


def test_a_correction_begins_with_what_was_told(client, told):
    first = look(told, caps="on", **LABEL)
    client.force_login(make_person())
    asked = {"job": str(told.job.key), "corrects": str(first.key)}
    shown = client.get(reverse("verification"), asked).content.decode()
    assert "This corrects an earlier look." in shown
    assert 'value="520 g"' in shown


def test_grams_on_the_label_that_are_not_those_charged_are_asked_about(told):
    charge = {"cylinder": "unnamed", "fill": "full", "grams_in": "520", "hose": "machine"}
    stood(told.tell(CHARGE, **charge))
    asked = told.tell(VERIFIED, make_person(name="R. Sand"), **LABEL | {"label_grams": "480"})
    assert "other grams than the last charge" in str(asked.form.errors["label_grams"])
    stays = LABEL | {"label_grams": "480", "label_grams_why": "Maker's sticker."}
    look(told, **stays)
    look(told, **LABEL)
    marks = [row.entry.marks for row in Verified.objects.order_by("pk")]
    assert [[one["code"] for one in told] for told in marks] == [["label_not_charged"], []]
