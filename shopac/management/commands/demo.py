"""Load a small invented shop through the door: people, three cars, two steps, one record."""

import uuid
from collections.abc import Mapping, Sequence
from datetime import timedelta
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import transaction
from django.utils import timezone

from jobs.logbook import Told, enter
from jobs.models import Entry, Person, Shop
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.pins import hash_password, hash_pin
from shopac.door import ENTRIES

# Keys of a demo are always the same, so one that was interrupted goes on where it stopped.
NAMES = uuid.UUID("6f0d3a52-51f3-4c0e-9f1f-3d0c2a7f8b11")
FIRST_OWNER = "T. Okafor-Lindqvist"
PEOPLE = (
    ("R. Sand", TECHNICIAN, "2746", ""),
    ("E. Quist", TECHNICIAN, "8153", ""),
    ("Noor Abanti", DESK, "3905", "desk by the window"),
    (FIRST_OWNER, OWNER, "6482", "keys under the mat"),
)
Fields = Mapping[str, str | Sequence[str]]
SHOP: Fields = {
    "name": "Tansy Yard Car Cooling",
    "address": "12 Tansy Yard\nHollow Lane",
    "currency": "USD",
    "paper": "us-letter",
}

CONSENT: Fields = {
    "consent_amount": "160",
    "consent_how": "in_person",
    "consent_text": "find_fault_1",
    "payer": "customer",
}
# (name in this list, hours ago, who, entry kind, job, fields). An issue rests on the entries that
# had arrived when it was asked for, so it is asked for now.
STORY: tuple[tuple[str, float, str, str, str, Fields], ...] = (
    (
        "ilex",
        26,
        "Noor Abanti",
        "intake",
        "ilex",
        {
            "customer_name": "Ida Marwell",
            "phone": "555 010 0199",
            "plate": "KX.4731D",
            "make_model": "Brenloh Ilex 1.6",
            "model_year": "2017",
            "vin": "ZZ9BX2FA1HT000418",
            "odometer": "84 200 mi",
            "drive": "belt_clutch",
            "displacement": "fixed",
            "voltage": "12",
            "switched_side": "feed",
            "refrigerant": "R-134a",
            "label_charge": "520 g",
            "label_charge_source": "label",
            "branches": ["front"],
            "complaint": "Blows warm since last week. Sometimes it was cold again in the evening.",
            "since": "weeks",
            "warm_when": ["hot"],
            "topped_up": "no",
            "accident": "no",
            "other_work": "no",
            **CONSENT,
        },
    ),
    ("ilex failing", 25.5, "R. Sand", "failing_now", "ilex", {"failing": "yes"}),
    (
        "ilex coil",
        25,
        "R. Sand",
        "step",
        "ilex",
        {
            "test_kind": "coil_power",
            "test_version": "1",
            "engine": "off",
            "ground": "good",
            "volts": "12.38",
            "amps": "3.05",
            "temperature": "48",
            "magnet": "yes",
            "holds": "no",
            "pushed": "yes",
        },
    ),
    ("ilex issue", 0, "R. Sand", "issue", "ilex", {"issue": "1", "entries": "3"}),
    (
        "sorrel",
        5,
        "R. Sand",
        "intake",
        "sorrel",
        {
            "customer_name": "Pell Adeyemi",
            "phone": "555 010 0143",
            "plate": "PW.5504K",
            "make_model": "Maribel Sorrel",
            "model_year": "2010",
            "vin": "ZZ9MS5PC0AT00550",
            "drive": "belt_clutch",
            "voltage": "12",
            "complaint": "No cold air at all after a small bump at the front.",
            "since": "days",
            "warm_when": ["always"],
            "topped_up": "cannot_tell",
            "accident": "yes",
            **CONSENT,
        },
    ),
    (
        "sorrel coil",
        4,
        "E. Quist",
        "step",
        "sorrel",
        {
            "test_kind": "coil_power",
            "test_version": "1",
            "engine": "off",
            "ground": "good",
            "volts": "12.4",
            "amps": "3.4",
            "magnet": "yes",
            "holds": "yes",
            "lets_go": "yes",
        },
    ),
    (
        "umbel",
        1.5,
        "Noor Abanti",
        "intake",
        "umbel",
        {
            "customer_name": "Municipal Waterworks, North Depot",
            "plate": "AB.1295N",
            "make_model": "Dorvane Umbel",
            "model_year": "2022",
            "vin": "ZZ9DU7EV7NT001295",
            "drive": "electric_hv",
            "refrigerant": "R-1234yf",
            "complaint": "Weak on the highway, fine in town.",
            "payer": "fleet",
        },
    ),
)

# What the owner set: (name in this list, entry kind, fields).
SETTINGS: tuple[tuple[str, str, Fields], ...] = (
    ("rate", "price", {"what": "labor", "name": "Bay", "price": "96.00"}),
    (
        "clutch set",
        "price",
        {"what": "part", "name": "Clutch set", "part_number": "TY-2204", "price": "286.00"}
        | {"unit": "piece"},
    ),
    (
        "compressor",
        "price",
        {"what": "part", "name": "Compressor, new", "part_number": "TY-2310", "price": "512.00"}
        | {"unit": "piece"},
    ),
    ("gas", "price", {"what": "refrigerant", "name": "R-134a", "price": "42", "unit": "kg"}),
    ("oil", "price", {"what": "oil", "name": "PAG 46", "price": "0.12", "unit": "mL"}),
    (
        "evacuate",
        "price",
        {"what": "operation", "name": "Recover, evacuate, recharge", "hours": "1.25"},
    ),
    (
        "tax",
        "tax",
        {"name": "Sales tax", "share": "8.25", "taken_on": ["parts", "refrigerant"]},
    ),
    (
        "phrases",
        "shop_change",
        {
            "part": "phrases",
            "phrases_complaint": "Blows warm\nWarm when standing still\nNoise with A/C on",
            "phrases_handover": "Soaking\nPart ordered\nHoses still on",
            "phrases_not_done": "Cover bolts seized\nCustomer waits for the car",
            "phrases_waiting": "Customer calls back\nPart from the depot",
        },
    ),
    ("keep", "shop_change", {"part": "keep", "record_years": "7", "comeback_days": "90"}),
)


class Command(BaseCommand):
    """`manage.py demo`: safe to call again; refuses where a real shop is."""

    help = __doc__

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Load what is missing and print how to sign in.

        Raises:
            CommandError: the data folder belongs to a real shop.

        """
        shop = Shop.objects.first()
        if shop and not shop.demo:
            raise CommandError(f"{shop.name} is a real shop; the demo is not loaded into it.")
        people = make_people()
        tell_settings(people)
        for line in STORY:
            tell(people, *line)
        self.stdout.write("Demo sign-ins (invented people):")
        for name, _, pin, password in PEOPLE:
            by_password = f", password: {password}" if password else ""
            self.stdout.write(f"  {name}: {people[name].role_words}, PIN {pin}{by_password}")


def key_of(name: str) -> uuid.UUID:
    """The key of a thing of the demo."""
    return uuid.uuid5(NAMES, name)


@transaction.atomic
def make_people() -> dict[str, Person]:
    """Shop and people, made once; a PIN that was changed since stays changed.

    As in a real shop, the first owner's row is the only one that no entry made.
    """
    people: dict[str, Person] = {}
    for line in sorted(PEOPLE, key=lambda line: line[0] != FIRST_OWNER):
        name, key = line[0], key_of(line[0])
        if not Person.objects.filter(key=key).exists():
            make_person(people, *line)
        people[name] = Person.objects.get(key=key)
    if not Shop.objects.exists():
        tell(people, "shop", 48, FIRST_OWNER, "shop", "", SHOP)
        Shop.objects.update(demo=True)
    return people


def tell_settings(people: Mapping[str, Person]) -> None:
    """What the owner set, told once; what was changed since stays changed."""
    for name, kind, fields in SETTINGS:
        tell(people, f"settings {name}", 46, FIRST_OWNER, kind, "", fields)


def make_person(
    people: Mapping[str, Person], name: str, role: str, pin: str, password: str
) -> None:
    """The first owner as a row, anybody else as that owner's entry, whose key is theirs."""
    key = key_of(name)
    hashes = {"pin": hash_pin(pin, key)}
    if password:
        hashes["password"] = hash_password(password, key)
    if name == FIRST_OWNER:
        Person.objects.create(key=key, name=name, role=role, **hashes)
    else:
        hashed = {f"{what}_hash": value for what, value in hashes.items()}
        tell(people, name, 47, FIRST_OWNER, "person", "", {"name": name, "role": role, **hashed})
    Person.objects.filter(key=key).update(demo=True)


def tell(
    people: Mapping[str, Person],
    name: str,
    hours_ago: float,
    who: str,
    kind: str,
    job: str,
    fields: Fields,
) -> None:
    """One line of the story through the logbook, unless it is there; `job` empty: on none."""
    if Entry.objects.filter(key=key_of(name)).exists():
        return
    listed = {
        field: [value] if isinstance(value, str) else value for field, value in fields.items()
    }
    told = Told(
        key=key_of(name),
        version=ENTRIES[kind].version,
        job_key=key_of(job) if job else None,
        fields=listed,
        author=people[who],
        sender=people[who],
        typed_at=timezone.now() - timedelta(hours=hours_ago),
    )
    outcome = enter(ENTRIES[kind], told)
    if not outcome.stands:
        problems = outcome.form.errors.as_json() if outcome.form else outcome.why
        raise CommandError(f"The demo's line “{name}” was not taken: {problems}")
