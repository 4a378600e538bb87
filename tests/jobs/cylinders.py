"""A shop's cylinders to test with: told of through the door, and what they hold."""

from typing import Any

from jobs.cylinder_entries import CYLINDER, PURCHASE, RECLAIM, TRANSFER, WEIGHING
from jobs.logbook import EntryKind, Outcome, enter
from jobs.models import Cylinder
from jobs.models.cylinders import by_gas, held_by
from jobs.models.people import OWNER
from tests.factories import make_person, make_shop, make_told

KINDS = {
    "purchase": PURCHASE,
    "weighing": WEIGHING,
    "transfer": TRANSFER,
    "reclaim": RECLAIM,
}


def told(kind: EntryKind, fields: dict[str, Any], **more: Any) -> Outcome:
    """Tell the logbook, as an owner unless an author is given."""
    author = more.pop("author", None) or make_person(OWNER)
    return enter(kind, make_told(fields, author, **more))


def stood(outcome: Outcome) -> Outcome:
    """The outcome, which has to stand."""
    assert outcome.stands, outcome.form and outcome.form.errors
    return outcome


def make_cylinder(kind: str = "refillable", **fields: str) -> Cylinder:
    """A cylinder of the shop: 12 kg of water, 7 kg empty, for R-134a."""
    make_shop()
    first = {"kind": kind, "tare": "7 kg", "water_capacity": "12 kg"}
    if kind not in ("contaminated", "nitrogen", "tracer"):
        first["refrigerant"] = "R-134a"
    outcome = stood(told(CYLINDER, {**first, **fields}))
    return Cylinder.objects.get(key=outcome.key)


def buy(cylinder: Cylinder, amount: str, **more: Any) -> Outcome:
    """Refrigerant bought into a cylinder of the list."""
    fields = {"cylinder": cylinder.key.hex, "amount": amount, "is_done": "done"}
    return told(PURCHASE, fields, **more)


def mg_in(cylinder: Cylinder) -> int:
    """What it holds by the book."""
    return held_by(cylinder).mg


def all_held() -> dict[int, int]:
    """What each cylinder holds, by its pk."""
    return {pk: sum(gases.values()) for pk, gases in by_gas().items()}


def errors(outcome: Outcome) -> dict[str, str]:
    """The sentences by field of what came back to its form."""
    assert outcome.form is not None, outcome.state
    return {name: " ".join(map(str, texts)) for name, texts in outcome.form.errors.items()}
