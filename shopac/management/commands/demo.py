"""Load a small invented shop through the door: people, some cars, a few steps, one record."""

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
from shopac.management.demo_bay import of_bay
from shopac.management.demo_photos import tell_photos

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
            "with_voltage": str(uuid.uuid5(NAMES, "meter")),
            "with_current": str(uuid.uuid5(NAMES, "meter")),
            "with_temperature": str(uuid.uuid5(NAMES, "probe")),
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

# How jobs go through their stages: one on and back again, one that is closed.
WAYS: tuple[tuple[str, float, str, str, str, Fields], ...] = (
    (
        "sorrel deciding",
        3.5,
        "E. Quist",
        "stage",
        "sorrel",
        {"came_from": "testing", "to": "deciding"},
    ),
    (
        "sorrel testing",
        3,
        "E. Quist",
        "stage",
        "sorrel",
        {
            "came_from": "deciding",
            "to": "testing",
            "why": "new_finding",
            "words": "Oil at the condenser, seen when the grille was off.",
        },
    ),
    (
        "alder",
        50,
        "Noor Abanti",
        "intake",
        "alder",
        {
            "customer_name": "Joss Penhallow",
            "phone": "555 010 0122",
            "plate": "RM.2086C",
            "make_model": "Corvane Alder",
            "model_year": "2014",
            "odometer": "121 400 mi",
            "drive": "belt_clutch",
            "voltage": "12",
            "complaint": "Not cold enough at noon.",
            **CONSENT,
        },
    ),
    (
        "alder coil",
        49,
        "R. Sand",
        "step",
        "alder",
        {
            "test_kind": "coil_power",
            "test_version": "1",
            "engine": "off",
            "ground": "good",
            "volts": "12.5",
            "amps": "3.3",
            "magnet": "yes",
            "holds": "yes",
            "lets_go": "yes",
        },
    ),
    (
        "alder closed",
        48.5,
        "Noor Abanti",
        "close",
        "alder",
        {
            "came_from": "testing",
            "closing_kind": "tested_only",
            "reason": "Goes on vacation and comes back in September.",
            "picked_up": "customer",
            "odometer_out": "121 402 mi",
        },
    ),
)


TILIA: Fields = {
    "customer_name": "Runa Osterby",
    "phone": "555 010 0172",
    "plate": "MV.2864H",
    "make_model": "Corvane Tilia 1.4",
    "model_year": "2019",
    "vin": "ZZ9CT4HL9KT002864",
    "drive": "belt_clutch",
    "displacement": "fixed",
    "voltage": "12",
    "switched_side": "feed",
    "refrigerant": "R-134a",
    "label_charge": "450 g",
    "label_charge_source": "label",
    "branches": ["front"],
}
VENT: Fields = {
    "test_kind": "vent_temperature",
    "test_version": "1",
    "branch": "front",
    "humidity": "45",
    "recirculation": "fresh",
    "blower": "high",
    "doors": "open",
    "rpm": "1500",
    "minutes": "10",
}
# A car that was here over a year ago and comes back with the same trouble.
BEFORE: tuple[tuple[str, float, str, str, str, Fields], ...] = (
    (
        "tilia",
        9600,
        "Noor Abanti",
        "intake",
        "tilia",
        {**TILIA, "odometer": "41 300 mi", "complaint": "Not cold any more.", **CONSENT},
    ),
    (
        "tilia fitted",
        9590,
        "R. Sand",
        "change",
        "tilia",
        {"what": "fitted", "part": "condenser", "source": "new", "serial": "TC-20418"},
    ),
    (
        "tilia vent",
        9588,
        "R. Sand",
        "step",
        "tilia",
        {**VENT, "vent": "9", "intake": "28"},
    ),
    (
        "tilia again",
        3,
        "Noor Abanti",
        "intake",
        "tilia again",
        {
            **TILIA,
            "odometer": "52 800 mi",
            "complaint": "Warm again, like last year.",
            "follows": str(uuid.uuid5(NAMES, "tilia")),
            "before": "comeback",
        },
    ),
    (
        "tilia vent again",
        2.5,
        "E. Quist",
        "step",
        "tilia again",
        {**VENT, "vent": "22", "intake": "29"},
    ),
)


# Where the cars are and what they wait for. (name, hours ago, who, kind, job, fields)
BAYS: tuple[tuple[str, float, str, str, str, Fields], ...] = (
    (
        "ilex place",
        1,
        "R. Sand",
        "place",
        "ilex",
        {"bay": "2", "key_hook": "7", "has_it": "me", "promised_hour": "16:00"},
    ),
    ("sorrel place", 3, "E. Quist", "place", "sorrel", {"bay": "1", "has_it": "me"}),
    ("sorrel vacuum", 0.3, "E. Quist", "waiting", "sorrel", {"what": "vacuum", "minutes": "45"}),
    ("umbel place", 1, "Noor Abanti", "place", "umbel", {"bay_words": "yard"}),
    (
        "umbel waits",
        1,
        "Noor Abanti",
        "waiting",
        "umbel",
        {"what": "person", "words": "isolate, wait, prove it dead", "due_day": "tomorrow"}
        | {"due_hour": "08:00"},
    ),
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
        for name, kind, fields in of_bay({name: str(one.key) for name, one in people.items()}):
            tell(people, name, 46, FIRST_OWNER, kind, "", fields)
        for line in (*STORY, *BEFORE, *WAYS):
            tell(people, *line)
        for line in BAYS:
            tell(people, *line)
        tell_photos(people, key_of)
        self.stdout.write("Demo sign-ins (invented people):")
        for name, _, pin, password in PEOPLE:
            by_password = f", password: {password}" if password else ""
            self.stdout.write(f"  {name}: {people[name].role_words}, PIN {pin}{by_password}")


def key_of(name: str) -> uuid.UUID:
    """The key of a thing of the demo."""
    return uuid.uuid5(NAMES, name)


def handed_over() -> list[tuple[str, float, str, str, str, Fields]]:
    """A job that changes hands, and a car whose A/C a person says must not be run."""
    note: Fields = {
        "to": str(key_of("R. Sand")),
        "stands": ["hood_open", "engine_hot", "customer_waits"],
        "next_test": "static_pressure",
        "said": "The shield is off; its bolts lie on the battery.",
    }
    tag: Fields = {"reasons": ["hands_in"], "before": "The front is looked at after the bump."}
    return [
        ("sorrel note", 3, "E. Quist", "handover", "sorrel", note),
        ("sorrel tag", 3.5, "E. Quist", "tag", "sorrel", tag),
        ("ilex opened", 1, "R. Sand", "change", "ilex", {"what": "opened"}),
    ]


STORY = (*STORY, *handed_over())


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
