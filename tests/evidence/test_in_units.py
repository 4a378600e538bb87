"""What any kind asks and says is told in the shop's units; what was typed keeps its own."""

import json
import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.in_units import told_in, typed_words
from diagnostics.evidence.kind import as_plain
from diagnostics.evidence.readings import Reading, parse
from diagnostics.physics.shown_units import ShownIn
from tests.evidence.anything import arounds, readings_of

ALL = pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
ANYTHING = settings(max_examples=10, deadline=None, suppress_health_check=[HealthCheck.too_slow])
UNITS = ShownIn(
    {
        "pressure": "psi",
        "vacuum": "mbar",
        "temperature": "°F",
        "mass": "oz",
        "oil": "fl oz",
        "gap": "in",
    }
)
USUAL = re.compile(r"\d[ \u00a0](kPa|micron|°C|K|kg|g|mL|mm)(?![\w/·²³])")


def sentences(told: object) -> str:
    """All texts of frozen descriptions, one a line."""
    plain = json.loads(json.dumps(as_plain(told), default=str))
    found: list[str] = []

    def walk(one: object) -> None:
        if isinstance(one, str):
            found.append(one)
        elif isinstance(one, dict):
            for part in one.values():
                walk(part)
        elif isinstance(one, list):
            for part in one:
                walk(part)

    walk(plain)
    return "\n".join(found)


@ALL
def test_what_a_kind_asks_and_warns_of_has_no_figure_in_another_unit(kind):
    assert USUAL.findall(sentences(told_in(kind, UNITS))) == []


@ALL
@ANYTHING
@given(data=st.data())
def test_what_any_readings_mean_has_no_figure_in_another_unit_but_as_typed(kind, data):
    around = data.draw(arounds())
    readings = data.draw(readings_of(kind, around))
    meaning = kind.meaning(readings, Circumstances(around.system, around.failing, units=UNITS))
    live = {value.shown for value in meaning.values if value.live}
    said = "\n".join(
        text
        for text in sentences(
            (
                meaning.outcome,
                meaning.lead,
                meaning.strip,
                meaning.band,
                meaning.notes,
                meaning.onward,
                meaning.plot,
                tuple(one.shown for one in meaning.values if not one.live),
            )
        ).splitlines()
        if text not in live
    )
    for typed in sorted(typed_words(readings), key=len, reverse=True):
        said = said.replace(typed, "")
    assert USUAL.findall(said) == []


@ALL
@ANYTHING
@given(data=st.data())
def test_the_units_change_no_outcome(kind, data):
    around = data.draw(arounds())
    readings = data.draw(readings_of(kind, around))
    here = kind.meaning(readings, around)
    there = kind.meaning(
        readings, Circumstances(around.system, around.failing, around.air, "x", UNITS)
    )
    assert there.outcome.code == here.outcome.code
    assert [one.si for one in there.values] == [one.si for one in here.values]


def static(units: ShownIn, low: str = "470 kPa", temperature: str = "22 °C"):
    kind = KINDS["static_pressure"]
    fields = {one.name: one for one in kind.numbers}
    readings: dict[str, Reading | str] = {
        "low": parse(low, fields["low"].units, "kPa"),
        "temperature": parse(temperature, fields["temperature"].units, "°C"),
        "soaked": "yes",
    }
    return kind.meaning(readings, Circumstances({"refrigerant": "R-134a"}, units=units))


def test_a_typed_value_keeps_its_typed_unit_in_every_sentence():
    meaning = static(UNITS)
    assert meaning.lead == "470\u00a0kPa low, at 22\u00a0°C."
    assert "±4\u00a0°F" in meaning.band


def test_a_plot_has_its_axes_its_curve_and_its_points_in_the_shops_units():
    here, there = static(ShownIn()).plot, static(UNITS).plot
    assert (there.x.unit, there.y.unit) == ("°F", "psi")
    assert there.spots[0].x == pytest.approx(here.spots[0].x * 1.8 + 32)
    assert there.spots[0].error_x == pytest.approx(here.spots[0].error_x * 1.8)
    assert there.spots[0].y == pytest.approx(here.spots[0].y / 6.894757, rel=1e-6)
    assert there.y.low <= there.spots[0].y <= there.y.high


def test_a_number_beside_the_field_stands_in_the_other_unit():
    shown = {(one.words, one.shown.split("\u00a0")[-1]) for one in static(UNITS).values if one.live}
    assert ("Low side", "kPa") in shown
    assert ("Liquid would be at", "°F") in shown


def test_a_strip_has_its_band_and_point_in_the_shops_unit():
    kind = KINDS["air_gap"]
    readings = {f"gap_{i}": parse("0.5 mm", ("mm", "in"), "mm") for i in (1, 2, 3)}
    strip = kind.meaning(readings, Circumstances(units=UNITS)).strip
    assert strip
    assert strip.unit == "in"
    assert strip.expected_words == "expected 0.012–0.031"
    assert strip.point == pytest.approx(0.5 / 25.4)


def test_a_hint_has_its_range_in_the_unit_the_field_begins_with():
    low = next(one for one in KINDS["static_pressure"].numbers if one.name == "temperature")
    assert low.range_words({}, UNITS) == "−4\u00a0to\u00a0140\u00a0°F"
    assert low.range_words({}) == "−20\u00a0to\u00a060\u00a0°C"
