"""A step's texts for the paper, from its kind and readings alone."""

import pytest

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.kinds.coil_power import COIL_POWER
from diagnostics.evidence.kinds.static_pressure import STATIC_PRESSURE
from diagnostics.evidence.readings import Reading
from diagnostics.evidence.system import System
from diagnostics.physics.units import to_si
from diagnostics.record.readings import Shown, number_text, shown_meaning, shown_readings
from jobs.paper import frozen

CAR: System = {"drive": "belt_clutch", "voltage": "12", "coil_ohm": 3.6, "coil_ohm_source": "data"}
READINGS: dict[str, Reading | str] = {
    "engine": "off",
    "ground": "good",
    "volts": Reading(12.38, "12,38", "V"),
    "amps": Reading(3.05, "3050", "mA"),
    "temperature": Reading(to_si(118, "°F"), "118", "°F"),
    "magnet": "yes",
    "holds": "no",
    "pushed": "yes",
}


def shown() -> Shown:
    return shown_meaning(COIL_POWER.meaning(READINGS, Circumstances(CAR)))


def read() -> list[frozen.Reading]:
    return shown_readings(COIL_POWER, READINGS)


def test_every_reading_is_there_in_the_order_of_the_form():
    names = [one["name"] for one in read()]
    assert names == [one.question for one in COIL_POWER.fields if one.name in READINGS]


def test_a_number_stands_as_text_as_typed_and_in_si():
    volts = next(one for one in read() if one["si_unit"] == "V")
    assert (volts["text"], volts["typed"], volts["unit"]) == ("12.38\u00a0V", "12,38", "V")
    assert volts["si"] == 12.38


def test_a_tapped_answer_stands_in_words_with_its_code():
    pushed = read()[-1]
    assert (pushed["text"], pushed["typed"], pushed["si"]) == ("Yes", "yes", None)
    assert (pushed["field"], pushed["code"]) == ("pushed", "yes")


def test_circumstances_are_told_from_findings():
    held = {one["name"]: one["condition"] for one in read()}
    assert held["Engine"]
    assert not held["Current"]


@pytest.mark.parametrize(
    ("typed", "unit", "asked", "text"),
    [
        ("12,38", "V", "V", "12.38 V"),
        ("3050", "mA", "A", "3.050 A (3 050 mA)"),
        ("118", "°F", "°C", "47.8 °C (118 °F)"),
        ("48", "°C", "°C", "48 °C (118 °F)"),
        ("-12.5", "°C", "°C", "−12.5 °C (9.5 °F)"),
    ],
)
def test_the_asked_unit_stands_first_and_the_other_beside_it(typed, unit, asked, text):
    # 47.8 °C = 118 °F, 118.4 °F = 48 °C, 9.5 °F = -12.5 °C: by the definition of the scales.
    told = Reading(to_si(float(typed.replace(",", ".")), unit), typed, unit)
    assert number_text(told, asked).replace("\u00a0", " ") == text


def test_standings_are_said_in_the_customer_s_words():
    words = {one["standing"]: one["words"] for one in shown().bearings}
    assert words == {"ruled_out": "ruled out by test", "open": "not settled"}


def test_ruled_out_is_not_said_twice():
    texts = [one["text"] for one in shown().bearings if one["standing"] == "ruled_out"]
    assert texts
    assert not [text for text in texts if text.startswith("ruled out")]


def test_what_was_bypassed_is_named_as_not_tested():
    assert shown().not_tested[0].startswith("Relay, fuse, switches and wiring were bypassed")


def test_what_it_was_held_against_has_its_unit_and_its_source():
    (expected,) = shown().limits
    assert expected["text"].startswith("expected ")
    assert expected["text"].endswith("\u00a0A")
    assert expected["unit"] == "A"
    assert 2.5 < expected["low"] < 12.38 / 3.6 < expected["high"] < 4  # 3.44 A at 20 °C: Ohm
    assert "(data)" in shown().source


def test_no_text_of_a_step_says_a_chance_or_condemns():
    told = shown()
    texts = [*told.not_tested, *told.notes, told.source, *(one["text"] for one in told.bearings)]
    assert not [text for text in texts if "defective" in text or "leak-free" in text]


def test_what_was_worked_out_has_its_number_and_a_band_is_none():
    (at_work, cold) = shown().worked_out
    assert (at_work["text"], at_work["si_unit"]) == ("4.06\u00a0Ω", "Ω")
    assert at_work["si"] == pytest.approx(12.38 / 3.05)  # Ohm's law
    assert (cold["name"], cold["field"]) == ("Coil at 20\u00a0°C", "temperature")


def test_a_reading_in_another_unit_is_nothing_that_was_worked_out():
    at_rest = {
        "low": Reading(to_si(470, "kPa"), "470", "kPa"),
        "temperature": Reading(to_si(20, "°C"), "20", "°C"),
    }
    meaning = STATIC_PRESSURE.meaning(at_rest, Circumstances(CAR | {"refrigerant": "R-134a"}))
    assert {"Low side", "Loop"} <= {one.words for one in meaning.values}  # while it is typed
    told = [one["name"] for one in shown_meaning(meaning).worked_out]
    assert told
    assert not {"Low side", "Loop"} & set(told)


def test_where_no_meaning_is_known_nothing_is_said():
    assert shown_meaning(None) == Shown(None, [], None, [], [], [], "", [])
