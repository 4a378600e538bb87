"""Twins: what compares with what it was before; where it does not, nothing is worked out."""

from typing import Any

import pytest

from diagnostics.evidence.before_after import before_and_after, not_compared
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.fields import Number
from diagnostics.evidence.readings import Reading, parse
from diagnostics.evidence.system import System
from diagnostics.evidence.twin_rules import (
    AROUND,
    LIKE,
    MEASURED,
    NO_TWIN,
    OF_THE_WHOLE,
    PARTED_BY,
    SPREAD,
)
from diagnostics.evidence.twins import Once, Twin, twin
from diagnostics.physics.shown_units import ShownIn

BELT: System = {"drive": "belt_clutch", "refrigerant": "R-134a"}
VENT = {
    "branch": "front", "vent": "24.8 °C", "intake": "27 °C", "humidity": "45 %",
    "recirculation": "fresh", "blower": "high", "doors": "open", "rpm": "1500 rpm",
    "minutes": "10 min",
}  # fmt: skip
COOLS = VENT | {"vent": "7.1 °C"}
PRESSURES = {
    "low": "180 kPa", "high": "1300 kPa", "ambient": "28 °C", "shaft": "yes", "rpm": "1500 rpm",
}  # fmt: skip
# Conditions that a kind asks and that no reading of a twin hangs on: what is known of the charge or
# of the car, what the repair itself changes, what another reading is held against.
NO_BEARING = {
    "coil_power": {"hub"},
    "control_valve_duty": {"charge_known", "spec"},
    "equalising": {"charge_known", "device"},
    "evaporator_sensor": {"figure"},
    "hv_isolation": {"qualified", "figure", "least", "system_volts"},
    "line_temperatures": {"charge_known", "vessel", "exchanger"},
    "pressure_switch": {"closes_at", "ready"},
    "relay": {"engine", "clutch_coil"},
    "static_pressure": {"where"},  # soaked, it is everywhere as warm
    "running_pressures": {"charge_known", "shaft"},
}
# Golden rows: one condition told both times (None: not told), and why it is not alike. How far
# apart is still alike is our judgement; that these conditions bear on a vent: trade articles.
ROWS = [
    ("intake", "27 °C", "30 °C", ""),
    ("intake", "27 °C", "30.1 °C", "more than 3\u00a0K apart (our limit)"),
    ("intake", "27 °C", "24 °C", ""),
    ("intake", "27 °C", None, "not told now"),
    ("humidity", "45 %", "60 %", ""),
    ("humidity", "45 %", "61 %", "more than 15\u00a0% apart (our limit)"),
    ("humidity", None, "45 %", "not told then"),
    ("humidity", None, None, "not told either time"),
    ("rpm", "1500 rpm", "1700 rpm", ""),
    ("rpm", "1500 rpm", "1750 rpm", "more than 200\u00a0rpm apart (our limit)"),
    ("minutes", "10 min", "13 min", ""),
    ("minutes", "10 min", "14 min", "more than 3\u00a0min apart (our limit)"),
    ("doors", "open", "open", ""),
    ("doors", "open", "closed", "not the same"),
    ("blower", "high", "middle", "not the same"),
    ("recirculation", "fresh", "recirculated", "not the same"),
    ("recirculation", None, "fresh", "not told then"),
]


def read(kind: str, told: dict[str, Any]) -> dict[str, Reading | str]:
    """Readings as a form brings them; one of None is left out."""
    found: dict[str, Reading | str] = {}
    for name, value in told.items():
        asked = KINDS[kind].asked(name)
        if value is not None and isinstance(asked, Number):
            found[name] = parse(value, asked.units, asked.unit)
        elif value is not None:
            found[name] = value
    return found


def once(kind: str, told: dict[str, Any], step: int = 1, **more: Any) -> Once:
    readings = read(kind, told)
    return Once(step, 0 if step == 1 else 1, "", readings, more.pop("taken", readings), **more)


def pair(kind: str, then: dict[str, Any], now: dict[str, Any], system: System = BELT) -> Twin:
    first, last = [once(kind, then)], [once(kind, now, step=2)]
    return twin(KINDS[kind], first, last, system, ShownIn())


@pytest.mark.parametrize(("name", "then", "now", "why"), ROWS)
def test_a_condition_is_alike_within_its_limit_and_told_both_times(name, then, now, why):
    found = pair("vent_temperature", VENT | {name: then}, COOLS | {name: now})
    told = next(one for one in found.conditions if one.field == name)
    assert told.why == why
    assert found.compared == (not why)


@pytest.mark.parametrize(("name", "then", "now", "why"), ROWS)
def test_no_difference_is_worked_out_where_a_condition_is_not_alike(name, then, now, why):
    found = pair("vent_temperature", VENT | {name: then}, COOLS | {name: now})
    [row] = found.rows
    assert bool(row.apart) == (not why)
    assert row.beyond == (not why)


def test_both_readings_stand_where_they_do_not_compare():
    found = pair("vent_temperature", VENT, COOLS | {"doors": "closed"})
    [row] = found.rows
    assert (row.then, row.now, row.apart) == ("24.8\u00a0°C", "7.1\u00a0°C", "")
    assert before_and_after([found]) is None
    assert "doors and windows: Open then, Closed now" in not_compared([found])


def test_under_like_conditions_it_says_how_much_colder():
    [row] = pair("vent_temperature", VENT, COOLS).rows
    assert (row.apart, row.beyond) == ("17.7\u00a0K colder", True)


def test_what_the_instruments_cannot_tell_apart_is_no_difference():
    """Two thermometers of ±2 °C: 2.3 K of doubt of each, by JCGM 100:2008, 4.3.7 and 5.1.2."""
    found = pair("vent_temperature", VENT, VENT | {"vent": "22.0 °C"})
    [row] = found.rows
    assert row.apart.startswith("not told apart by these instruments (±3.3")
    assert not row.beyond
    told = before_and_after([found])
    assert told is not None
    assert not told.beyond


def test_how_the_air_felt_stands_for_a_humidity_read_neither_time():
    then = once("vent_temperature", VENT | {"humidity": None}, around={"air": "muggy"})
    alike = once("vent_temperature", COOLS | {"humidity": None}, 2, around={"air": "muggy"})
    dry = once("vent_temperature", COOLS | {"humidity": None}, 2, around={"air": "dry"})
    kind = KINDS["vent_temperature"]
    assert twin(kind, [then], [alike], BELT, ShownIn()).compared
    assert not twin(kind, [then], [dry], BELT, ShownIn()).compared


def test_what_a_test_does_not_ask_is_taken_from_what_was_told_in_that_hour():
    lines = {"discharge": "70 °C", "running": "yes", "by": "clamp"}
    around = read("running_pressures", {"ambient": "28 °C", "rpm": "1500 rpm"})
    kind = KINDS["line_temperatures"]
    then, now = (once(kind.name, lines, step, around=around) for step in (1, 2))
    assert twin(kind, [then], [now], BELT, ShownIn()).compared
    bare = once(kind.name, lines, 2)
    assert [one.field for one in twin(kind, [then], [bare], BELT, ShownIn()).unlike] == [
        "ambient",
        "rpm",
    ]


def test_an_electric_car_has_no_engine_speed_to_be_alike():
    without = pair("vent_temperature", VENT | {"rpm": None}, COOLS | {"rpm": None})
    assert not without.compared
    electric: System = {"drive": "electric_hv"}
    told = VENT | {"rpm": None}, COOLS | {"rpm": None}
    assert pair("vent_temperature", *told, system=electric).compared


def test_a_loop_that_had_not_soaked_compares_with_nothing():
    rest = {"low": "470 kPa", "temperature": "20 °C", "soaked": "yes"}
    assert pair("static_pressure", rest, rest).compared
    found = pair("static_pressure", rest | {"soaked": "no"}, rest | {"soaked": "no"})
    assert [one.why for one in found.unlike] == ["says nothing of a difference"]


def test_a_reading_that_does_not_hang_on_what_differs_is_compared_all_the_same():
    coil = {"engine": "off", "ground": "good", "volts": "12.4 V", "amps": "3.4 A"}
    found = pair("coil_power", coil, coil | {"volts": "9.0 V", "temperature": "20 °C"})
    apart = {one.field: one.apart for one in found.rows}
    assert apart["volts"] == "3.4\u00a0V less"
    assert apart["amps"] == ""


def test_a_reading_that_nothing_is_made_of_stands_and_is_not_compared():
    then, now = once("vent_temperature", VENT), once("vent_temperature", COOLS, 2, taken={})
    found = twin(KINDS["vent_temperature"], [then], [now], BELT, ShownIn())
    assert [(one.now, one.apart) for one in found.rows] == [("7.1\u00a0°C", "")]


def test_of_several_as_it_came_in_the_last_that_compares_is_the_twin():
    told = (VENT | {"vent": "25.5 °C"}, VENT, VENT | {"rpm": "800 rpm"})
    first = [once("vent_temperature", one, step) for step, one in enumerate(told, start=1)]
    found = twin(
        KINDS["vent_temperature"], first, [once("vent_temperature", COOLS, 9)], BELT, ShownIn()
    )
    assert found.then.step == 2


def test_one_not_made_again_has_its_numbers_its_conditions_and_why():
    found = twin(
        KINDS["vent_temperature"], [once("vent_temperature", VENT)], [], BELT, ShownIn(), "x"
    )
    assert (found.compared, found.why_not) == (False, "x")
    assert [(one.then, one.now) for one in found.rows] == [("24.8\u00a0°C", "")]
    assert {one.field for one in found.conditions} == {one.name for one in LIKE[found.kind]}


def test_gap_points_are_told_as_smallest_and_largest_without_a_difference():
    gaps = {"gap_1": "0.92 mm", "gap_2": "0.88 mm", "gap_3": "0.95 mm"}
    [row] = pair("air_gap", gaps, {"gap_1": "0.5 mm", "gap_2": "0.45 mm"}).rows
    assert row.then == "0.88–0.95\u00a0mm at 3 points"
    assert row.now == "0.45–0.50\u00a0mm at 2 points"
    assert row.apart == ""


def test_the_shops_unit_stands_beside_what_was_typed_and_the_limit_is_told_in_it():
    units = ShownIn({"temperature": "°F"})
    told = once("vent_temperature", VENT), once("vent_temperature", COOLS | {"intake": "35 °C"}, 2)
    found = twin(KINDS["vent_temperature"], [told[0]], [told[1]], BELT, units)
    assert found.rows[0].then == "24.8\u00a0°C (77\u00a0°F)"
    assert found.unlike[0].now == "35\u00a0°C (95\u00a0°F)"


def test_page_one_takes_the_front_vent_before_a_pressure_and_a_pressure_before_none():
    front, rear = (
        pair("vent_temperature", VENT, COOLS),
        pair("vent_temperature", VENT | {"branch": "rear"}, COOLS | {"branch": "rear"}),
    )
    pressures = pair("running_pressures", PRESSURES, PRESSURES | {"high": "1800 kPa"})
    told = before_and_after([pressures, rear, front])
    assert told is not None
    assert (told.words, told.then, told.now) == (
        "At the vent, front, center",
        "24.8\u00a0°C",
        "7.1\u00a0°C",
    )
    assert (told.steps, told.unit, round(told.now_si, 2)) == ((1, 2), "°C", 280.25)
    only = before_and_after([pressures])
    assert only is not None
    assert (only.words, only.apart) == ("High side", "500\u00a0kPa more")
    assert before_and_after([]) is None
    assert not_compared([]).startswith(
        "No vent temperature and no high side pressure while it ran was"
    )


def test_every_test_that_measures_has_its_rules_or_the_reason_why_it_has_no_twin():
    measuring = {
        name for name, kind in KINDS.items() if any(not one.condition for one in kind.numbers)
    }
    assert measuring == {*MEASURED} | {*NO_TWIN}
    assert {*MEASURED} == {*LIKE}
    assert not {*MEASURED} & {*NO_TWIN}
    assert {*SPREAD} | {*PARTED_BY} | {*OF_THE_WHOLE} <= {*MEASURED}


@pytest.mark.parametrize("name", sorted(MEASURED))
def test_every_condition_of_a_test_is_in_its_rules_or_known_not_to_bear(name):
    kind = KINDS[name]
    ruled = {like.name for like in LIKE[name]} | {like.instead for like in LIKE[name]}
    known = ruled | NO_BEARING.get(name, set()) | {PARTED_BY.get(name, "")}
    asked = {one.name for one in kind.numbers if one.condition}
    asked |= {one.name for one in kind.choices if one.condition}
    assert asked <= known
    for one in (*ruled - {""}, *MEASURED[name]):
        assert kind.asked(one) or one in AROUND
    for like in LIKE[name]:
        assert {*like.of} <= {*MEASURED[name]}
        asked_for = kind.asked(like.name)
        if like.within is not None and asked_for:
            assert isinstance(asked_for, Number)
