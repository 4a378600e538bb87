"""The shop's own phrases stand as taps where they are typed."""

import pytest
from django.test import Client
from django.urls import reverse

from jobs.models import Shop
from tests.factories import make_job, make_person, make_shop

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("page", "where"), [("handover", "handover"), ("waiting", "waiting"), ("intake", "complaint")]
)
def test_they_are_offered_on_the_page_they_are_for(client: Client, page: str, where: str) -> None:
    make_shop()
    Shop.objects.update(phrases={where: ["Hoses still on"]})
    client.force_login(make_person())
    job = make_job()
    text = client.get(reverse(page), {"job": str(job.key)}).content.decode()
    assert "Hoses still on</button>" in text
    assert "js/phrases.js" in text
