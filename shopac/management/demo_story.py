"""The invented shop of the demo: its people and settings, and what is told in it, as data."""

import uuid
from collections.abc import Mapping, Sequence

from jobs.models.people import DESK, OWNER, TECHNICIAN

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
Line = tuple[str, float, str, str, str, Fields]
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
CARS: tuple[Line, ...] = (
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
WAYS: tuple[Line, ...] = (
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


# Where the cars are and what they wait for. (name, hours ago, who, kind, job, fields)
BAYS: tuple[Line, ...] = (
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


def key_of(name: str) -> uuid.UUID:
    """The key of a thing of the demo."""
    return uuid.uuid5(NAMES, name)


def handed_over() -> list[Line]:
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
