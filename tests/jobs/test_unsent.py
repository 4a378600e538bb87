"""The frame of the list of what is kept on a tablet."""

from django.urls import reverse

from tests.factories import make_job


def test_the_list_opens_without_a_sign_in_because_the_entries_lie_on_the_tablet(client, db):
    assert client.get(reverse("unsent")).status_code == 200


def test_the_frame_holds_nothing_of_the_shops(client, db):
    job = make_job()
    page = client.get(reverse("unsent")).content.decode()
    assert job.vehicle.plate not in page
    assert job.customer.name not in page


def test_the_list_is_for_reading_only(client, db):
    assert client.post(reverse("unsent")).status_code == 405
