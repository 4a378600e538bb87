"""An invented record's data, and a reader's view of the paper made from it."""

import re
from collections.abc import Callable
from typing import Any

import pypdfium2

from jobs.paper import frozen
from jobs.paper.frozen import RecordData, Step, exact_text, sha256
from jobs.paper.typeset import Paper, typeset

JOB = "00000000-0000-4000-8000-000000000000"
CHANGE = "00000000-0000-4000-8000-000000000003"
SAND = "00000000-0000-4000-8000-0000000000a1"
QUIST = "00000000-0000-4000-8000-0000000000a2"
COMPLAINT = "Blows warm since last week."
CONSENT = "Find the fault, up to $160.00, weighing the refrigerant out and back included."


def change_data(text: str, *lines: str, counts: bool = True) -> frozen.Change:
    """A change on the car; `counts` false: corrected since."""
    return {
        "text": text,
        "lines": list(lines),
        "values": {"what": "fitted", "part": "relay"},
        "key": CHANGE,
        "counts": counts,
        "by": "E. Quist",
        "author": SAND,
        "at": "2026-08-25T15:20:00-04:00",
        "when": "25 Aug 2026, 15:20",
        "arrived_at": "2026-08-25T15:20:00-04:00",
        "arrived": "",
        "done_at": "2026-08-25T15:20:00-04:00",
        "done": "25 Aug 2026, 15:20",
        "corrected": "",
        "done_by": "E. Quist",
    }


def step_data(number: int = 1, **changed: Any) -> Step:
    """One step: power straight at the coil, the plate does not come by itself."""
    step: Step = {
        "number": number,
        "key": f"00000000-0000-4000-8000-{number:012}",
        "kind": "coil_power",
        "version": 1,
        "state": 0,
        "failing": "failing: yes",
        "failing_now": "yes",
        "test": "Power straight at the coil",
        "finding": "The plate does not come by itself; it holds when pushed.",
        "outcome": {
            "code": "holds_when_pushed",
            "carries": True,
            "normal": False,
            "basis": "vehicle",
        },
        "superseded_by": None,
        "readings": [
            {
                "field": "volts",
                "name": "Volts at its pins",
                "condition": False,
                "text": "12.38 V",
                "typed": "12,38",
                "unit": "V",
                "si": 12.38,
                "si_unit": "V",
                "code": None,
            },
            {
                "field": "magnet",
                "name": "Magnet felt?",
                "condition": False,
                "text": "Yes",
                "typed": "yes",
                "unit": "",
                "si": None,
                "si_unit": "",
                "code": "yes",
            },
        ],
        "read_with": [],
        "worked_out": [
            {
                "field": "amps",
                "name": "Resistance at work",
                "text": "4.06 Ω",
                "si": 4.06,
                "si_unit": "Ω",
                "u": 0.1,
            }
        ],
        "drawing": None,
        "bearings": [
            {
                "standing": "likely",
                "words": "most likely",
                "subject": "Gap",
                "text": "too wide: the plate holds when pushed.",
            }
        ],
        "not_tested": ["Relay and fuse were bypassed.", "Slipping: not tested."],
        "limits": [{"text": "expected 2.9–3.3 A", "low": 2.9, "high": 3.3, "unit": "A"}],
        "source": "Expected from 3.6 Ω at 20 °C, workshop data.",
        "notes": [],
        "remark": "",
        "marks": [],
        "by": "R. Sand",
        "author": SAND,
        "at": "2026-08-25T14:29:00-04:00",
        "when": "25 Aug 2026, 14:29",
        "arrived_at": "2026-08-25T14:29:00-04:00",
        "arrived": "",
        "done_at": "2026-08-25T14:29:00-04:00",
        "done": "25 Aug 2026, 14:29",
        "corrected": "",
        "done_by": "R. Sand",
    }
    return {**step, **changed}  # type: ignore[typeddict-item]


def record_data(change: Callable[[Any], object] | None = None) -> RecordData:
    """A job with one step, one that could not be done, one consent; then changed as told."""
    data: RecordData = {
        "schema": 2,
        "record": {
            "number": "26-0001",
            "issue": 1,
            "job": JOB,
            "plate": "KX.4731D",
            "at": "2026-08-26T16:05:00-04:00",
            "when": "26 Aug 2026, 16:05",
            "issued_by": "E. Quist, owner",
            "author": QUIST,
            "role": "owner",
            "changed": "First issue.",
            "address": "https://shop.example/job/00000000-0000-4000-8000-000000000000/",
            "zone": "America/New_York",
            "paper": "a4",
        },
        "shop": {
            "name": "Hollow Lane Garage",
            "lines": ["14 Hollow Lane, Eastmere"],
            "law": "",
            "settings": [],
        },
        "facts": [
            {
                "label": "Customer, and payer",
                "lines": ["Ida Marwell", "pays herself"],
                "values": {"name": "Ida Marwell", "payer": "customer"},
            },
            {
                "label": "Car",
                "lines": ["Brenloh Ilex 1.6", "VIN XZ9BR1L67HT004182"],
                "values": {"make_model": "Brenloh Ilex 1.6", "vin": "XZ9BR1L67HT004182"},
            },
        ],
        "stands": {
            "head": "Testing is not finished.",
            "detail": "Nothing was repaired.",
            "stage": "testing",
            "tests": 1,
            "not_done": 1,
            "points": 1,
            "changes": 0,
            "loop": {
                "text": "opened 25 Aug 2026, 15:10, closing not noted.",
                "run": "Must not be run: the loop is open, as far as is noted.",
                "not_told": ["Oil put back in: not noted; never run it without."],
                "code": "opened",
                "seen_at": "2026-08-25T15:10:00-04:00",
            },
        },
        "customer": {
            "states": {
                "text": "Testing is not finished.",
                "under": "Nothing was repaired.",
                "code": "testing",
            },
            "back": {"text": "Come back if it blows warm again", "under": "", "code": ""},
            "found": [
                {
                    "text": "The plate holds when pushed. We conclude: gap too wide, most likely.",
                    "standing": "likely",
                    "steps": [1],
                }
            ],
            "did": ["Relay: fitted or swapped, new"],
            "remains": ["The charge is not shown to be right."],
            "warranty": {
                "text": ["Labor, for 12 months."],
                "shop_months": 12,
                "shop_pays": ["labor"],
                "seller_months": None,
                "seller_pays": [],
            },
            "paid": None,
        },
        "closing": None,
        "stages": [],
        "let": [],
        "decisions": [],
        "said": {
            "complaint": COMPLAINT,
            "answers": [
                {"label": "Since when", "lines": ["last week"], "values": {"since": "weeks"}}
            ],
        },
        "cautions": ["With A/C off the windshield clears more slowly."],
        "system": [
            {
                "label": "Refrigerant, label charge",
                "lines": ["R-134a, 520 g (18.3 oz)"],
                "values": {"refrigerant": "R-134a", "label_charge_mg": 520_000},
            }
        ],
        "states": [
            {
                "number": 0,
                "what": "as arrived",
                "touches": [],
                "told": [],
                "entry": JOB,
                "at": "2026-08-24T17:40:00-04:00",
                "when": "24 Aug 2026, 17:40",
            },
            {
                "number": 1,
                "what": "Relay: fitted or swapped, new",
                "touches": ["command"],
                "told": [
                    change_data("Relay: adjusted", counts=False),
                    change_data("Relay: fitted or swapped, new", "Serial number: 0417 B"),
                ],
                "entry": CHANGE,
                "at": "2026-08-25T15:20:00-04:00",
                "when": "25 Aug 2026, 15:20",
            },
        ],
        "steps": [step_data()],
        "opinion": [
            {
                "question": "clutch",
                "name": "Clutch",
                "text": "clutch and hub: air gap too wide",
                "standing": "likely",
                "words": "most likely",
                "steps": [1],
                "by_part": [
                    {
                        "variable": "clutch",
                        "text": "Clutch and hub: air gap too wide",
                        "standing": "likely",
                        "steps": [1],
                        "notes": ["Rests on one test: Power straight at the coil."],
                    }
                ],
            }
        ],
        "not_done": [
            {
                "number": 2,
                "key": "00000000-0000-4000-8000-000000000002",
                "kind": "air_gap",
                "version": 1,
                "state": 0,
                "test": "Air gap",
                "why": "No access",
                "code": "no_access",
                "superseded_by": None,
                "readings": [],
                "marks": [],
                "by": "R. Sand",
                "author": SAND,
                "at": "2026-08-25T15:00:00-04:00",
                "when": "25 Aug 2026, 15:00",
                "arrived_at": "2026-08-25T15:00:00-04:00",
                "arrived": "",
                "done_at": "2026-08-25T15:00:00-04:00",
                "done": "25 Aug 2026, 15:00",
                "corrected": "",
                "done_by": "R. Sand",
            }
        ],
        "not_tested": [
            {
                "kind": "running_pressures",
                "what": "Running pressures",
                "why": "the clutch does not hold",
            }
        ],
        "photos": [],
        "verification": None,
        "loop_parts": [],
        "old_parts": [],
        "old_parts_chosen": None,
        "estimates": [],
        "invoices": [],
        "amounts": {
            "text": "No refrigerant was moved in this job, as far as is noted.",
            "rows": [],
            "says": [],
            "label_mg": 520_000,
            "recovered_mg": None,
            "remainder_mg": None,
            "missing_least_mg": None,
            "charged_mg": None,
            "oil": [],
            "oil_says": [],
            "works": [],
            "moves": [],
        },
        "open_points": [
            {"text": "Hub not turned by hand yet.", "code": "hub_first", "step": None, "waived": ""}
        ],
        "consents": [
            {
                "number": 1,
                "entry": JOB,
                "given_by": "Ida Marwell",
                "how": "in person, signed",
                "how_code": "in_person",
                "number_called": "",
                "asked_by": "M. Oyelaran",
                "text": CONSENT,
                "sha256": sha256(CONSENT),
                "about_code": "find_fault",
                "about_text": "find the fault",
                "estimate": None,
                "outcome": "agreed",
                "outcome_text": "Agreed",
                "added": "",
                "added_units": None,
                "tried": [],
                "signed": "Signed by hand",
                "signature": "",
                "amount": "$160.00",
                "smallest_units": 16000,
                "currency": "USD",
                "counts": True,
                "gone": "",
                "superseded_by": None,
                "at": "2026-08-24T17:46:00-04:00",
                "when": "24 Aug 2026, 17:46",
                "arrived_at": "2026-08-24T17:46:00-04:00",
                "arrived": "",
            }
        ],
        "people": [
            {
                "name": "R. Sand",
                "author": SAND,
                "did": "step 1",
                "steps": [1],
                "qualification": "none on file",
                "qualifications": [],
            }
        ],
        "equipment": {"instruments": [], "not_named": [], "text": "No step names an instrument."},
        "corrections": [],
    }
    if change:
        change(data)
    return data


def complaint(text: str) -> RecordData:
    """The record with this complaint."""
    return record_data(lambda data: data["said"].update(complaint=text))


def paper_of(data: RecordData) -> Paper:
    """The paper made from this data."""
    return typeset(exact_text(data))


def pages(pdf: bytes) -> list[str]:
    """What another reader finds on each page."""
    with pypdfium2.PdfDocument(pdf) as document:
        return [page.get_textpage().get_text_range() for page in document]


def squeezed(text: str) -> str:
    """Text without gaps, isolates and hyphens at line ends, so that line breaks do not matter."""
    return re.sub("[\\s\u2068\u2069\ufffe\u0002]", "", text)


def printed(pdf: bytes) -> str:
    """All that is printed, without gaps."""
    return squeezed("".join(pages(pdf)))
