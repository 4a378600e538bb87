"""Taking in a car."""

import pytest

from tests.factories import make_job

pytestmark = pytest.mark.django_db


def test_one_entry_makes_customer_car_system_job_state_and_consent():
    job = make_job()
    assert job.customer.name == "Ida Marwell"
    assert job.vehicle.plate == "KX.4731D"
    assert job.vehicle.system.label_charge_mg == 520_000
    assert [(state.number, state.what) for state in job.car_states.all()] == [(0, "Car as arrived")]
    assert [(consent.number, consent.amount) for consent in job.consents.all()] == [(1, 15000)]
