"""`manage.py compute`: a list, an answer, an answer a line; errors as JSON, never a traceback."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.management import call_command

from diagnostics.physics.computations.catalogue import COMPUTATIONS

PROGRAM = Path(__file__).resolve().parents[2]
WARM = ("temperature=25°C", "relative_humidity=60%")


class Piped:
    """Standard input that comes from a pipe."""

    def __init__(self, text: bytes) -> None:
        self.buffer = io.BytesIO(text)

    def isatty(self) -> bool:
        return False


def called(capsys, *words):
    """The exit code and the objects printed."""
    code: object = 0
    try:
        call_command("compute", *words)
    except SystemExit as end:
        code = end.code
    return code, [json.loads(line) for line in capsys.readouterr().out.splitlines()]


def lines(monkeypatch, capsys, *told, words=("-",)):
    text = "\n".join(one if isinstance(one, str) else json.dumps(one) for one in told)
    monkeypatch.setattr(sys, "stdin", Piped(text.encode("utf-8", "surrogateescape")))
    return called(capsys, *words)


def test_an_answer_has_value_unit_uncertainty_meaning_and_source(capsys):
    code, (found,) = called(capsys, "dew_point", *WARM)
    assert code == 0
    assert found["shown"]["value"] == pytest.approx(16.7, abs=0.05)
    assert {"value", "unit", "uncertainty", "meaning", "basis", "source"} <= set(found)


@pytest.mark.parametrize(
    ("words", "error", "sentence"),
    [
        (("dewpoint", *WARM), "unasked", "dew_point"),
        (("dew_point",), "unasked", "needs temperature"),
        (("dew_point", *WARM, "wind=3"), "unasked", "wind"),
        (("dew_point", *WARM, "25°C"), "unasked", "key=value"),
        (("dew_point", *WARM, "temperature=26°C"), "unasked", "twice"),
        (("dew_point", "temperature=warm", "relative_humidity=60%"), "malformed", "no number"),
        (("dew_point", "temperature=25°C"), "malformed", "give one of"),
        (("dew_point", "temperature=nan", "relative_humidity=60%"), "malformed", "no number"),
        (("dew_point", "temperature=25°C", "relative_humidity=130%"), "impossible", "fog"),
        (("dew_point", "temperature=-280°C", "relative_humidity=3%"), "impossible", "zero"),
        (("relative_humidity", "temperature=20°C", "wet_bulb=21°C"), "impossible", "wet bulb"),
        (("gauge_to_absolute", "pressure=-31inHg"), "impossible", "perfect vacuum"),
        (("dew_point", "temperature=900°C", "relative_humidity=3%"), "out_of_range", "200"),
        (("--list", "dewpoint"), "unasked", "dew_point"),
    ],
)
def test_what_fails_gives_one_object_with_its_sentence_and_ends_with_2(
    capsys, words, error, sentence
):
    code, (found,) = called(capsys, *words)
    assert code == 2
    assert found["error"] == error
    assert sentence in found["sentence"]


def test_lines_are_answered_one_by_one_and_a_bad_one_stops_nothing(monkeypatch, capsys):
    told = {"name": "dew_point", "temperature": "25 °C", "relative_humidity": 0.6}
    code, found = lines(
        monkeypatch, capsys,
        told, "no json", "", [1], {"name": 5}, {"name": "dewpoint"},
        told | {"relative_humidity": 1.3}, '{"name": "dew_point", "temperature": NaN}',
        '{"name": "convert", "value": "\\ud800", "to": "K"}', "\udcff", "[" * 100_000, told,
    )  # fmt: skip
    assert code == 0
    assert [one.get("error") for one in found] == [
        None, "malformed", "malformed", "malformed", "unasked", "impossible", "malformed",
        "malformed", "malformed", "malformed", None,
    ]  # fmt: skip
    assert found[0] == found[-1]


def test_inputs_may_stand_in_an_object_of_their_own(monkeypatch, capsys):
    flat = {"name": "dew_point", "temperature": 298.15, "relative_humidity": 0.6}
    nested = {"name": "dew_point", "inputs": {"temperature": 298.15, "relative_humidity": 0.6}}
    _code, (one, other) = lines(monkeypatch, capsys, flat, nested)
    assert one == other


def test_lines_are_taken_from_a_pipe_without_a_dash(monkeypatch, capsys):
    told = {"name": "standard_pressure", "altitude": 0}
    code, (found,) = lines(monkeypatch, capsys, told, words=())
    assert code == 0
    assert found["value"] == pytest.approx(101_325)


def test_a_call_with_a_name_leaves_a_pipe_alone(monkeypatch, capsys):
    _code, (found,) = lines(monkeypatch, capsys, "no json", words=("dew_point", *WARM))
    assert found["name"] == "dew_point"


def test_the_list_prints_every_computation_with_inputs_units_range_and_source(capsys):
    call_command("compute", "--list")
    text = capsys.readouterr().out
    for one in COMPUTATIONS.values():
        start = text.index(f"{one.name}: {one.words}\n")
        part = text[start:].split("\n\n")[0]
        assert all(f"    {asked.name}: {asked.words} (" in part for asked in one.inputs)
        assert part.endswith(f"source: {one.source}")


def test_the_list_of_one_name_is_of_it_alone(capsys):
    call_command("compute", "--list", "dew_point")
    text = capsys.readouterr().out
    assert text.startswith("dew_point: ")
    assert "(-100 to 200 °C)" in text
    assert "absolute" in text
    assert "wet_bulb: Wet bulb: " not in text


def test_the_list_for_machines_has_an_object_a_line(capsys):
    _code, found = called(capsys, "--list", "--json")
    assert [one["name"] for one in found] == list(COMPUTATIONS)
    assert all({"inputs", "unit", "si_unit", "source"} <= set(one) for one in found)


@pytest.mark.sqlite
@pytest.mark.parametrize(
    ("words", "code"),
    [(["dew_point", *WARM], 0), (["dew_point", "temperature=x"], 2), (["nothing"], 2), ([], 0)],
)
def test_as_a_program_it_ends_as_said_and_prints_no_traceback(tmp_path, words, code):
    ended = subprocess.run(
        [sys.executable, "manage.py", "compute", *words],
        cwd=PROGRAM,
        env=os.environ | {"SHOPAC_DATA": str(tmp_path), "PYTHONIOENCODING": "latin-1"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=False,
    )
    assert ended.returncode == code
    assert b"Traceback" not in ended.stdout + ended.stderr
    for line in ended.stdout.decode("latin-1").splitlines():
        json.loads(line)
