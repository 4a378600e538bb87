"""How long pages take, as a ratio to a bare page asked for between them, and their queries."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from http import HTTPStatus
from statistics import median
from time import perf_counter

from django.db import connection
from django.http import HttpRequest, HttpResponse
from django.template import engines
from django.test import Client
from django.test.utils import CaptureQueriesContext, override_settings
from django.urls import path

from jobs.models import Person
from jobs.views.access import signed_in
from shopac.urls import urlpatterns as site

BARE = "/bare/"
ROUNDS = 15
WARM = 3  # rounds before that are thrown away: templates are read, caches fill


@signed_in()
def bare(request: HttpRequest) -> HttpResponse:
    """A page with header and sign-in and nothing in it: what any page costs."""
    page = engines["django"].from_string('{% extends "base.html" %}')
    return HttpResponse(page.render({}, request))


urlpatterns = [*site, path(BARE.strip("/") + "/", bare)]


@dataclass(frozen=True)
class Timed:
    """One page: the median of its times in ms, its ratio to the bare page's, its queries."""

    ms: float
    ratio: float
    queries: int


def signed_in_client(person: Person) -> Client:
    """A browser in which that person is signed in."""
    client = Client(SERVER_NAME="localhost")
    client.force_login(person)
    return client


@override_settings(ROOT_URLCONF="shopac.bench.pages")
def timed(client: Client, addresses: Mapping[str, str]) -> dict[str, Timed]:
    """Ask for each address and the bare page by turns.

    Raises:
        RuntimeError: a page did not answer as it should.

    """
    took: dict[str, list[float]] = {name: [] for name in addresses}
    bares: list[float] = []
    for _ in range(ROUNDS + WARM):
        for name, address in addresses.items():
            bares.append(once(client, BARE))
            took[name].append(once(client, address))
    base = median(bares[WARM * len(addresses) :])
    return {
        name: Timed(ms, ms / base, queries(client, addresses[name]))
        for name, ms in ((name, median(all_[WARM:])) for name, all_ in took.items())
    } | {"bare page": Timed(base, 1.0, queries(client, BARE))}


def once(client: Client, address: str) -> float:
    """The milliseconds of one answer."""
    return milliseconds(lambda: answered(client, address))


def answered(client: Client, address: str) -> None:
    """Ask for a page and hold it to be one."""
    response = client.get(address)
    if response.status_code != HTTPStatus.OK:
        raise RuntimeError(f"{address} answered {response.status_code}.")


def milliseconds(act: Callable[[], object]) -> float:
    """How long something takes."""
    begun = perf_counter()
    act()
    return (perf_counter() - begun) * 1000


def queries(client: Client, address: str) -> int:
    """How many a page makes."""
    with CaptureQueriesContext(connection) as made:
        answered(client, address)
    return len(made)
