"""Options: the page, what is typed on it, and what it says of each way."""

import pytest
from django.test import Client
from django.urls import reverse

from tests.diagnostics.jobs_told import COMES_NOT, Told
from tests.factories import make_person

pytestmark = pytest.mark.django_db


def page(told: Told, role: str = "technician", **more: str) -> str:
    browser = Client()
    browser.force_login(make_person(role))
    response = browser.get(reverse("options"), {"job": str(told.job.key), **more})
    assert response.status_code == 200
    return response.content.decode()


def test_it_opens():
    told = Told()
    told.test(COMES_NOT)
    shown = page(told)
    assert "What you can choose" in shown
