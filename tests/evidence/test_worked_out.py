"""Numbers worked out while readings are typed: right, with no digit more than the readings had."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.readings import parse
from diagnostics.evidence.worked_out import FUNCTIONS, WorkedOut, worked_out
from diagnostics.physics.units import MINUS, UNITS

R134A = Circumstances({"refrigerant": "R-134a"})
BOILS = WorkedOut("high", "Boils at", "boils_at", ("high",), "°C")
OHM = WorkedOut("amps", "Coil", "ohm", ("volts", "amps"), "Ω")


def read(**typed: str):
    units = {"high": "kPa", "low": "kPa", "volts": "V", "amps": "A", "temp": "°C", "gap": "mm"}
    return {
        name: parse(text, (units[name.rstrip("123")],), units[name.rstrip("123")])
        for name, text in typed.items()
    }


def shown(one: WorkedOut, around=R134A, /, **typed: str) -> list[str]:
    return [value.shown for value in worked_out((one,), read(**typed), around)]


def test_a_gauge_pressure_is_brought_to_absolute_before_the_table_is_asked():
    # R-134a rests at 470 kPa (gauge, at sea level) at 20 °C: trade facts, computed
    assert shown(BOILS, high="470") == ["20.0\u00a0°C"]


def test_a_coarse_reading_gives_a_coarse_number():
    assert shown(OHM, volts="12.38", amps="3.05") == ["4.1\u00a0Ω"]
    assert shown(OHM, volts="12", amps="3") == ["4\u00a0Ω"]


def test_what_is_not_read_yet_works_nothing_out():
    assert shown(OHM, volts="12.38") == []


def test_what_cannot_be_worked_out_is_left_out_and_raises_nothing():
    assert shown(OHM, volts="12.38", amps="0") == []
    assert shown(BOILS, Circumstances({"refrigerant": "other"}), high="470") == []
    assert shown(BOILS, high="9000") == []  # above the critical point


def test_a_superheat_that_cannot_be_is_left_out_beyond_what_the_instruments_may_be_off():
    # R-134a boils at 0 °C at 293 kPa absolute (property library), about 192 kPa on the gauge
    superheat = WorkedOut("temp", "Superheat", "superheat", ("low", "temp"), "ΔK")
    assert shown(superheat, low="192", temp="6.0") == ["6.0\u00a0K"]
    assert shown(superheat, low="192", temp="-2.0") == [f"{MINUS}2.0\u00a0K"]  # may be error
    assert shown(superheat, low="192", temp="-8.0") == []


def test_the_wobble_of_a_gap_takes_as_many_points_as_were_measured():
    wobble = WorkedOut("gap1", "Wobble", "wobble", ("gap1", "gap2", "gap3"), "mm", least=2)
    assert shown(wobble, gap1="0.45", gap2="0.60") == ["0.15\u00a0mm"]
    assert shown(wobble, gap1="0.45", gap2="0.60", gap3="0.70") == ["0.25\u00a0mm"]
    assert shown(wobble, gap1="0.45") == []


@pytest.mark.parametrize(
    ("how", "unit", "typed", "told"),
    [
        ("smallest", "mm", ("0.90", "0.90"), "0.90\u00a0mm"),
        ("largest", "mm", ("0.5", "0.55"), "0.55\u00a0mm"),  # the digits of the one it is
        ("smallest", "in", ("0.1", "0.1"), "0.004\u00a0in"),  # 0.1 mm is no gap of 0.00 in
        ("smallest", "mm", ("0", "0.1"), "0\u00a0mm"),
        # 1 in is 25.4 mm: no step shown in inches is larger than the one typed in millimeters
        ("largest", "in", ("0.9", "0.8"), "0.035\u00a0in"),
        ("largest", "in", ("0.92", "0.80"), "0.0362\u00a0in"),
        ("same", "in", ("0.9", "0.8"), "0.035\u00a0in"),
        ("same", "mm", ("0.9", "0.8"), "0.9\u00a0mm"),
    ],
)
def test_what_is_one_of_the_readings_is_as_fine_as_it_was_typed(how, unit, typed, told):
    one = WorkedOut("gap1", "x", how, ("gap1", "gap2"), unit)
    assert shown(one, gap1=typed[0], gap2=typed[1]) == [told]


def test_a_ratio_has_no_unit():
    ratio = WorkedOut("high", "Ratio", "ratio", ("high", "low"), "1")
    assert shown(ratio, high="1200", low="200") == ["4.3"]


def test_a_band_shows_both_its_ends():
    rests = WorkedOut("temp", "Rests at", "rests_at", ("temp",), "kPa")
    [band] = shown(rests, temp="20.0")
    low, high = band.removesuffix("\u00a0kPa").split("–")
    assert int(low) < 470 < int(high)


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_what_a_kind_works_out_names_functions_fields_and_units_that_exist(kind):
    for one in kind.works_out:
        assert one.how in FUNCTIONS
        assert one.unit in UNITS
        assert kind.asked(one.about)
        assert all(kind.asked(name) for name in one.takes)


@given(st.decimals(-1000, 20_000, places=1))
def test_whatever_is_typed_nothing_is_raised(number):
    rests = WorkedOut("temp", "Rests at", "rests_at", ("temp",), "kPa")
    shown(BOILS, high=str(number))
    shown(rests, temp=str(number))
    shown(OHM, volts=str(number), amps=str(number))
