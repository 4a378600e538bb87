"""A number on a form of work on the loop is sent with the unit that stands beside it."""

import pytest
from django.urls import reverse

from tests.factories import make_job, make_person
from tests.jobs.test_settings import UNITS
from tests.jobs.test_settings import tell as set_to

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("page", "name"),
    [
        ("charge", "grams_in"),
        ("charge", "scale_before"),
        ("charge", "hose_length"),
        ("recovery", "grams_out"),
        ("recovery", "grams_again"),
        ("recovery", "came_back"),
        ("machine_cycle", "grams_out"),
        ("machine_cycle", "grams_in"),
        ("machine_cycle", "depth"),
        ("oil", "added"),
        ("evacuation", "depth"),
    ],
)
@pytest.mark.parametrize("neutral", [False, True])
def test_the_page_sends_the_unit_it_shows(client, page: str, name: str, neutral: bool):
    """In a shop of ounces a bare 18.3 is no 18.3 g."""
    job = make_job()
    set_to(**UNITS)
    client.force_login(make_person())
    html = client.get(reverse(page), {} if neutral else {"job": str(job.key)}).content.decode()
    shown = html.partition(f'id="id_{name}_unit">')[2].partition("<")[0]
    assert shown
    sent = f'<input type="hidden" name="{name}_unit" value="{shown}"'
    assert html.count(sent) == 1
    assert html.count(f'name="{name}_unit"') == 1
