"""`evaluate`: a case in, its verdict, next steps and options out; and what is said of a bad one."""

import io
import json
from pathlib import Path

import jsonschema
import pytest
from django.core.management import CommandError, call_command

from diagnostics.evidence.bad_case import BadCase
from diagnostics.evidence.case import SYSTEM, case_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.changed import DONE, FITTED
from diagnostics.evidence.evaluate import evaluate
from diagnostics.evidence.options.lines import OPERATIONS, PARTS
from diagnostics.evidence.runs import runs
from diagnostics.evidence.tables import TABLES
from tests.evidence.test_golden import SCHEMA

CAR = {"drive": "belt_clutch", "displacement": "fixed", "voltage": "12", "branches": ["front"]}
WORDS = {"volts": {"value": "x", "unit": "V"}}
PUSHED = {"holds": "no", "pushed": "yes", "volts": {"value": "12.4", "unit": "V"}, "amps": 3.4}
CASE = {
    "car": CAR,
    "failing_now": "yes",
    "steps": [
        {"kind": "coil_power", "readings": PUSHED},
        {"kind": "air_gap", "outcome": "far_wide"},
        {"kind": "hub_turn", "outcome": "free"},
        {"kind": "relay", "not_done": "no_tool"},
    ],
}
PRICED = {
    "typed": {
        "rate": 12_000,
        "minutes": {"clutch_in_car": 90, "gap": 30},
        "parts": {"clutch": {"amount": 21_000, "source": "new"}, "shims": {"amount": 500}},
    },
    "terms": {"keep_months": 36, "shop_months": 12, "shop_pays": ["labor"]},
}


def found(case):
    return evaluate(case_of(case, KINDS), KINDS, TABLES)


def test_a_case_comes_back_with_standings_a_next_step_and_options():
    told = found(CASE)
    stands = {(one["variable"], one["code"]): one["standing"] for one in told["standings"]}
    assert stands["clutch", "not_ok"] == "proved"
    assert told["next"]["best"]["reason"]
    assert any("clutch" in one["cures"] for one in told["options"]["offers"])


def test_a_test_that_could_not_be_made_is_no_result_and_is_not_offered_again():
    told = found(CASE)
    offered = [told["next"]["best"], *told["next"]["others"]]
    assert "relay" not in [one["kind"] for one in offered]
    step = told["steps"][3]
    assert (step["kind"], step["outcome"], step["not_done"]) == ("relay", "", "no_tool")


def test_a_price_that_was_not_typed_is_named_and_makes_no_total():
    offers = {one["code"]: one for one in found({**CASE, "prices": PRICED})["options"]["offers"]}
    assert offers["gap_set"]["cost"] == 12_000 * 30 // 60 + 500
    assert offers["clutch_in_car"]["cost"] == 12_000 * 90 // 60 + 21_000
    unpriced = [one for one in offers.values() if one["not_typed"]]
    assert unpriced
    assert all(one["cost"] is None for one in unpriced)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"car": {"drive": "chain"}}, "car.drive"),
        ({"car": {"engine": "v8"}}, "engine"),
        ({"car": CAR, "steps": [{"kind": "tarot"}]}, "steps[0].kind"),
        ({"car": CAR, "steps": [{"kind": "coil_power", "readings": {"volt": 1}}]}, "volts"),
        ({"car": CAR, "steps": [{"kind": "coil_power", "outcome": "fine"}]}, "takes_hold"),
        ({"car": CAR, "steps": [{"kind": "hub_turn", "outcome": "free", "state": 1}]}, "state"),
        (
            {"car": CAR, "steps": [{"kind": "coil_power", "readings": WORDS}]},
            "no number",
        ),
        ({"car": CAR, "failing_now": "maybe"}, "failing_now"),
        ({"car": CAR, "car_states": [{"changes": [{"what": "painted"}]}]}, "painted"),
        ({"car": CAR, "prices": {"typed": {"rate": -1}}}, "rate"),
        ({"car": CAR, "prices": {"typed": {"parts": {"clutch": {"amount": 1.5}}}}}, "amount"),
        ([], "no object"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_named_with_its_place(wrong, said):
    with pytest.raises(BadCase) as odd:
        case_of(wrong, KINDS)
    assert said in str(odd.value)


def test_the_schema_lists_what_the_program_knows():
    properties = SCHEMA["properties"]
    assert {*properties["car"]["properties"]} == {*SYSTEM}
    change = properties["car_states"]["items"]["properties"]["changes"]["items"]["properties"]
    assert {*change["what"]["enum"]} == {"fitted", "adjusted", "other", *DONE}
    assert {*change["part"]["enum"]} == {"", "other", *FITTED}
    typed = properties["prices"]["properties"]["typed"]["properties"]
    assert typed["minutes"]["propertyNames"]["enum"] == list(OPERATIONS)
    assert typed["parts"]["propertyNames"]["enum"] == list(PARTS)


def test_a_priced_case_is_as_the_schema_describes():
    jsonschema.validate({**CASE, "prices": PRICED}, SCHEMA)


def test_the_command_reads_a_file_and_the_standard_input(tmp_path: Path, capsys, monkeypatch):
    file = tmp_path / "case.json"
    file.write_text(json.dumps(CASE), encoding="utf-8")
    call_command("evaluate", str(file))
    by_file = json.loads(capsys.readouterr().out)
    monkeypatch.setattr("sys.stdin", io.StringIO(json.dumps(CASE)))
    call_command("evaluate")
    assert json.loads(capsys.readouterr().out) == by_file
    assert by_file["standings"]


def offered_by(steps, **told):
    """All that is offered next on a car after such steps."""
    plan = found({"car": CAR, "failing_now": "yes", "steps": steps, **told})["next"]
    offers = [*([plan["best"]] if plan["best"] else ()), *plan["others"], *plan["beside"]]
    return {one["kind"] for one in offers}


def out(kind, outcome, **told):
    return {"kind": kind, "outcome": outcome, **told}


def test_a_test_is_offered_for_what_it_looks_at_itself():
    made = [
        out("coil_power", "holds_when_pushed"),
        out("hub_turn", "free"),
        out("air_gap", "too_wide"),
    ]
    plan = found({"car": CAR, "failing_now": "yes", "steps": made})["next"]
    about = {
        one["kind"]: one["about"] for one in (plan["best"], *plan["others"]) if not one["proves"]
    }
    assert about["ground_drop"] == about["pressure_switch"] == "Command"


@pytest.mark.parametrize("failing", ["no", "cannot_tell"])
def test_a_test_made_while_it_does_not_fail_is_not_asked_for_again_and_again(failing):
    made = [out("pressure_switch", "closed")]
    assert "pressure_switch" not in offered_by(made, failing_now=failing)
    made[0]["failing_now"] = failing
    assert "pressure_switch" in offered_by(made)  # it fails now: then it is


FREE = [
    out("hub_turn", "free"),
    out("static_pressure", "as_expected"),
    out("gas_identity", "as_label"),
]
RUNS = {kind.name for kind in KINDS.values() if runs(kind)}


@pytest.mark.parametrize("what", ["opened", "recovered", "evacuated"])
def test_nothing_that_runs_it_is_offered_after_the_refrigerant_was_let_out(what):
    there = offered_by(FREE, car_states=[{"changes": [{"what": what}]}])
    assert not there & RUNS
    assert ("leak_search" in there) <= (what != "opened")


def test_once_charged_it_may_be_run_again():
    states = [{"changes": [{"what": "opened"}]}, {"changes": [{"what": "charged"}]}]
    made = [*FREE, out("hub_turn", "free", state=2), out("static_pressure", "some", state=2)]
    assert offered_by(made, car_states=states) & RUNS


@pytest.mark.parametrize("gas", ["mixed", "other", "flammable"])
def test_nothing_that_runs_it_is_offered_with_another_gas_in_it(gas):
    assert not offered_by([out("gas_identity", gas)]) & RUNS


def test_nothing_that_runs_it_is_offered_where_high_voltage_was_found_present():
    car = {"drive": "electric_hv", "displacement": "speed"}
    assert not offered_by([out("hv_isolation", "not_dead")], car=car) & RUNS


ELECTRICAL = {
    "coil_power",
    "coil_resistance",
    "feed_voltage",
    "feed_drop",
    "ground_drop",
    "relay",
    "hub_turn",
}


@pytest.mark.parametrize("car", [{}, {"drive": "belt_electric"}])
def test_no_clutch_coil_is_touched_before_it_is_noted_that_there_is_one(car):
    made = [out("complaint_seen", "not_engaging")]
    assert not offered_by(made, car=car) & (ELECTRICAL - {"hub_turn"})
    assert found({"car": car, "steps": made})["next"]["look_first"]
    assert not found({"car": CAR, "steps": made})["next"]["look_first"]


@pytest.mark.parametrize(
    ("drive", "kind", "outcome"),
    [
        ("electric_hv", "feed_voltage", "full"),
        ("electric_hv", "hub_turn", "free"),
        ("belt_clutchless", "coil_power", "no_current"),
        ("belt_clutch", "hv_command", "as_commanded"),
    ],
)
def test_an_outcome_told_of_a_test_that_is_barred_on_the_car_weighs_nothing(drive, kind, outcome):
    car = {"drive": drive}
    with_it = found({"car": car, "steps": [out(kind, outcome)]})
    without = found({"car": car, "steps": []})
    assert with_it["standings"] == without["standings"]


@pytest.mark.parametrize(
    "written",
    [
        "{",
        '{"car": 1}',
        "[" * 100_000,
        '{"car": {"label_charge_kg": NaN}}',
        '{"car": {"label_charge_kg": 1e400}}',
        '{"car": {"label_charge_kg": 0}}',
        '{"car": {"branches": "rear"}}',
        '{"car": {"gap_source": 3}}',
        '{"steps": [{"kind": "fuse", "readings": {"drop": 1e400}}]}',
        '{"steps": [{"kind": "fuse", "readings": {"drop": ' + "9" * 400 + "}}]}",
        '{"steps": [{"kind": "fuse", "readings": {"drop": ' + "9" * 5000 + "}}]}",
        '{"steps": [{"kind": "walk_round", "readings": {"what": {}}}]}',
        '{"steps": [{"kind": "fuse", "outcome": "blown", "not_done": "no_time"}]}',
        json.dumps({"steps": [{"kind": "fuse", "outcome": "blown"}] * 401}),
        json.dumps({"car_states": [{"changes": []}] * 401}),
        '{"prices": {"typed": {"taxes": 3}}}',
        '{"prices": {"typed": {"taxes": [{"millionths": 1, "on": [{}]}]}}}',
        '{"prices": {"terms": {"shop_left": "no"}}}',
        '{"prices": {"terms": {"shop_pays": [[]]}}}',
        '{"prices": {"figures": [{"after": "x", "then": "relay", "came": 1, "of": 30}]}}',
        '{"prices": {"figures": [{"after": "coil", "then": "relay", "came": "1", "of": 30}]}}',
    ],
)
def test_the_command_says_what_is_wrong_with_a_file(tmp_path: Path, written):
    file = tmp_path / "case.json"
    file.write_text(written, encoding="utf-8")
    with pytest.raises(CommandError) as odd:
        call_command("evaluate", str(file))
    assert "\n" not in str(odd.value)
