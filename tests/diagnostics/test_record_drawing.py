"""Drawings on the paper: the numbers that were drawn are frozen, and nothing leaves its box."""

from typing import Any

import pypdfium2
import pytest

from diagnostics.evidence.findings import Axis, Line, Plot, Spot
from diagnostics.record.drawing import drawing_of
from jobs.paper.frozen import exact_text
from jobs.paper.typeset import typeset
from tests.diagnostics.test_record_steps import COIL, data_of, make_step
from tests.factories import make_job
from tests.jobs.frozen_schema import faults
from tests.jobs.records import printed, record_data, squeezed, step_data

REST = {
    "test_kind": "static_pressure",
    "low": "470",
    "high": "472",
    "temperature": "22",
    "where": "air",
    "soaked": "yes",
}
RISE = {
    "test_kind": "vacuum_hold",
    "gauge": "system",
    "depth": "400",
    "temperature": "22",
    "t1": "2",
    "p1": "620",
    "t2": "5",
    "p2": "930",
    "t3": "10",
    "p3": "1450",
}


def told(fields: dict[str, str]) -> dict[str, Any]:
    return dict.fromkeys(COIL) | {"test_version": "1"} | fields


@pytest.mark.django_db
@pytest.mark.parametrize("fields", [REST, RISE], ids=lambda fields: fields["test_kind"])
def test_what_a_page_draws_is_frozen_and_printed(fields):
    job = make_job()
    make_step(job, **told(fields))
    data = data_of(job)
    (step,) = data["steps"]
    drawn = step["drawing"]
    assert drawn is not None
    assert faults(data) == []
    text = printed(typeset(exact_text(data)).pdf)
    assert squeezed(drawn["text"]) in text
    assert squeezed(f"{drawn['y']['text']}, {drawn['y']['unit']}") in text
    for tick in (*drawn["x"]["ticks"], *drawn["y"]["ticks"]):
        assert squeezed(tick["text"]) in text


@pytest.mark.django_db
def test_a_superseded_step_keeps_its_readings_but_draws_nothing():
    job = make_job()
    first = make_step(job, **told(REST))
    make_step(job, corrects=first.key, corrected_why="Wrong hose.", **told(REST))
    drawings = [step["drawing"] for step in data_of(job)["steps"]]
    assert drawings[0] is None
    assert drawings[1] is not None


def test_a_point_beyond_its_axis_stays_on_the_paper():
    wild = Plot(
        Axis("temperature", "°C", 0.0, 40.0, (0.0, 20.0, 40.0)),
        Axis("pressure", "micron", 1.0, 1000.0, (1.0, 10.0, 100.0, 1000.0), log=True),
        (Line(((0.0, 1e-9), (40.0, 1e9)), "a line that leaves"),),
        (Spot(4000.0, 1e12, "far off", 1e9, 1e9),),
        "Far off.",
    )
    step = step_data(drawing=drawing_of(wild))
    data = record_data(lambda data: data.update(steps=[step]))
    pdf = typeset(exact_text(data)).pdf
    assert squeezed("far off") in printed(pdf)
    for page in pypdfium2.PdfDocument(pdf):
        wide, tall = page.get_size()
        for one in page.get_objects():
            left, bottom, right, top = one.get_bounds()
            assert left >= 0
            assert bottom >= 0
            assert right <= wide
            assert top <= tall
