"""The places on a car's A/C: what a system has, where they stand, what they cover."""

from dataclasses import dataclass, field

import pytest

from diagnostics.evidence import drives
from diagnostics.evidence.kinds import debris
from diagnostics.evidence.leak_places import PLACES as LEAK_PLACES
from jobs.models.ac_places import BESIDE, PLACES, SOFT_HYPHEN, WORDS, lines_of, places_of
from jobs.models.vehicles import DRIVES, EXPANSIONS, WITH_HIGH_VOLTAGE
from jobs.templatetags.car_plan import arranged, drawn


@dataclass
class Car:
    drive: str = ""
    expansion: str = ""
    branches: list = field(default_factory=list)


CARS = [
    Car(drive, expansion, branches)
    for drive in ("", *DRIVES)
    for expansion in ("", *EXPANSIONS)
    for branches in ([], ["front"], ["front", "rear"], ["front", "rear", "battery"])
]


def codes(car):
    return [one.code for one in places_of(car)]


def test_an_unknown_car_has_every_place():
    assert codes(None) == [one.code for one in PLACES]


@pytest.mark.parametrize(
    ("drive", "clutch", "high_voltage"),
    [
        ("belt_clutch", True, False),
        ("belt_clutchless", False, False),
        ("electric_hv", False, True),
        ("belt_electric", True, True),
    ],
)
def test_clutch_and_high_voltage_go_by_the_drive(drive, clutch, high_voltage):
    here = codes(Car(drive))
    assert ("clutch" in here, "high_voltage" in here) == (clutch, high_voltage)


def test_jobs_and_tests_name_the_same_drives_with_high_voltage():
    assert drives.WITH_HIGH_VOLTAGE == WITH_HIGH_VOLTAGE


@pytest.mark.parametrize(
    ("drive", "words"),
    [
        ("electric_hv", "High-voltage unit"),
        ("belt_electric", "High-voltage unit"),
        ("electric_48", "Inverter or converter"),
        ("", "High-voltage or 48\u00a0V unit"),
    ],
)
def test_what_feeds_an_electric_compressor_is_called_high_voltage_where_it_is(drive, words):
    here = {one.code: one.words.replace(SOFT_HYPHEN, "") for one in places_of(Car(drive))}
    assert here["high_voltage"] == words


def test_a_photo_of_any_car_is_not_filed_at_high_voltage_alone():
    assert "48" in WORDS["high_voltage"]


def test_a_rear_unit_is_there_where_the_system_has_one():
    assert "rear" not in codes(Car(branches=["front"]))
    assert "rear" in codes(Car(branches=["front", "rear"]))


def test_an_orifice_tube_comes_with_an_accumulator_behind_the_evaporator():
    words = {
        one.code: one.words.replace("\u00ad", "") for one in places_of(Car(expansion="orifice"))
    }
    assert (words["drier"], words["expansion"]) == ("Accumulator", "Orifice tube")
    joined = [(a.code, b.code) for a, b, _ in lines_of(Car(expansion="orifice"), PLACES)]
    assert ("evaporator", "drier") in joined
    assert ("condenser", "drier") not in joined


@pytest.mark.parametrize("car", CARS, ids=str)
def test_no_two_places_stand_on_one_another(car):
    here = places_of(car)
    wide = [(one.column, one.row) for one in here]
    narrow = list(arranged(here, max(one.row for one in here)).values())
    assert len(set(wide)) == len(wide)
    assert len(set(narrow)) == len(narrow)


@pytest.mark.parametrize("car", CARS, ids=str)
def test_every_line_runs_along_or_down_between_two_places_of_the_car(car):
    here = places_of(car)
    for start, end, _low in lines_of(car, here):
        assert start in here
        assert end in here
    for sheet in drawn(car, {}, "", "")["sheets"]:
        for line in sheet.strokes:
            assert line.x1 == line.x2 or line.y1 == line.y2


def test_places_of_leak_search_and_debris_are_covered_under_a_place_of_ours():
    told = {one.name for one in LEAK_PLACES} | set(debris.PLACES)
    ours = set(WORDS) | {code for one in PLACES for code in one.covers}
    assert told <= ours


def test_a_spot_is_covered_by_one_place_only():
    covered = [code for one in (*PLACES, *BESIDE) for code in (one.code, *one.covers)]
    assert len(covered) == len(set(covered))
