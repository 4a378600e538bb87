"""The page that says what a tablet has; what its script finds: tests/offline/test_pairing.py."""

from django.urls import reverse

from tests.factories import make_job


def test_the_page_is_for_anybody_since_nobody_is_signed_in_on_a_new_tablet(client, db):
    assert client.get(reverse("paired")).status_code == 200


def test_the_page_holds_nothing_of_the_shops(client, db):
    job = make_job()
    page = client.get(reverse("paired")).content.decode()
    assert job.vehicle.plate not in page
    assert job.customer.name not in page
