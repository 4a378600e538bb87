"""The claim sheet: what a warranty desk asks, what lacks, and nothing of who the customer is."""

import copy
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from jobs.models import Job, Record
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.paper.claim import SHOWN_WITH, claim_of, fitted
from jobs.paper.frozen import exact_text, sha256
from tests.factories import make_job, make_person
from tests.jobs.records import record_data
from tests.jobs.test_record import make_record

pytestmark = pytest.mark.django_db

WORK = {"counts": True, "by": "R. Sand", "state": 1, "lines": [], "key": "x"}
DEPTH = {"field": "depth", "name": "Depth", "text": "430 micron"}
PUMPED = {"field": "pumped", "name": "Pumped for", "text": "25 min"}
OIL = {"field": "oil", "name": "Oil", "text": "PAG 46"}


def compressor(data: Any) -> None:
    """A compressor was fitted, bought and proven; the loop was done whole."""
    change = data["states"][1]["told"][1]
    change["text"] = "Compressor: fitted or swapped, new"
    change["values"] = {
        "what": "fitted",
        "part": "compressor",
        "serial": "K-30 5518",
        "part_number": "CP-88",
        "seller": "Tollbar Parts",
        "proof": "Invoice 5521",
        "old_serial": "K-29 1207",
        "old_part_number": "CP-87",
        "also": ["drier", "expansion_device"],
        "gap_um": ["480", "470"],
    }
    change["by"] = "R. Sand"
    data["people"][0]["qualifications"] = [{"number": "EX-55120"}]
    data["loop_parts"] = [
        {"part": "drier", "name": "Receiver-drier", "text": "Replaced, new", "code": "replaced"},
        {"part": "expansion_device", "name": "Valve", "text": "Replaced", "code": "replaced"},
    ]
    data["old_parts"] = [{"change": change["key"], "went": "Sent back as a core"}]
    data["amounts"] |= {
        "text": "Every gram: 650 g charged",
        "rows": [{}],
        "charged_mg": 650_000,
        "oil": [
            {"side": "out", "text": "Out with the refrigerant", "amount": "6 mL"},
            {"side": "into", "text": "Put in from the bottle", "amount": "60 mL"},
        ],
        "works": [
            {**WORK, "what": "oil", "text": "Oil: 60 mL in", "readings": [OIL]},
            {
                **WORK,
                "what": "evacuation",
                "text": "Evacuation",
                "readings": [DEPTH, PUMPED],
                "lines": ["Pump: ours", "After the valve was shut: 440 micron at 5 min"],
            },
            {**WORK, "what": "charge", "text": "Charge: 650 g", "readings": []},
        ],
    }
    step = data["steps"][0]
    data["steps"] = [
        {**step, "number": number, "kind": kind, "state": state, "finding": f"{kind} {state}"}
        for number, (kind, state) in enumerate(
            [
                *((one, at) for at in (0, 1) for one in ("running_pressures", "vent_temperature")),
                ("leak_search", 1),
                ("feed_voltage", 0),
            ]
        )
    ]


def sheet(*changes: Any) -> Any:
    """The sheet of the one part that such a job had fitted."""
    data: Any = copy.deepcopy(record_data(compressor))
    for change in changes:
        change(data)
    return claim_of(data, fitted(data)[0])


def row(claim: Any, label: str) -> Any:
    return next(one for one in claim.rows if one.label == label)


def own_receipts(data: Any) -> None:
    """The drier and the expansion device were each told with their own receipt."""
    told = data["states"][1]["told"]
    for part in SHOWN_WITH:
        values = {"what": "fitted", "part": part, "proof": f"Invoice of the {part}"}
        told.append({**told[1], "key": part, "values": values, "text": part})


def test_a_job_that_was_noted_whole_leaves_nothing_open():
    assert sheet(own_receipts).lacking == []


def test_a_receipt_is_not_printed_for_a_part_for_which_none_was_told():
    drier = row(sheet(), "Drier or accumulator")
    assert not any("5521" in line for line in drier.lines)
    assert drier.lacks == ["Drier or accumulator: receipt"]


def test_a_part_was_fitted_when_that_was_told_first_not_when_its_receipt_was_added():
    def completed(data: Any) -> None:
        data["states"][1]["told"][1] |= {"done": "1 May 2026, 14:39", "when": "1 May 2026, 14:45"}

    first, *_ = row(sheet(completed), "Part fitted").lines
    assert "fitted 1 May 2026, 14:39" in first


def test_an_issue_of_before_such_times_tells_the_one_it_has():
    def old(data: Any) -> None:
        data["states"][1]["told"][1].pop("done")

    first, *_ = row(sheet(old), "Part fitted").lines
    assert "fitted 25 Aug 2026, 15:20" in first


@pytest.mark.parametrize("part", ["clutch", "coil"])
def test_what_has_a_coil_is_asked_for_the_voltage_at_it(part: str):
    def none(data: Any) -> None:
        data["states"][1]["told"][1]["values"]["part"] = part
        data["steps"].pop()

    assert "Voltage at the coil’s plug" in sheet(none).lacking


def test_a_hose_is_not_asked_for_the_voltage():
    def hose(data: Any) -> None:
        data["states"][1]["told"][1]["values"]["part"] = "hose"
        data["steps"].pop()

    assert "Voltage at the coil’s plug" not in sheet(hose).lacking


def test_a_search_before_the_part_was_fitted_is_none_afterwards():
    def before(data: Any) -> None:
        data["steps"][4]["state"] = 0

    assert "Leak search after the repair" in sheet(before).lacking


@pytest.mark.parametrize(
    ("label", "line"),
    [
        ("Car", "VIN XZ9BR1L67HT004182"),
        ("Part fitted", "Part number: CP-88"),
        ("Part fitted", "Serial number: K-30 5518"),
        ("Part fitted", "Proof of purchase: Invoice 5521"),
        ("Part fitted", "Air gap before it was fitted: 0.48, 0.47 mm"),
        ("Old part", "Serial number: K-29 1207"),
        ("Old part", "Sent back as a core"),
        ("Drier or accumulator", "Receiver-drier: Replaced, new"),
        ("Vacuum", "After the valve was shut: 440 micron at 5 min"),
        ("Leak search, after", "Step 4, Power straight at the coil: leak_search 1"),
        ("Voltage at the coil", "Step 5, Power straight at the coil: feed_voltage 0"),
        ("Flush", "No flush is noted."),
        ("Oil", "Type: PAG 46"),
        ("Oil", "Out with the refrigerant: 6 mL"),
        ("Refrigerant", "Charge: 650 g"),
        (
            "Pressures and temperatures, before",
            "Step 0, Power straight at the coil: running_pressures 0",
        ),
        (
            "Pressures and temperatures, after",
            "Step 3, Power straight at the coil: vent_temperature 1",
        ),
    ],
)
def test_what_a_warranty_desk_asks_stands_on_it(label: str, line: str):
    assert line in row(sheet(), label).lines


def drop(part: str) -> Any:
    return lambda data: data["states"][1]["told"][1]["values"].pop(part)


@pytest.mark.parametrize(
    ("change", "lacks"),
    [
        (drop("serial"), "Part fitted: serial number"),
        (drop("proof"), "Part fitted: proof of purchase"),
        (drop("old_serial"), "Old part: serial number"),
        (lambda data: data.update(old_parts=[]), "Old part: where it is"),
        (lambda data: data["amounts"].update(charged_mg=None), "Refrigerant: grams charged"),
        (lambda data: data["amounts"]["works"].pop(1), "Vacuum: depth and time"),
        (lambda data: data["amounts"]["works"][1]["readings"].pop(0), "Vacuum: how deep"),
        (lambda data: data["amounts"]["works"][1]["readings"].pop(1), "Vacuum: how long"),
        (lambda data: data["amounts"]["works"].pop(0), "Oil: type"),
        (lambda data: data["amounts"]["oil"].pop(0), "Oil: milliliters out"),
        (lambda data: data["steps"].pop(0), "Before: running pressures"),
        (lambda data: data["steps"].pop(3), "After: temperature at a vent"),
        (lambda data: data["people"][0].update(qualifications=[]), "Certificate number of R. Sand"),
    ],
)
def test_what_is_missing_is_said_missing(change: Any, lacks: str):
    assert lacks in sheet(change).lacking


def test_a_drier_of_which_nothing_is_noted_lacks():
    def none(data: Any) -> None:
        data.update(loop_parts=[])
        data["states"][1]["told"][1]["values"]["also"] = None

    assert "Drier or accumulator: whether it was replaced" in sheet(none).lacking


def test_work_that_was_corrected_does_not_count():
    def corrected(data: Any) -> None:
        data["amounts"]["works"][1]["counts"] = False

    assert "Vacuum: depth and time" in sheet(corrected).lacking


def test_an_issue_of_before_there_were_amounts_can_still_be_told():
    def old(data: Any) -> None:
        for part in ("amounts", "loop_parts", "old_parts", "customer", "opinion"):
            data.pop(part, None)

    assert "Refrigerant: grams charged" in sheet(old).lacking


def test_a_photo_that_shows_somebody_is_not_on_it():
    def photos(data: Any) -> None:
        first = {"number": 1, "shown": "a" * 64, "about": "serial", "step": None, "personal": False}
        first |= {
            "place_text": "Compressor",
            "about_text": "Serial number, label. For Mrs. Marwell",
        }
        data["photos"] = [first, {**first, "number": 2, "personal": True}]

    told = sheet(photos).photos
    assert [(one["number"], one["what"]) for one in told] == [
        (1, "Compressor: Serial number, label")
    ]


# ---- the page ------------------------------------------------------------------------------------


def issued(job: Job, *changes: Any) -> Record:
    data: Any = copy.deepcopy(record_data(compressor))
    for change in changes:
        change(data)
    frozen = exact_text(data)
    return make_record(job, data=frozen, data_sha256=sha256(frozen))


def page(job: Job, role: str = DESK, **asked: Any) -> Any:
    client = Client()
    client.force_login(make_person(role))
    return client.get(reverse("claim"), {"job": str(job.key), **asked})


@pytest.mark.parametrize("role", [TECHNICIAN, DESK, OWNER])
def test_the_page_tells_the_sheet_and_its_hash(role: str):
    job = make_job()
    row = issued(job, own_receipts)
    said = page(job, role).content.decode()
    assert "Serial number: K-30 5518" in said
    assert row.data_sha256 in said
    assert "Nothing of this sheet is left open." in said


def test_customer_phone_address_and_plate_are_not_on_it():
    job = make_job(phone="555 010 0199")
    issued(job)
    said = page(job).content.decode()
    for private in ("Marwell", "555 010 0199", "KX.4731D", "Blows warm"):
        assert private not in said


def test_without_an_issue_there_is_no_sheet():
    assert "No record of this job was issued yet." in page(make_job()).content.decode()


def test_an_issue_without_a_part_says_so():
    job = make_job()
    issued(job, lambda data: data.update(states=[]))
    assert "has no part that was fitted" in page(job).content.decode()


def test_a_part_that_the_issue_does_not_have_is_not_found():
    job = make_job()
    issued(job)
    assert page(job, part="x").status_code == 404


def test_data_that_are_not_as_frozen_make_no_sheet():
    job = make_job()
    issued(job)
    Record.objects.update(data="{}")
    response = page(job)
    assert response.status_code == 410
    assert "are not as they were" in response.content.decode()


def decided(*ways: Any) -> Any:
    """A decision beside which somebody typed a name."""
    made = {"counts": True, "text": "Clutch: as Mrs. Vandermeer wishes", "ways": list(ways)}
    return lambda data: data.update(decisions=[made])


def test_what_was_decided_is_told_as_it_was_offered_and_not_in_anybodys_own_words():
    way = {"chosen": True, "text": "Clutch parts, in the car"}
    offered = row(sheet(decided({**way, "chosen": False, "text": "Nothing"}, way)), "Cause").lines
    assert "Decided: Clutch parts, in the car." in offered
    other = row(sheet(decided()), "Cause").lines
    assert "Decided: another way than was offered." in other
    assert "Vandermeer" not in " ".join([*offered, *other])
