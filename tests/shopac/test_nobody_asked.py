"""An entry that arrives when nobody has its form in front is not held up by a question."""

import pytest
from django.test import Client

from diagnostics.models import Step
from jobs.models import Entry
from tests.factories import make_person
from tests.shopac.tablet import FIELDS, Tablet

pytestmark = pytest.mark.django_db


def test_what_is_odd_is_asked_of_who_has_the_form_in_front_else_kept_and_marked():
    tablet = Tablet()
    odd = {**FIELDS, "model_year": ["1850"]}
    assert tablet.send(fields=odd).status_code == 422
    said = tablet.said(fields=odd, asked=False)
    assert tablet.send(said).status_code == 201
    [intake] = Entry.objects.all()
    assert [mark["code"] for mark in intake.marks] == ["year_out"]
    step = {"test_kind": ["complaint_seen"], "test_version": ["1"]}
    step |= {"blower": ["no"], "cold": ["yes"]}
    told = {"kind": "step", "job": said["key"], "fields": step}
    assert tablet.send(**told).status_code == 422
    assert tablet.send(**told, asked=False).status_code == 201
    assert Step.objects.get().marks


@pytest.mark.parametrize(("grams", "doubted"), [("520", False), ("5200", True), ("52", True)])
def test_a_label_charge_that_nobody_was_asked_about_is_doubted_where_a_car_is_charged_by_it(
    grams, doubted
):
    tablet, browser = Tablet(), Client()
    browser.force_login(make_person())
    said = tablet.said()
    assert tablet.send(said).status_code == 201
    told = {"label_charge": [grams], "label_charge_unit": ["g"]}
    sent = tablet.send(kind="system", job=said["key"], fields=told, asked=False)
    assert sent.status_code == 201
    page = browser.get("/charge/", {"job": said["key"]}).content.decode()
    kept = browser.get("/job.json", {"job": said["key"]}).json()["label"]
    assert [("look at the label again" in one) for one in (page, kept)] == [doubted, doubted]
