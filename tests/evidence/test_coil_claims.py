"""What has to be shown before power at the coil points at the coil, and what is said instead.

The working voltages (11 V, 22 V) and the 16 V above which no 12 V system is taken for granted are
our judgement; the bulb that tries a ground without current is common practice, no source.
"""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Choice
from diagnostics.evidence.findings import Meaning
from diagnostics.evidence.system import System
from tests.evidence.cases import (
    GENERAL,
    GOOD,
    HOLDS,
    KIND,
    SPECIFIED,
    all_words,
    code,
    meaning,
    readings,
    standing,
)

OPEN = "Coil, its melt fuse or its lead open"
BRING_FULL = "Bring full battery voltage and read again."
KNOWN_GROUND = "The ground was found bad: put a known ground to the coil, then repeat."
DEAD = GOOD | {"volts": "12.4", "amps": "0.00", "magnet": "no", "holds": "no"}
BLEW = DEAD | {"amps": "", "fuse": "yes"}
UNTOLD: System = {"drive": "belt_clutch"}
HEAVY: System = {"drive": "belt_clutch", "voltage": "24"}
UNSURE: System = {"drive": "belt_clutch", "voltage": "12", "coil_ohm": 30.0}


def points_at_coil(result: Meaning) -> list[str]:
    """What of the coil is said to be likely or shown."""
    marks = result.outcome.marks
    named = [mark.subject for mark in marks if mark.standing in ("likely", "proved")]
    return [subject for subject in named if subject != "Clutch takes hold"]


# Voltage.


@pytest.mark.parametrize("volts", ["1.2", "8", "10.99", "-8", "8000 mV"])
@pytest.mark.parametrize("system", [SPECIFIED, GENERAL, {}])
def test_without_a_working_voltage_no_current_points_at_nothing(volts, system):
    result = meaning(system, **(DEAD | {"volts": volts}))
    assert result.outcome.code == "no_current_unsure"
    assert points_at_coil(result) == []
    assert standing(result, "Coil open, or power too weak") == "open"
    assert result.onward[0] == BRING_FULL
    assert not any("resistance" in text for text in all_words(result))


def test_a_current_that_can_hide_in_the_reading_is_not_said_not_to_flow():
    assert meaning(**(DEAD | {"volts": "1.2", "amps": "0"})).lead == (
        "1.2\u00a0V at the coil’s pins, no current read (0\u00a0A)."
    )
    # 30 ohm ±10 % at 120 °C draws 0.24 A from 11 V, and "0 A" can be half an ampere
    rough = meaning(UNSURE, **(DEAD | {"volts": "11", "amps": "0", "temperature": ""}))
    assert points_at_coil(rough) == []
    assert rough.onward[0] == "Read the current again, with more digits."
    fine = meaning(UNSURE, **(DEAD | {"volts": "11", "amps": "0.00", "temperature": ""}))
    assert points_at_coil(fine) == [OPEN]


@pytest.mark.parametrize(
    ("system", "volts", "outcome"),
    [
        (GENERAL, "11.0", "no_current"),
        (GENERAL, "10.9", "no_current_unsure"),
        (HEAVY, "22.0", "no_current"),
        (HEAVY, "21.9", "no_current_unsure"),
    ],
)
def test_the_working_voltage_goes_by_the_system_voltage(system, volts, outcome):
    assert code(system, **(DEAD | {"volts": volts})) == outcome


@pytest.mark.parametrize("amps", ["0.9", "4.6"])
def test_at_a_low_voltage_neither_little_nor_much_current_points_at_the_coil(amps):
    result = meaning(**(GOOD | {"volts": "8", "amps": amps, "holds": "no"}))
    assert points_at_coil(result) == []
    assert result.onward[0] == BRING_FULL
    assert not any("resistance" in text for text in all_words(result))


@pytest.mark.parametrize(
    "changed",
    [{"holds": "drops_out"}, {"holds": ""}, {"holds": "no"}, {"holds": "", "amps": ""}],
)
def test_whatever_the_clutch_does_at_a_low_voltage_full_voltage_comes_first(changed):
    result = meaning(**(GOOD | {"volts": "8", "amps": "1.97", "magnet": ""} | changed))
    assert result.onward[0] == BRING_FULL


@pytest.mark.parametrize(
    ("changed", "found"),
    [({"volts": "8"}, "Little voltage stood there."), ({"ground": "bad"}, "ground was found bad.")],
)
@pytest.mark.parametrize("amps", ["1.1", "4.6"])
def test_what_keeps_the_coil_from_being_named_stands_with_its_mark(amps, changed, found):
    result = meaning(**(GOOD | {"holds": "no", "amps": amps} | changed))
    assert any(mark.sentence.endswith(found) for mark in result.outcome.marks)


# Ground.


def test_the_ground_is_asked_for_in_three_answers_with_a_way_that_needs_no_current():
    asked = KIND.asked("ground")
    assert isinstance(asked, Choice)
    words = [(answer.code, answer.words) for answer in asked.answers]
    assert words == [("good", "Good"), ("bad", "Bad"), ("not_checked", "Not checked")]
    assert "without current: a 21 W bulb from battery plus to that very ground" in asked.hint


def test_a_bad_ground_beside_no_current_points_at_nothing_and_asks_for_a_known_ground():
    result = meaning(**(DEAD | {"ground": "bad"}))
    assert result.outcome.code == "no_current_unsure"
    assert points_at_coil(result) == []
    assert standing(result, "Coil open, or its bad ground") == "open"
    assert result.onward[0] == KNOWN_GROUND
    assert not any("not checked" in text for text in all_words(result))


@pytest.mark.parametrize("changed", [{"amps": "1.1"}, {"amps": "4.6"}, {"holds": "drops_out"}])
def test_a_bad_ground_beside_a_current_points_at_nothing_either(changed):
    result = meaning(**(GOOD | {"holds": "no", "ground": "bad"} | changed))
    assert points_at_coil(result) == []
    assert result.onward[0] == KNOWN_GROUND


def test_a_bad_ground_is_told_where_the_clutch_took_hold_or_nothing_was_told():
    assert not any("found bad" in note for note in meaning(**HOLDS).notes)
    assert any("put it right too" in note for note in meaning(**(HOLDS | {"ground": "bad"})).notes)
    assert KNOWN_GROUND in meaning(ground="bad", magnet="no").onward
    assert KNOWN_GROUND in meaning(ground="bad", magnet="no", volts="0").notes


def test_a_ground_answered_in_the_words_of_an_older_page_does_not_count_as_good():
    result = meaning(**(DEAD | {"ground": "yes"}))
    assert points_at_coil(result) == []
    assert any("The ground was not checked" in text for text in all_words(result))


# System voltage.


@pytest.mark.parametrize("changed", [{}, {"amps": "0.00"}, {"holds": "no"}, {"amps": ""}])
@pytest.mark.parametrize("volts", ["24.5", "16.1", "-24.5"])
def test_above_16_volts_with_the_system_voltage_not_noted_nothing_is_judged(volts, changed):
    result = meaning(UNTOLD, **(HOLDS | {"volts": volts} | changed))
    assert (result.outcome.code, result.outcome.carries) == ("nothing_told", False)
    assert (result.outcome.marks, result.strip, result.band) == ((), None, "")
    assert result.outcome.sentence == (
        "Above 16 V, and the system voltage is not noted: nothing is judged."
    )
    assert result.onward == ("Note the system voltage, 12 V or 24 V, with the car.",)
    assert not any("12\u00a0V coils" in text for text in all_words(result))


def test_up_to_16_volts_a_system_voltage_not_noted_is_taken_as_12():
    assert code(UNTOLD, **(HOLDS | {"volts": "16"})) == "takes_hold"
    assert any("up to 16 V" in words for words in KIND.remarks_for(UNTOLD))


def test_with_the_system_voltage_noted_the_same_reading_is_judged():
    typed = HOLDS | {"volts": "24.5", "amps": "1.9"}
    assert code(UNTOLD | {"voltage": "24"}, **typed) == "takes_hold"


def test_a_voltage_no_12_volt_car_shows_names_the_system_voltage_where_it_is_not_noted():
    (found,) = KIND.problems({"volts": readings(volts="24.5")["volts"]}, Circumstances(UNTOLD))[
        "volts"
    ]
    assert "the system voltage is not noted" in found.sentence


# Values that cannot be.


@pytest.mark.parametrize(
    ("name", "typed", "shown"),
    [
        ("amps", "3050", "Current: 3\u00a0050\u00a0A, kept as typed, not used."),
        ("volts", "123.8", "Voltage at the coil’s pins: 123.8\u00a0V, kept as typed, not used."),
        (
            "temperature",
            "-300",
            "Coil temperature, if read: −300\u00a0°C, kept as typed, not used.",
        ),
    ],
)
@pytest.mark.parametrize("holds", ["yes", "no", ""])
def test_a_value_that_cannot_be_is_never_said_not_to_have_been_read(name, typed, shown, holds):
    for others in ({}, {"volts": ""}, {"amps": ""}, {"amps": "0.00"}):
        result = meaning(**(GOOD | {"holds": holds} | others | {name: typed}))
        words = all_words(result)
        assert shown in words
        unread = {"amps": "urrent was", "volts": "oltage", "temperature": "temperature"}[name]
        for text in words:
            assert f"{unread} not read" not in text
            assert f"{unread} was not read" not in text
            assert f"{unread} is not read" not in text
        if name == "amps":
            said = " ".join(words)
            assert "no current was read" not in said
            assert "Neither" not in said
            assert "Current: kept as typed, not used." in result.outcome.not_tested
            assert "the current, 3\u00a0050\u00a0A, is kept as typed, not used" in result.lead


def test_a_value_nobody_typed_is_still_said_not_to_have_been_read():
    result = meaning(**(GOOD | {"amps": "", "temperature": ""}))
    assert "the current was not read" in result.lead
    assert "Current: no reading to go by." in result.outcome.not_tested


# The jumper's fuse.


def test_a_blown_fuse_beside_a_voltage_is_said_not_to_fit():
    result = meaning(**BLEW)
    assert result.outcome.sentence == "The jumper’s fuse blew."
    assert (
        "The jumper’s fuse blew, yet there stood 12.4\u00a0V at the coil. Both cannot be true at"
        " one moment: read the voltage again with a new fuse."
    ) in result.notes


def test_a_blown_fuse_without_a_voltage_fits():
    for volts in ("", "0.02"):
        notes = meaning(**(BLEW | {"volts": volts})).notes
        assert not any("Both cannot be true" in note for note in notes)


@pytest.mark.parametrize("system", [SPECIFIED, GENERAL])
def test_a_current_that_is_too_much_and_a_blown_fuse_are_both_told(system):
    result = meaning(system, **(BLEW | {"amps": "8"}))
    assert result.outcome.code == "high_current"
    assert result.outcome.sentence == "The jumper’s fuse blew."
    assert "8\u00a0A, more than" in result.lead
    assert any("read the voltage again with a new fuse" in note for note in result.notes)


def test_a_current_as_expected_and_a_blown_fuse_do_not_fit_and_the_finding_names_the_fuse():
    result = meaning(**(BLEW | {"amps": "3.05"}))
    assert result.outcome.sentence.startswith("The jumper’s fuse blew. ")
    assert any("read the voltage and the current again" in note for note in result.notes)


def test_no_current_behind_a_blown_fuse_does_not_point_at_an_open_coil():
    assert points_at_coil(meaning(**(BLEW | {"amps": "0.00"}))) == []


# All of it.

TYPED = st.fixed_dictionaries(
    {},
    optional={
        **{c.name: st.sampled_from([*(a.code for a in c.answers), "yes"]) for c in KIND.choices},
        "volts": st.one_of(
            st.decimals(-65, 65, places=2).map(str), st.decimals(10, 13, places=1).map(str)
        ),
        "amps": st.one_of(
            st.decimals("-0.6", "0.6", places=2).map(str),
            st.sampled_from(["0", "0.0", "0.00", "0 mA", "3.05", "8", "3050"]),
        ),
        "temperature": st.sampled_from(["-300", "-20", "20", "100"]),
    },
)
LEAST = {"12": 11.0, "24": 22.0, "": 11.0}
# Hand sums: the least such a coil draws at its working voltage, in ampere.
# 11 V / (6 ohm x 1.393 at 120 °C) = 1.31; 22 V has no figure and only its clamp's 0.05 A.
FLOOR = {"12": 1.31, "24": 0.05, "": 1.31}


@given(TYPED, st.sampled_from([GENERAL, HEAVY, UNTOLD]))
@example(DEAD, GENERAL)
@example(DEAD | {"volts": "24.5"}, HEAVY)
def test_the_coil_is_pointed_at_as_open_only_with_voltage_ground_and_no_current(typed, system):
    result = meaning(system, **typed)
    named = OPEN in points_at_coil(result)
    assert named == (result.outcome.code == "no_current")
    voltage = system.get("voltage", "")
    volts, amps = (float(typed.get(name, "nan").split()[0]) for name in ("volts", "amps"))
    if named:
        assert LEAST[voltage] <= abs(volts) <= 60
        assert voltage or abs(volts) <= 16
        assert typed["ground"] == "good"
        assert abs(amps) < FLOOR[voltage]
        assert typed.get("holds") not in ("no", "cannot_tell") or typed.get("fuse") != "yes"


def test_with_voltage_and_ground_shown_no_current_does_point_at_the_coil():
    for system, volts in ((GENERAL, "12.4"), (SPECIFIED, "11"), (HEAVY, "24.5"), (UNTOLD, "12.4")):
        assert points_at_coil(meaning(system, **(DEAD | {"volts": volts}))) == [OPEN]
