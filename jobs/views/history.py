"""What the shop did for a customer, or on a car: all their jobs, newest first."""

from typing import Any

from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from jobs import search
from jobs.models import Customer, Job, Person, Vehicle
from jobs.models.people import DESK, OWNER
from jobs.views.access import signed_in
from jobs.views.asked import asked_key

PAGE = 50
CARS_MAX = 50
NOT_HERE = "The shop server has no such customer or car. Open it from a job."


@require_safe
@signed_in()
def history(request: HttpRequest) -> HttpResponse:
    """All jobs of the customer or the car in the address, fifty at a time."""
    customer, car = asked_customer(request), asked_car(request)
    stays = (customer and customer.merged_into) or (car and car.merged_into)
    if stays:  # one row stands for both
        return redirect(f"{request.path}?{'customer' if customer else 'vehicle'}={stays.key}")
    if customer is None and car is None:
        raise Http404(NOT_HERE)
    jobs = customer.jobs.all() if customer else car.jobs.all()  # type: ignore[union-attr]
    found, older = page_of(jobs, request)
    role = request.user.role if isinstance(request.user, Person) else ""
    cars = cars_of(customer) if customer else []
    said: dict[str, Any] = {
        "customer": customer,
        "car": car,
        "cars": cars,
        "twice": with_one_plate(cars),
        "gone": gone_into(customer, car),
        "people": people_of(car) if car else [],
        "jobs": found,
        "older": older,
        "further": "older" in request.GET,
        "may_merge": role in (DESK, OWNER) and not (customer and customer.redacted_at),
        "may_redact": role == OWNER and customer and not customer.redacted_at,
        "back": asked_from(request, jobs),
    }
    return render(request, "jobs/history.html", said)


def asked_customer(request: HttpRequest) -> Customer | None:
    """The customer in the address; None: it names none.

    Raises:
        Http404: there is no such customer.

    """
    key = asked_key(request, "customer")
    return found(Customer.objects.select_related("merged_into"), key) if key else None


def asked_car(request: HttpRequest) -> Vehicle | None:
    """The car in the address; None: it names none.

    Raises:
        Http404: there is no such car.

    """
    key = asked_key(request, "vehicle")
    return found(Vehicle.objects.select_related("merged_into", "system"), key) if key else None


def found(rows: QuerySet[Any], key: Any) -> Any:
    """The row of that key.

    Raises:
        Http404: there is none.

    """
    row = rows.filter(key=key).first()
    if row is None:
        raise Http404(NOT_HERE)
    return row


def page_of(jobs: QuerySet[Job], request: HttpRequest) -> tuple[list[Job], bool]:
    """Fifty jobs, newest first, and whether there are older ones."""
    rows = jobs.select_related("customer", "vehicle__system").prefetch_related("car_states")
    older_than = asked_key(request, "older")
    before = older_than and jobs.filter(key=older_than).values_list("id", flat=True).first()
    if before:
        rows = rows.filter(id__lt=before)
    listed = list(rows.order_by("-id")[: PAGE + 1])
    return listed[:PAGE], len(listed) > PAGE


def cars_of(customer: Customer) -> list[Vehicle]:
    """The cars that the customer brought, the newest first."""
    brought = Vehicle.objects.filter(jobs__customer=customer, merged_into=None).distinct()
    return list(brought.order_by("-id")[:CARS_MAX])


def gone_into(customer: Customer | None, car: Vehicle | None) -> QuerySet[Any]:
    """The rows that were put together with this one."""
    if customer:
        return Customer.objects.filter(merged_into=customer)
    return Vehicle.objects.filter(merged_into=car)


def with_one_plate(cars: list[Vehicle]) -> tuple[Vehicle, Vehicle] | None:
    """Two cars of the list with the same plate, however it was written; None: there are none."""
    seen: dict[str, Vehicle] = {}
    for one in reversed(cars):  # the older first
        earlier = seen.setdefault(search.fold(one.plate), one)
        if earlier is not one:
            return earlier, one
    return None


def people_of(car: Vehicle) -> list[Customer]:
    """Who brought the car."""
    brought = Customer.objects.filter(jobs__vehicle=car, merged_into=None).distinct()
    return list(brought.order_by("-id")[:CARS_MAX])


def asked_from(request: HttpRequest, jobs: QuerySet[Job]) -> Job | None:
    """The job from whose page somebody came, to go back there."""
    key = asked_key(request)
    return jobs.filter(key=key).first() if key else None
