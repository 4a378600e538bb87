"""A whole job of sixteen tests, told as in the shop: found, decided, repaired, tested again."""

import json
from typing import Any

from django.db.models import F

from diagnostics.entries import DECISION, PRICES_TYPED, VERIFIED
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.system import System
from jobs.entries import (
    CHANGE,
    CHARGE,
    CONSENT,
    ESTIMATE,
    EVACUATION,
    FAILING_NOW,
    INVOICE,
    LOOP_PARTS,
    OIL,
    OLD_PART,
    RECOVERY,
    TAKEN_OUT,
)
from jobs.logbook import enter
from jobs.models import Entry, Person
from jobs.models.people import DESK, OWNER
from tests.diagnostics.jobs_told import START, Told, stood
from tests.evidence.trial import fine_on
from tests.factories import make_person, make_told, qualify
from tests.jobs.cylinders import buy, make_cylinder

BRANCHES: System = {"branches": ["front"]}
CAR: dict[str, Any] = {
    "plate": "QD.3358T",
    "vin": "ZZ9MT6TL2GT003358",
    "make_model": "Maribel Teasel 1.8",
    "customer_name": "Orla Vandermeer",
    "label_charge": "650",
    "gap_low": "0.35",
    "gap_high": "0.65",
    "gap_source": "workshop_data",
    "complaint": "Blows warm since last week. All the time, not only in the heat.",
}


def fine(kind: str, **more: Any) -> dict[str, Any]:
    """A test where nothing was found, as its button for fine tells it."""
    return {"test_kind": kind, **fine_on(KINDS[kind], BRANCHES), **more}


SOAKED = {"where": "places", "soaked": "yes"}
VENT = {
    "test_kind": "vent_temperature", "branch": "front", "intake": "24", "humidity": "45",
    "recirculation": "recirculated", "blower": "high", "doors": "closed", "rpm": "1500",
    "minutes": "8",
}  # fmt: skip
BEFORE: tuple[dict[str, Any], ...] = (
    fine("walk_round", turned="fine", gas="fine"),
    fine("gas_identity", share="99.6", air="0.2"),
    {"test_kind": "static_pressure", "low": "588", "temperature": "24", **SOAKED},
    {"test_kind": "hub_turn", "turns": "free", "warmth": "cold"},
    {"test_kind": "complaint_seen", "engages": "no", "there": "yes", "blower": "yes", "cold": "no"},
    {"test_kind": "command_data", "power": "on", "asked": "yes", "commanded": "yes"},
    {
        "test_kind": "coil_power", "engine": "off", "ground": "good", "volts": "12.38",
        "amps": "3.05", "temperature": "48", "magnet": "yes", "holds": "no", "pushed": "yes",
    },
    {
        "test_kind": "feed_voltage", "load": "coil", "commanded": "yes", "volts": "13.2",
        "battery": "13.4", "black": "pin", "carries": "yes", "amps": "3.0",
    },
    {"test_kind": "air_gap", "gap_1": "0.92", "gap_2": "0.95", "gap_3": "0.90", "shims": "none"},
{
        **fine("leak_search", method="electronic", setting="g7", pressure="549"),
        "evaporator": "no_reach",
    },
    {**VENT, "vent": "24.8"},
)  # fmt: skip
EMPTY: tuple[dict[str, Any], ...] = (
    {"test_kind": "air_gap", "gap_1": "0.48", "gap_2": "0.47", "gap_3": "0.49"},
    {
        "test_kind": "vacuum_hold", "gauge": "system", "depth": "430", "pumped": "25",
        "temperature": "24", "t1": "5", "p1": "440", "t2": "10", "p2": "445",
        "t3": "15", "p3": "447", "t4": "20", "p4": "448",
    },
)  # fmt: skip
AFTER: tuple[dict[str, Any], ...] = (
    {"test_kind": "static_pressure", "low": "588", "temperature": "24", **SOAKED},
    {
        "test_kind": "running_pressures", "low": "200", "high": "1000", "ambient": "24",
        "shaft": "yes", "charge_known": "weighed_in", "rpm": "1500", "vents": "cold",
        "cycles": "no",
    },
    {**VENT, "vent": "7.1"},
)  # fmt: skip
# Work on the loop, in its order.
RECOVERED: dict[str, Any] = {
    "grams_out": "410",
    "machine": "newer",
    "temperature": "24",
    "gas": "identified",
    "oil_out": "6",
}
OILED: dict[str, Any] = {"oil": "pag46", "added": "60", "how": "part", "arrived": "dry"}
EVACUATED: dict[str, Any] = {
    "gauge": "system",
    "depth": "430",
    "pumped": "25",
    "temperature": "24",
    "t1": "5",
    "p1": "440",
    "t2": "10",
    "p2": "445",
    "t3": "15",
    "p3": "447",
    "t4": "20",
    "p4": "448",
}
CHARGED: dict[str, Any] = {
    "grams_in": "650",
    "hose": "into_car",
    "fill": "full",
    "leak": "none",
}
PRICES: dict[str, Any] = {
    "hours_clutch_in_car": "1.5",
    "part_clutch": "286",
    "source_clutch": "new",
    "rate": "96",
    "keep_months": "3 years",
    "aside_gap_set": "No shim is left to take out.",
}
CLUTCH: dict[str, Any] = {
    "what": "fitted",
    "part": "clutch",
    "source": "new",
    "serial": "88 1034",
    "part_number": "CL-2207",
    "seller": "Tollbar Parts",
    "proof": "Invoice 5521",
    "old_serial": "41 7720",
    "gap_1": "0.48",
}
LINES = (("labor", "Clutch off and on", "1.5", "96"), ("part", "Clutch, complete", "", "286"))
AGREED: dict[str, Any] = {
    "consent_outcome": "agreed",
    "consent_who": "customer",
    "consent_asked": "1",
    "consent_added": "280",
    "consent_amount": "430",
}
SIGNED = json.dumps([[100, 150, 300, 90, 500, 200], [520, 120, 800, 180]])
CHOICE: dict[str, Any] = {"plan": "clutch_in_car", "decided_by": "customer", "reasons": ["shown"]}


def full_job(bay: Person | None = None) -> Told:
    """The whole job, by one technician; it is not closed."""
    bay = bay or make_person(name="R. Sand")
    qualify(bay)
    desk = make_person(DESK, name="M. Oyelaran")
    told = Told(desk, **CAR)
    stood(told.tell(FAILING_NOW, bay, failing="yes"))
    for fields in BEFORE:
        told.test(fields, author=bay)
    stood(told.tell(PRICES_TYPED, desk, **PRICES))
    stood(told.tell(DECISION, desk, **CHOICE, told_how="phone", why="Drives to the lake with it."))
    agreed_to(told, desk)
    machine = make_cylinder("machine", name="Machine 1", refrigerant="R-134a")
    buy(machine, "5 kg", happened_at=START)
    tank = machine.key.hex
    stood(told.tell(RECOVERY, bay, **RECOVERED, cylinder=tank))
    stood(told.tell(CHANGE, bay, **CLUTCH))
    stood(told.tell(CHANGE, bay, what="gap_set", where="Shim of 0.3 mm."))
    stood(told.tell(OIL, bay, **OILED))
    stood(told.tell(EVACUATION, bay, **EVACUATED))
    for fields in EMPTY:
        told.test(fields, author=bay)
    stood(told.tell(CHARGE, bay, **CHARGED, cylinder=tank))
    for fields in AFTER:
        told.test(fields, author=bay)
    stood(told.tell(FAILING_NOW, bay, failing="no"))
    hand_over(told, desk, bay)
    return in_time(told)


def agreed_to(told: Told, desk: Person) -> None:
    """An estimate of what was chosen, and the customer's signature under it."""
    named = ("sort", "words", "quantity", "price")
    fields: dict[str, Any] = {
        f"{name}_{at}": text
        for at, line in enumerate(LINES, 1)
        for name, text in zip(named, line, strict=True)
    }
    first = stood(told.tell(ESTIMATE, desk, **fields))
    about: dict[str, Any] = {
        "consent_about": str(first.key),
        "consent_how": "in_person",
        "signature": SIGNED,
    }
    stood(told.tell(CONSENT, desk, **AGREED, **about))
    stood(told.tell(OLD_PART, desk, choice="shop", how="in_person"))


def hand_over(told: Told, desk: Person, bay: Person) -> None:
    """What stayed in the loop, caps and label, the bill."""
    change = told.job.changes.get(part="clutch")
    stood(told.tell(LOOP_PARTS, bay, condenser="clean", drier="unseen"))
    stood(told.tell(TAKEN_OUT, desk, change=str(change.key), went="shop"))
    stood(told.tell(VERIFIED, bay, caps="on", label="updated", label_grams="650"))
    fields = {"sort_1": "part", "words_1": "Clutch, complete", "price_1": "286"}
    stood(enter(INVOICE, make_told(fields, desk, job_key=told.job.key)))


def in_time(told: Told) -> Told:
    """As if each entry had arrived when it happened, as in a bay with a server."""
    Entry.objects.filter(job_key=told.job.key).update(arrived_at=F("happened_at"))
    return told


def owner() -> Person:
    """Who issues it."""
    return make_person(OWNER, name="E. Quist")
