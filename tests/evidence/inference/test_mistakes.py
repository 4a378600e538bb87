"""The mistakes of the trade that evidence could make: none of them comes of a verdict or a plan.

The numbers are those of the list of mistakes kept with the trade's facts.
"""

import pytest

from diagnostics.evidence.case import case_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.evaluate import asked_of, evaluate
from diagnostics.evidence.inference.network import VARIABLES
from diagnostics.evidence.inference.worth import in_hand, tables_of
from diagnostics.evidence.plan import Plan, plan
from diagnostics.evidence.runs import runs
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import Verdict
from tests.evidence.inference.cars import CLUTCHED, DRIVES, verdict_after, verdict_on
from tests.evidence.trial import Trial

RIGHTLY = {one.name: [a.code for a in one.answers if a.rightly] for one in VARIABLES}
Told = tuple[str, str]
NO_CLUTCH = ("belt_clutchless", "electric_hv", "electric_48")


def stand(verdict: Verdict, variable: str, code: str) -> str:
    return verdict.of(variable, code).standing


def share(verdict: Verdict, variable: str, code: str) -> float:
    return verdict.of(variable, code).share


def faults(verdict: Verdict, variable: str) -> tuple[str, ...]:
    """The answers that are broken, not rightly so."""
    codes = verdict.weighed.plain.answers[variable]
    return tuple(code for code in codes if code != "ok" and code not in RIGHTLY[variable])


def next_steps(*told: Told, system: System = CLUTCHED) -> Plan:
    steps = [{"kind": kind, "outcome": outcome} for kind, outcome in told]
    case = case_of({"car": dict(system), "failing_now": "yes", "steps": steps}, KINDS)
    return plan(verdict_after(*told, system=system).weighed, asked_of(case), KINDS, TABLES)


def offered(found: Plan) -> set[str]:
    best = [found.best] if found.best else []
    return {one.kind for one in (*best, *found.others, *found.beside)}


def in_hand_of(verdict: Verdict) -> set[str]:
    return {one.variable for one in in_hand(verdict.weighed, tables_of(verdict.weighed))}


@pytest.mark.parametrize("times", [1, 5])
def test_1_pressure_at_rest_is_no_charge_level(times):
    before, after = verdict_on([]), verdict_after(*[("static_pressure", "as_expected")] * times)
    assert stand(after, "amount", "ok") == "open"
    assert stand(after, "amount", "low") == "open"
    low, right = (share(after, "amount", code) for code in ("low", "ok"))
    first = share(before, "amount", "low") / share(before, "amount", "ok")
    assert low / right == pytest.approx(first, rel=0.1)


def test_2_grams_that_an_old_machine_took_out_are_not_the_charge():
    after = verdict_after(("recovered_share", "cannot_tell"))
    assert {stand(after, "amount", code) for code in ("ok", "low", "too_much")} == {"open"}


@pytest.mark.parametrize("outcome", ["held", "held_shallow", "near_target"])
def test_3_a_vacuum_that_held_is_not_no_leak(outcome):
    after = verdict_after(("vacuum_hold", outcome))
    assert stand(after, "tightness", "ok") not in ("proved", "likely")
    assert stand(after, "tightness", "leaks") == "open"
    assert stand(after, "tightness", "leaks_hidden") == "open"


def test_3_nor_are_vacuum_and_nitrogen_that_held_together():
    after = verdict_after(("vacuum_hold", "held"), ("nitrogen_hold", "held"))
    assert stand(after, "tightness", "ok") not in ("proved", "likely")
    assert stand(after, "tightness", "leaks") == "open"


@pytest.mark.parametrize("outcome", ["high", "cannot_tell", "low"])
def test_6_no_coil_is_condemned_by_a_reading_beside_a_rule(outcome):
    after = verdict_after(("coil_resistance", outcome))
    cured = {"clutch": ("coil_open", "melt_open", "coil_shorted", "fails_hot")}
    assert after.weighed.of_set(cured).standing == "open"


def test_6_a_coil_read_hot_is_brought_to_20_degrees_before_it_is_judged():
    """3.6 ohm at 20 °C reads 4.7 at 100 °C: copper, 0.393 % a kelvin."""
    system: System = {**CLUTCHED, "voltage": "12", "coil_ohm": 3.6, "coil_ohm_source": "label"}
    assert Trial("coil_resistance").code(system, one="4.7", other="4.7", temperature="100") in (
        "inside",
        "cannot_tell",
    )


def test_7_an_open_coil_clears_no_shaft():
    after = verdict_after(("coil_resistance", "open"), ("coil_power", "no_current"))
    before = verdict_on([])
    assert stand(after, "mechanics", "locked") == "open"
    assert share(after, "mechanics", "locked") > 2 * share(before, "mechanics", "locked")
    assert stand(after, "mechanics", "ok") != "proved"


def test_7_after_an_open_coil_turning_the_hub_is_offered():
    assert "hub_turn" in offered(
        next_steps(("coil_resistance", "open"), ("coil_power", "no_current"))
    )


@pytest.mark.parametrize(
    "told", [("fuse", "blown"), ("relay", "stuck_on"), ("fuse", "blows_again")]
)
def test_8_what_a_shorted_coil_kills_points_at_the_coil(told):
    before, after = verdict_on([]), verdict_after(told)
    assert share(after, "clutch", "coil_shorted") > 2 * share(before, "clutch", "coil_shorted")


def test_8_the_coil_is_measured_before_a_blown_fuse_is_all():
    assert "coil_resistance" in offered(next_steps(("fuse", "blown")))


def test_9_too_small_a_gap_is_a_fault_and_no_wear():
    after = verdict_after(("air_gap", "too_small"))
    assert share(after, "clutch", "gap_small") > 0.5
    assert share(after, "clutch", "gap_wide") < 0.05
    assert share(after, "clutch", "worn") < 0.05


@pytest.mark.parametrize(
    "outcome", ["not_asked", "refused_cold", "refused_low", "refused_high", "refused_engine"]
)
def test_10_a_refusal_is_no_fault(outcome):
    after = verdict_after(("command_data", outcome))
    broken = after.weighed.of_set({"command": faults(after, "command")})
    assert broken.standing == "open"
    assert broken.share < 0.3
    assert "command" not in in_hand_of(after)  # nothing to be mended there


@pytest.mark.parametrize("outcome", ["refused_low", "refused_cold", "refused_high"])
def test_10_nor_is_the_command_called_not_in_order_for_it(outcome):
    assert stand(verdict_after(("command_data", outcome)), "command", "not_ok") == "open"


@pytest.mark.parametrize("drive", NO_CLUTCH)
def test_11_no_test_of_a_clutch_coil_is_offered_where_there_is_none(drive):
    system: System = {"drive": drive, "displacement": "variable_outer", "branches": ["front"]}
    for told in ((), (("complaint_seen", "not_engaging"),), (("hub_turn", "free"),)):
        found = next_steps(*told, system=system)
        coil = {"coil_power", "coil_resistance", "air_gap", "clutch_face"}
        assert not offered(found) & coil


@pytest.mark.parametrize("drive", [one for one in DRIVES if one])
def test_11_nothing_is_offered_that_such_a_car_forbids(drive):
    system: System = {"drive": drive, "displacement": "fixed", "branches": ["front"]}
    assert not {kind for kind in offered(next_steps(system=system)) if KINDS[kind].forbids(system)}


@pytest.mark.parametrize("pattern", ["high_low", "close_together", "low_low"])
def test_12_pressures_name_no_compressor_while_the_charge_is_not_known(pattern):
    after = verdict_after(
        ("running_pressures", pattern), ("vent_temperature", "no_colder"), ("equalising", "at_once")
    )
    named = {stand(after, "mechanics", code) for code in ("not_pumping", "locked", "not_ok")}
    assert not named & {"proved", "likely"}


def test_12_with_the_charge_weighed_and_the_drive_seen_they_may_point_at_it():
    """Else it would never be found."""
    told: tuple[Told, ...] = (
        ("recovered_share", "near_label"), ("gas_identity", "as_label"), ("hub_turn", "free"),
        ("feed_voltage", "full"), ("coil_power", "takes_hold"), ("belt_drive", "holds"),
    )  # fmt: skip
    alone = verdict_after(("running_pressures", "close_together"))
    known = verdict_after(*told, ("running_pressures", "close_together"))
    assert share(known, "mechanics", "not_pumping") > 2 * share(alone, "mechanics", "not_pumping")


def test_20_a_missing_measurement_is_no_pass():
    for one in verdict_on([]).stands:
        assert one.standing not in ("proved", "ruled_out")


def test_20_nor_is_a_part_that_no_test_bears_on_likely_in_order():
    assert {one.standing for one in verdict_on([]).stands} == {"open"}


@pytest.mark.parametrize("outcome", TABLES["coil_power"].outcomes)
def test_21_power_at_the_coil_clears_nothing_before_it(outcome):
    before, after = verdict_on([]), verdict_after(("coil_power", outcome))
    faulty = [share(one, "command", "not_ok") for one in (before, after)]
    assert faulty[1] > 0.5 * faulty[0]
    assert stand(after, "command", "not_ok") in ("open", "likely")


@pytest.mark.parametrize("outcome", ["full_not_coil", "stands", "cannot_tell"])
def test_22_volts_without_the_coils_current_prove_no_feed(outcome):
    after = verdict_after(("feed_voltage", outcome))
    assert stand(after, "command", "ok") != "proved"
    assert stand(after, "command", "feed_resistance") != "ruled_out"
    assert stand(after, "command", "ground_resistance") != "ruled_out"


def test_23_dye_in_the_oil_is_no_leak():
    before, after = verdict_on([]), verdict_after(("opened_before", "dye_only"))
    ratio = share(after, "tightness", "leaks") / share(before, "tightness", "leaks")
    assert ratio == pytest.approx(1, abs=0.1)
    assert stand(after, "tightness", "leaks") == "open"


@pytest.mark.parametrize("outcome", ["old_stain", "trace", "other_oil"])
def test_23_a_stain_that_did_not_come_again_is_no_wet_seal(outcome):
    after = verdict_after(("shaft_seal", outcome))
    assert stand(after, "seal", "wet") not in ("proved", "likely")


@pytest.mark.parametrize(
    "told", [("command_data", "refused_cold"), ("pressure_switch", "open_cold")]
)
def test_24_no_click_in_a_cold_bay_is_no_fault(told):
    after = verdict_after(told)
    assert after.weighed.of_set({"command": faults(after, "command")}).standing == "open"
    assert stand(after, "amount", "empty") == "open"
    assert stand(after, "amount", "low") == "open"


def test_25_nothing_is_recovered_before_the_search_for_a_leak():
    """Of a loop with pressure in it."""
    for told in ((), (("static_pressure", "as_expected"),), (("running_pressures", "low_low"),)):
        assert "recovered_share" not in offered(next_steps(*told))


@pytest.mark.parametrize(
    "told", [("hub_turn", "locked"), ("hub_turn", "rough"), ("static_pressure", "empty")]
)
def test_26_nothing_that_runs_it_is_offered_where_it_must_not_run(told):
    assert not {kind for kind in offered(next_steps(told)) if runs(KINDS[kind])}


def test_28_good_cold_and_bad_hot_is_a_pattern():
    case = case_of(
        {
            "car": dict(CLUTCHED),
            "steps": [
                {"kind": "coil_power", "outcome": "takes_hold", "failing_now": "no"},
                {"kind": "coil_power", "outcome": "drops_out", "failing_now": "yes"},
            ],
        },
        KINDS,
    )
    found = evaluate(case, KINDS, TABLES)["disagree"]
    assert [one["what"] for one in found] == ["pattern"]


def test_29_of_two_changes_between_two_readings_neither_gets_the_credit():
    """Gap set and relay changed at once, and now it takes hold: either may have been it."""
    steps = [
        {"kind": "complaint_seen", "outcome": "not_engaging", "state": 0},
        {"kind": "complaint_seen", "outcome": "engages", "state": 1},
    ]
    changes = [{"what": "gap_set", "part": ""}, {"what": "fitted", "part": "relay"}]
    car = {"car": dict(CLUTCHED), "steps": steps, "car_states": [{"changes": changes}]}
    found = evaluate(case_of(car, KINDS), KINDS, TABLES)["standings"]
    proved = {(one["variable"], one["code"]) for one in found if one["standing"] == "proved"}
    assert not {variable for variable, _ in proved} & {"command", "clutch"}


@pytest.mark.parametrize("told", [("coil_power", "no_current"), ("coil_resistance", "open")])
def test_no_drop_under_current_is_offered_through_a_coil_that_is_open(told):
    found = next_steps(("complaint_seen", "not_engaging"), ("hub_turn", "free"), told)
    assert not {"feed_drop", "ground_drop"} & offered(found)


def test_whether_the_loop_is_empty_is_read_before_a_leak_is_searched():
    told = (("gas_identity", "as_label"), ("hub_turn", "free"), ("coil_power", "no_current"))
    found = next_steps(("complaint_seen", "not_engaging"), *told, ("coil_resistance", "open"))
    best = found.best
    assert best
    assert best.kind != "leak_search"


def test_options_call_no_single_answer_shown_that_the_verdict_calls_likely():
    after = verdict_after(("gas_identity", "as_label"), ("static_pressure", "empty"))
    for one in after.stands:
        if one.code not in ("ok", "not_ok"):
            assert after.weighed.of_set({one.variable: (one.code,)}).standing == one.standing
