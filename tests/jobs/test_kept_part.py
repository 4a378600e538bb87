"""A job's page is made anew when something is told, and only then; its forms are always fresh."""

import re
import uuid
from typing import Any

import pytest
from django.core.cache import cache
from django.core.cache.backends.locmem import LocMemCache
from django.test import Client
from django.urls import reverse

from diagnostics.entries import STEP
from jobs.entries import CUSTOMER, FAILING_NOW, WAITING
from jobs.models import Job
from jobs.models.people import DESK, OWNER
from tests.diagnostics.step_forms import typed
from tests.factories import make_job, make_person, tell

pytestmark = pytest.mark.django_db
KEYS = re.compile(r'name="key" value="([^"]*)"')
TOKENS = re.compile(r'name="csrfmiddlewaretoken" value="([^"]*)"')


@pytest.fixture(autouse=True)
def kept(settings: Any) -> Any:
    """Keep parts of pages, as the real server does."""
    local = {"BACKEND": "django.core.cache.backends.locmem.LocMemCache", "LOCATION": "tests"}
    settings.CACHES = {**settings.CACHES, "default": local}
    yield
    cache.clear()


@pytest.fixture
def signed_in() -> Client:
    client = Client()
    client.force_login(make_person(OWNER))
    return client


def page_of(client: Client, job: Job) -> str:
    return client.get(reverse("job"), {"job": str(job.key)}).content.decode()


def test_a_page_seen_before_asks_the_database_little(signed_in, django_assert_num_queries):
    job = make_job()
    page_of(signed_in, job)
    with django_assert_num_queries(4):  # session, person, job, the last entries
        page_of(signed_in, job)


def test_what_is_told_of_the_job_stands_there_at_once(signed_in):
    job = make_job()
    before = page_of(signed_in, job)
    assert tell(STEP, job, **typed()).stands
    after = page_of(signed_in, job)
    assert "Power straight at the coil" in after
    assert "1 Power straight" not in before
    assert tell(FAILING_NOW, job, failing="yes").stands
    assert 'value="yes" checked' in page_of(signed_in, job)


def test_what_is_told_of_the_customer_on_another_job_stands_there_too(signed_in):
    first = make_job()
    second = make_job()
    Job.objects.filter(pk=second.pk).update(customer=first.customer)
    assert "555 777 8888" not in page_of(signed_in, first)
    second.refresh_from_db()
    assert tell(CUSTOMER, second, customer_name="Ida Marwell", phone="555 777 8888").stands
    assert "555 777 8888" in page_of(signed_in, first)


def test_each_look_has_keys_and_tokens_of_its_own(signed_in):
    job = make_job()
    first, second = page_of(signed_in, job), page_of(signed_in, job)
    keys = [*KEYS.findall(first), *KEYS.findall(second)]
    assert len(set(keys)) == len(keys) >= 4
    assert all(uuid.UUID(key) for key in keys)
    assert not set(TOKENS.findall(first)) & set(TOKENS.findall(second))


def test_a_form_of_a_kept_page_is_taken():
    client = Client(enforce_csrf_checks=True)
    client.force_login(make_person(OWNER))
    job = make_job()
    page_of(client, job)
    text = page_of(client, job)
    fields = {"key": KEYS.findall(text)[-1], "failing": "no"}
    fields |= {"csrfmiddlewaretoken": TOKENS.findall(text)[-1]}
    posted = client.post(f"{reverse('job_failing')}?job={job.key}", fields)
    assert posted.status_code == 302
    job.refresh_from_db()
    assert job.failing_now == "no"


def test_nobody_is_shown_the_page_of_another(signed_in):
    job = make_job()
    assert f"{reverse('repair')}?job=" in page_of(signed_in, job)
    desk = Client()
    desk.force_login(make_person(DESK))
    assert f"{reverse('repair')}?job=" not in page_of(desk, job)


def test_what_goes_by_the_clock_is_old_after_a_minute(signed_in, monkeypatch):
    job = make_job()
    assert tell(WAITING, job, what="vacuum", minutes="45").stands
    lasts: list[int] = []
    put = LocMemCache.set

    def seen(where: LocMemCache, key: str, part: str, lasting: int) -> None:
        lasts.append(lasting)
        put(where, key, part, lasting)

    monkeypatch.setattr(LocMemCache, "set", seen)
    page_of(signed_in, job)
    assert lasts == [60]
