"""What stands first on a job's page: what was recorded last, what comes next, what is let go."""

import re

import pytest
from django.test import Client
from django.urls import reverse

from diagnostics.evidence.loop_needs import NEEDS_CLOSED, NEEDS_OPEN
from jobs.models.people import OWNER
from tests.diagnostics.few_kinds import named_next
from tests.diagnostics.jobs_told import HOLDS, Told, stood
from tests.factories import make_person

pytestmark = pytest.mark.django_db
SEEN = {"test_kind": "complaint_seen", "engages": "yes", "there": "yes"}


def page(client: Client, told: Told, name: str = "job") -> str:
    client.force_login(make_person(OWNER))
    return client.get(reverse(name), {"job": str(told.job.key)}).content.decode()


def test_with_the_loop_open_no_test_is_offered_that_needs_it_closed(client: Client):
    told = Told()
    told.change(what="opened")
    shown = page(client, told)
    assert not {*named_next(shown)} & NEEDS_CLOSED
    assert "What needs it closed waits" in shown


def test_while_refrigerant_may_be_in_it_no_test_is_offered_that_looks_inside(client: Client):
    assert not {*named_next(page(client, Told()))} & NEEDS_OPEN


def test_with_the_loop_closed_again_nothing_says_that_it_is_open(client: Client):
    told = Told()
    told.change(what="opened")
    told.change(what="closed")
    shown = page(client, told)
    assert "What needs it closed waits" not in shown
    assert named_next(shown)


def test_what_was_looked_at_first_is_counted_in_a_line_of_its_own(client: Client):
    told = Told()
    assert 'See first <span class="soft' not in page(client, told)
    told.test(SEEN)
    assert 'See first <span class="soft nowrap">1 made</span>' in page(client, told)


def test_the_page_says_what_was_recorded_last(client: Client):
    told = Told()
    assert "Last recorded" not in page(client, told)
    told.test(HOLDS)
    told.test(SEEN)
    last = re.search(r"Last recorded:.*?</p>", page(client, told), re.DOTALL)
    assert last
    assert "step 2, Complaint seen" in last[0]


def test_a_step_that_saw_it_asks_for_the_switch_until_that_is_told(client: Client):
    told = Told()
    told.test(SEEN)
    assert "Step 1 says that it is there now: tap Yes?" in page(client, told)
    told.failing("no")
    assert "tap Yes?" not in page(client, told)


def test_what_was_seen_before_the_car_was_changed_asks_for_nothing(client: Client):
    told = Told()
    told.test(SEEN)
    told.change(what="fitted", part="coil", source="new")
    assert "tap Yes?" not in page(client, told)


def test_an_override_says_on_the_points_page_which_order_it_lets_go(client: Client):
    told = Told()
    stood(told.override("charge_first"))
    shown = page(client, told, "points")
    let = re.search(r'<p class="need"><strong>Overridden:</strong>(.*?)</p>', shown, re.DOTALL)
    assert let
    assert "Read the resting pressure" in let[1]
