"""The tables of the command's tests: what each of them may say, and what none of them may."""

import numpy as np
import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference import told
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.looks import (
    belt_drive,
    codes,
    coil_power,
    command_data,
    complaint_seen,
    feed_drop,
    feed_voltage,
    fuse,
    ground_drop,
    hot_retest,
    opened_before,
    pressure_switch,
    relay,
    walk_round,
)
from diagnostics.evidence.system import System
from diagnostics.evidence.weigh import Verdict, weigh

MODULES = (
    complaint_seen, walk_round, codes, belt_drive, opened_before, hot_retest, fuse, relay,
    pressure_switch, command_data, feed_voltage, feed_drop, ground_drop,
)  # fmt: skip
LOOKS = {one.LOOKS.kind: one.LOOKS for one in MODULES}
TABLES = LOOKS | {"coil_power": coil_power.LOOKS}
CAR: System = {"drive": "belt_clutch", "displacement": "fixed", "voltage": "12"}
MODEL = model_of(CAR)
READ = [(kind, outcome) for kind, looks in LOOKS.items() for outcome in looks.outcomes]


def after(*read: tuple[str, str]) -> Verdict:
    tests = [told.Test(number, kind, outcome, "yes") for number, (kind, outcome) in enumerate(read)]
    return weigh(CAR, tests, (), TABLES)


def odds(kind: str, outcome: str, fault: str) -> float:
    """How much oftener an outcome comes with that fault of the command than in order."""
    looks = LOOKS[kind]
    shares = np.moveaxis(looks.true(MODEL) @ looks.slips(), -1, 0)[looks.outcomes.index(outcome)]
    at = [MODEL.at("command", code) for code in (fault, "ok")]
    calm = (0,) * (len(looks.given(MODEL)) - 1)
    return float(shares[(at[0], *calm)] / shares[(at[1], *calm)])


@pytest.mark.parametrize("kind", LOOKS)
def test_a_table_has_the_outcomes_that_carry_in_the_order_of_its_kind(kind):
    carrying = [one for one in KINDS[kind].outcomes if one.carries]
    assert LOOKS[kind].outcomes == tuple(one.code for one in carrying)
    assert {*LOOKS[kind].normal} == {one.code for one in carrying if one.normal}


@pytest.mark.parametrize("kind", LOOKS)
def test_a_row_names_no_more_than_all_of_its_outcomes_and_says_why(kind):
    for row in LOOKS[kind].rows.rows:
        assert sum(row.shares.values()) <= 1 + 1e-9
        assert {*row.shares} <= {*LOOKS[kind].outcomes}
        assert row.why
        assert row.basis


@pytest.mark.parametrize(("kind", "outcome"), READ)
def test_no_reading_of_the_command_alone_names_or_rules_out_a_compressor(kind, outcome):
    verdict = after((kind, outcome))
    named = [one for one in verdict.stands if one.variable == "mechanics" and one.code != "ok"]
    assert {one.standing for one in named} == {"open"}


def test_power_straight_at_the_coil_leaves_the_command_as_it_was():
    before, since = after(), after(("coil_power", "takes_hold"))
    for code in ("ok", "relay_open", "feed_resistance", "refused_low", "wire_open"):
        assert since.of("command", code).standing == "open"
        assert since.of("command", code).share == pytest.approx(
            before.of("command", code).share, rel=0.08
        )


@pytest.mark.parametrize("outcome", ["above", "far"])
def test_volts_at_the_plug_and_volts_lost_on_the_feed_speak_alike_past_their_limit(outcome):
    at_plug = odds("feed_voltage", outcome, "feed_resistance")
    on_feed = odds("feed_drop", outcome, "feed_resistance")
    assert 1 / 3 < at_plug / on_feed < 3
    assert at_plug > 50


@pytest.mark.parametrize("outcome", ["edge", "cannot_tell"])
@pytest.mark.parametrize("kind", ["feed_voltage", "feed_drop"])
def test_a_loss_at_the_limit_tells_nothing_apart(kind, outcome):
    assert 0.75 < odds(kind, outcome, "feed_resistance") < 1.35


def test_full_voltage_under_current_clears_the_way_but_for_the_ground():
    verdict = after(("feed_voltage", "full"))
    assert verdict.of("command", "relay_open").standing == "ruled_out"
    assert verdict.of("command", "ground_resistance").standing == "open"
    assert verdict.of("command", "ok").standing == "likely"
    both = after(("feed_voltage", "full"), ("ground_drop", "within"))
    assert both.of("command", "ok").standing == "proved"


def test_a_drop_read_under_current_speaks_for_a_command_that_arrives():
    seen = ("complaint_seen", "not_engaging")
    before, since = after(seen), after(seen, ("feed_drop", "within"))
    assert since.of("command", "ok").share > 2 * before.of("command", "ok").share
    assert since.of("clutch", "coil_open").share < before.of("clutch", "coil_open").share / 3


def test_a_fuse_that_looks_whole_and_a_switch_that_is_closed_clear_nothing():
    assert after(("fuse", "whole")).of("command", "fuse").standing == "open"
    assert after(("pressure_switch", "closed")).of("command", "switch_false").standing == "open"


def test_a_refusal_by_the_lock_sensor_speaks_of_clutch_and_shaft():
    before, since = after(), after(("command_data", "refused_lock"))
    for variable in ("clutch", "mechanics"):
        assert since.of(variable, "not_ok").share > 1.5 * before.of(variable, "not_ok").share


def test_a_thrown_belt_rests_on_one_look_and_is_not_in_order_by_it():
    verdict = after(("complaint_seen", "not_engaging"), ("belt_drive", "missing"))
    assert verdict.of("belt", "off").standing == "likely"
    assert verdict.of("belt", "off").alone == "belt_drive"
    assert verdict.of("belt", "not_ok").standing == "proved"
