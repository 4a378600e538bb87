"""`manage.py kinds`: every kind of test with its fields, units and outcomes."""

import json

import pytest
from django.core.management import call_command

from diagnostics.evidence.catalogue import KINDS


@pytest.fixture
def printed(capsys):
    call_command("kinds")
    text = capsys.readouterr().out
    return {part.split(":")[0].strip(): part for part in text.split("\n\n") if part.strip()}


def test_every_kind_is_printed_once(printed):
    assert list(printed) == list(KINDS)


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_is_printed_with_fields_units_and_outcomes(printed, name):
    kind, text = KINDS[name], printed[name]
    for asked in kind.fields:
        assert f"    {asked.name}: {asked.question}" in text
    for number in kind.numbers:
        line = next(line for line in text.splitlines() if line.startswith(f"    {number.name}: "))
        assert f"unit {number.unit}" in line
        assert all(other in line for other in number.others)
    for outcome in kind.outcomes:
        assert f"    {outcome.code}: {outcome.words}" in text


def test_a_limit_of_zero_is_printed(printed):
    limits = [number.span for kind in KINDS.values() for number in kind.numbers]
    assert any(span.low == 0 for span in limits)
    assert "low 0" in "".join(printed.values())


def test_an_answer_for_some_drives_only_is_printed_with_them(printed):
    (line,) = [line for line in printed["noise"].splitlines() if "    where: " in line]
    assert "pulley: Pulley, on (drive [belt_clutch; belt_clutchless; belt_electric])" in line


def test_for_machines_all_kinds_are_one_list_of_what_they_are(capsys):
    call_command("kinds", "--json")
    found = json.loads(capsys.readouterr().out)
    assert found == json.loads(json.dumps([kind.as_json() for kind in KINDS.values()]))
