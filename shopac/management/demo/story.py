"""The invented shop of the demo: its people, its cars, and what is told of them, as data."""

import uuid

from jobs.models.people import DESK, OWNER, TECHNICIAN
from shopac.management.demo.told import CONSENT, FIRST_OWNER, NAMES, Fields, Line, key_of

PEOPLE = (
    ("R. Sand", TECHNICIAN, "2746", ""),
    ("E. Quist", TECHNICIAN, "8153", ""),
    ("Noor Abanti", DESK, "3905", "desk by the window"),
    (FIRST_OWNER, OWNER, "6482", "keys under the mat"),
)
SHOP: Fields = {
    "name": "Tansy Yard Car Cooling",
    "address": "12 Tansy Yard\nHollow Lane",
    "currency": "USD",
    "paper": "us-letter",
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
