"""The demo's qualifications and instruments: one card ran out, one check is due."""

from collections.abc import Iterator, Mapping
from datetime import date, timedelta

from django.utils import timezone

# (name in this list, whose, fields, days ago it began, days ago it ended); (name in this list,
# fields, days ago it was checked, days ago it was due again). Below zero: days ahead.
CARDS: tuple[tuple[str, str, dict[str, str], int, int | None], ...] = (
    ("sand gas", "R. Sand", {"kind": "refrigerant", "number": "HL 4471"}, 500, -590),
    ("sand volts", "R. Sand", {"kind": "high_voltage", "number": "2S-118"}, 700, None),
    ("quist gas", "E. Quist", {"kind": "refrigerant", "number": "HL 3902"}, 1360, 270),
)
THINGS: tuple[tuple[str, dict[str, str], int, int], ...] = (
    (
        "gauges",
        {
            "kind": "gauge_set",
            "maker": "Orrisdale",
            "model": "Twin 80",
            "serial": "80-22417",
            "made": "2022",
            "standard": "EN 837-1 class 1.6",
            "accuracy_pressure": "16 kPa",
        },
        389,
        24,
    ),
    (
        "meter",
        {
            "kind": "multimeter",
            "maker": "Fenwold",
            "model": "M 31",
            "serial": "M31-0093",
            "accuracy_voltage": "0.5 % + 20 mV",
            "accuracy_current": "1.5 % + 30 mA",
            "accuracy_resistance": "0.8 % + 0.1 Ω",
        },
        120,
        -245,
    ),
    (
        "probe",
        {"kind": "thermometer", "maker": "Fenwold", "model": "T 2", "accuracy_temperature": "1 °C"},
        120,
        -245,
    ),
    (
        "scale",
        {"kind": "scale", "maker": "Orrisdale", "model": "W 50", "accuracy_mass": "5 g"},
        60,
        -305,
    ),
    (
        "recovery",
        {
            "kind": "recovery_machine",
            "recovery_class": "newer",
            "maker": "Hallam Vale",
            "model": "R 3",
            "serial": "R3-5512",
        },
        60,
        -305,
    ),
)


def cards_and_instruments(people: Mapping[str, str]) -> Iterator[tuple[str, str, dict[str, str]]]:
    """Name, entry kind and fields of each; `people` are keys by name."""
    today = timezone.localdate()
    for name, whose, told, began, ended in CARDS:
        fields = {
            **told,
            "person": people[whose],
            "issuer": "Hollow Lane Trade School",
            "valid_from": before(today, began),
        }
        if ended is None:
            fields["open_end"] = "no_end"
        else:
            fields["valid_to"] = before(today, ended)
        yield name, "qualification", fields
    for name, told, checked, due in THINGS:
        days = {"checked_on": before(today, checked), "until": before(today, due)}
        yield name, "equipment", {**told, **days}


def before(today: date, days: int) -> str:
    """A day so many days before today."""
    return (today - timedelta(days=days)).isoformat()
