"""The page for when the shop server does not answer."""

from django.urls import reverse

from tests.factories import make_job


def test_the_page_is_for_anybody_since_every_tablet_keeps_it(client, db):
    assert client.get(reverse("offline")).status_code == 200


def test_the_page_holds_nothing_of_the_shops(client, db):
    job = make_job()
    page = client.get(reverse("offline")).content.decode()
    assert job.vehicle.plate not in page
    assert job.customer.name not in page
