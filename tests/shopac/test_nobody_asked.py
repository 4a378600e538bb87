"""An entry that arrives when nobody has its form in front is not held up by a question."""

import pytest

from diagnostics.models import Step
from jobs.models import Entry
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
