"""What must never be said, whatever was told and whatever a shop's own jobs taught."""

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.factors import Factor
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.model import Model, model_of
from diagnostics.evidence.inference.network import COUPLINGS
from diagnostics.evidence.inference.rows import Row, Rows
from diagnostics.evidence.inference.states import sliced
from diagnostics.evidence.inference.told import Test as Made
from diagnostics.evidence.inference.told import told_by
from diagnostics.evidence.inference.verdict import LIKELY, Weighed, odds
from diagnostics.evidence.inference.worth import worth
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from tests.evidence.inference.cars import (
    BIGGEST,
    CLUTCHED,
    cars,
    made_at_random,
    one_made,
    verdict_after,
    verdict_on,
)

SHAFT = ("locked", "stiff")
TURNED = ("hub_turn", "limiter")  # tests in which the shaft is turned by hand
# Tests that look at the coil, the clutch and its drive, and at nothing before them.
CLUTCH_TESTS = (
    "coil_power", "coil_resistance", "air_gap", "clutch_face", "pulley_bearing", "limiter",
    "hub_turn",
)  # fmt: skip


def names(looks: Looks, variable: str, codes: Sequence[str]) -> bool:
    """Whether a test looks at that variable and names one of these answers."""
    return bool({*looks.direct.get(variable, ())} & {*codes})


def blind_to_the_shaft() -> dict[str, Looks]:
    return {kind: one for kind, one in TABLES.items() if not names(one, "mechanics", SHAFT)}


def can_be_made(kind: str, system: System) -> bool:
    return not KINDS[kind].forbids(system)


def taught(model: Model, shares: dict[str, float]) -> Model:
    """The network with other shares of "ok" for some variables, as a shop's own jobs may teach."""
    usual = {name: dict(each) for name, each in model.usual.items()}
    for name, ok in shares.items():
        others = 1 - usual[name]["ok"]
        usual[name] = {
            code: ok if code == "ok" else share * (1 - ok) / others
            for code, share in usual[name].items()
        }
    factors = []
    for name, factor in zip(model.answers, model.factors, strict=False):
        given, values = factor.names[:-1], factor.values[0]
        if name in shares and not given:
            values = np.array([usual[name][code] for code in model.answers[name]])
        elif name in shares:
            values = COUPLINGS[name].shares(model.answers, model.answers[name], usual[name])
            bare = np.array([usual[name][code] for code in model.answers[name]])
            values = np.sqrt(values * bare)
            values = values / values.sum(axis=-1, keepdims=True)
        factors.append(Factor.of([*given, name], values))
    told = model.factors[len(factors) :]
    return replace(model, usual=usual, factors=(*factors, *told), memo={})


def extremes(model: Model) -> Iterator[dict[str, float]]:
    """Shops that see one thing nearly always, or nearly never."""
    names = [one.name for one in model.variables]
    yield dict.fromkeys(names, 0.9999)
    for name in names:
        yield {name: 0.9999}
        yield {name: 0.0001}


def weighed(model: Model, tests: Sequence[Made]) -> Weighed:
    network = sliced(model, ())
    return Weighed(network, tuple(told_by(network, tests, TABLES)))


def standings(found: Weighed, variable: str) -> dict[str, str]:
    return {one.code: one.standing for one in found._of_variable(variable)}


@pytest.mark.parametrize("system", cars(), ids=lambda one: "{drive} {displacement}".format(**one))
def test_no_reading_alone_names_the_compressor_while_the_charge_is_unknown(system):
    """Only turning the shaft itself may, and the valve's own coil measured names the valve."""
    untested = weighed(model_of(system), [])
    blind = [
        one for kind, one in TABLES.items() if kind not in TURNED and can_be_made(kind, system)
    ]
    for looks, found in zip(blind, worth(untested, blind), strict=True):
        for outcome, shares in zip(looks.outcomes, found.shares["mechanics"], strict=False):
            if (looks.kind, outcome) != ("control_valve_duty", "coil_open"):
                assert 1 - shares[0] < LIKELY, (looks.kind, outcome)


def test_pressures_alone_however_often_read_name_no_compressor():
    for outcome in TABLES["running_pressures"].outcomes:
        tests = [
            one_made("running_pressures", outcome, 1),
            one_made("running_pressures", outcome, 2),
            one_made("equalising", "at_once", 3),
            one_made("vent_temperature", TABLES["vent_temperature"].outcomes[0], 4),
        ]
        found = standings(verdict_on(tests).weighed, "mechanics")
        for code, standing in found.items():
            assert code == "ok" or standing in ("open", "ruled_out"), (outcome, code, standing)


def test_a_shaft_that_nobody_turned_is_never_ruled_out():
    dice = random.Random("shaft")
    for system in cars():
        tests = made_at_random(dice, at_most=14, tables=blind_to_the_shaft())
        found = standings(verdict_on(tests, system).weighed, "mechanics")
        assert "ruled_out" not in {found[code] for code in (*SHAFT, "not_ok")}, tests
        assert found["ok"] != "proved"


def test_not_even_by_every_test_there_is_with_its_best_result():
    tests = [one_made(kind, looks.normal[0]) for kind, looks in blind_to_the_shaft().items()]
    for system in (CLUTCHED, BIGGEST):
        found = standings(verdict_on(tests, system).weighed, "mechanics")
        assert "ruled_out" not in {found[code] for code in (*SHAFT, "not_ok")}
        assert found["ok"] != "proved"


@pytest.mark.parametrize("ok", [0.9, 0.9999])
def test_nor_by_pressures_that_show_it_pumping(ok):
    """They name the compressor, and a shaft that pumps is hardly stiff; nobody felt it."""
    model = taught(model_of(CLUTCHED), {"mechanics": ok})
    tests = [one_made("running_pressures", "inside", 1), one_made("noise", "none_heard", 2)]
    stands = standings(weighed(model, tests), "mechanics")
    assert "ruled_out" not in {stands[code] for code in (*SHAFT, "not_ok")}
    assert stands["ok"] != "proved"


def test_nor_by_a_test_that_names_the_compressor_in_order_and_does_not_turn_it():
    """However strong: only a look at the shaft itself rules out what sits in it."""
    at_fault = {"bad": 0.999, "good": 0.001}
    faults = tuple(code for code in model_of(CLUTCHED).answers["mechanics"] if code != "ok")
    hears = Looks(
        "hears",
        Rows(("mechanics",), (Row({"mechanics": faults}, at_fault, "by hand"),
                              Row({}, {"bad": 0.001, "good": 0.999}, "by hand"))),
        ("bad", "good"), ("good",), {"mechanics": ("ok", "not_pumping")},
    )  # fmt: skip
    network = sliced(model_of(CLUTCHED), ())
    found = Weighed(network, tuple(told_by(network, [Made(1, "hears", "good")], {"hears": hears})))
    stands = standings(found, "mechanics")
    assert {stands[code] for code in (*SHAFT, "not_ok")} == {"open"}
    assert stands["ok"] == "likely"
    assert stands["not_pumping"] == "ruled_out"


@pytest.mark.parametrize("system", [CLUTCHED, BIGGEST], ids=["fixed", "biggest"])
def test_nor_by_any_shares_that_a_shop_could_teach(system):
    dice = random.Random("taught")
    model = model_of(system)
    for shares in extremes(model):
        tests = made_at_random(dice, at_most=6, tables=blind_to_the_shaft())
        found = weighed(taught(model, shares), tests)
        stands = standings(found, "mechanics")
        assert "ruled_out" not in {stands[code] for code in (*SHAFT, "not_ok")}, shares
        assert stands["ok"] != "proved", shares


def test_nor_is_a_set_that_a_new_compressor_cures():
    model = taught(model_of(CLUTCHED), {"mechanics": 0.9999})
    tests = made_at_random(random.Random("set"), tables=blind_to_the_shaft())
    cures = {"mechanics": ("locked", "stiff", "not_pumping")}
    assert weighed(model, tests).of_set(cures).standing == "open"
    assert weighed(model, tests).of_set({**cures, "seal": ("wet",)}).standing != "ruled_out"


@pytest.mark.parametrize("outcome", TABLES["coil_power"].outcomes)
def test_power_at_the_coil_never_clears_what_is_before_it(outcome):
    found = verdict_on([one_made("coil_power", outcome)]).weighed
    stands = standings(found, "command")
    assert stands.pop("ok") != "proved"
    assert "ruled_out" not in stands.values()


def test_nor_do_all_tests_of_the_clutch_together():
    dice = random.Random("before it")
    tables = {kind: TABLES[kind] for kind in CLUTCH_TESTS}
    for _ in range(25):
        tests = [one_made("coil_power", dice.choice(TABLES["coil_power"].outcomes), 99)]
        tests += made_at_random(dice, at_most=10, tables=tables)
        stands = standings(verdict_on(tests).weighed, "command")
        assert stands.pop("ok") != "proved", tests
        assert "ruled_out" not in stands.values(), tests


def test_nothing_is_proved_or_ruled_out_of_a_car_on_which_nothing_was_done():
    for system in cars():
        assert {one.standing for one in verdict_on([], system).stands} <= {"open", "likely"}


def test_no_fault_is_likely_before_a_test():
    for system in cars():
        likely = [one for one in verdict_on([], system).stands if one.standing == "likely"]
        assert {one.code for one in likely} <= {"ok"}


def test_something_else_is_never_ruled_out_and_never_proved():
    dice = random.Random("else")
    for system in cars():
        tests = made_at_random(dice, at_most=12)
        for one in verdict_on(tests, system).stands:
            assert one.code != "other" or one.standing in ("open", "likely"), tests


def test_no_test_alone_proves_or_rules_out_what_it_does_not_look_at():
    for kind, looks in TABLES.items():
        outcome = looks.outcomes[0]
        for one in verdict_on([one_made(kind, outcome)]).stands:
            if one.standing in ("proved", "ruled_out"):
                assert one.variable in looks.direct, (kind, outcome, one.variable)


def test_what_seldom_is_or_nearly_always_is_not_settled_by_that_alone():
    """Tests have to speak against what is ruled out, and for what is proved."""
    dice = random.Random("alone")
    for system in cars():
        first = {(one.variable, one.code): odds(one.share) for one in verdict_on([], system).stands}
        for one in verdict_on(made_at_random(dice), system).stands:
            now, before = odds(one.share), first[one.variable, one.code]
            if one.standing == "ruled_out":
                against = [1 / each.odds for each in one.carried]
                assert max(before / now, *against, 1) >= 3, (one.variable, one.code)
            if one.standing == "proved":
                assert now >= 2 * before, (one.variable, one.code)


def test_a_belt_seen_oily_is_not_shown_to_be_in_order_in_a_shop_that_never_saw_one_slip():
    model = taught(model_of(CLUTCHED), {"belt": 0.9995})
    assert standings(weighed(model, [one_made("belt_drive", "oily")]), "belt")["ok"] == "open"


def test_a_gap_too_small_is_not_ruled_out_by_a_clutch_that_holds():
    """So does one whose gap is too small; that it is seldom is no test."""
    stands = standings(verdict_on([one_made("coil_power", "takes_hold")]).weighed, "clutch")
    assert stands["gap_small"] == "open"


@pytest.mark.parametrize("unseen", ["bearing", "hub_broken"])
def test_a_coil_that_draws_no_current_rules_out_neither_bearing_nor_hub(unseen):
    found = verdict_after(("coil_power", "no_current"), ("coil_resistance", "open"))
    assert found.weighed.share("clutch", ("coil_open", "melt_open")) >= LIKELY
    assert found.of("clutch", unseen).standing == "open"


@pytest.mark.parametrize("unseen", ["oily", "worn", "gap_wide"])
def test_a_fault_found_by_one_test_rules_out_nothing_that_it_does_not_look_at(unseen):
    assert verdict_after(("coil_power", "no_current")).of("clutch", unseen).standing == "open"


def test_a_car_that_has_no_magnetic_clutch_has_no_coil():
    bare: System = {"drive": "belt_electric", "clutch": "none"}
    assert not {"coil_open", "melt_open", "gap_wide"} & {*model_of(bare).answers["clutch"]}
    assert "coil_open" in model_of({"drive": "belt_electric"}).answers["clutch"]


@pytest.mark.parametrize("turned", [(), (("hub_turn", "locked"),)])
def test_a_compressor_behind_an_open_coil_is_never_called_not_the_cause(turned):
    found = verdict_after(("coil_power", "no_current"), *turned)
    assert "mechanics" not in [one.variable for one in found.joint]
    assert "command" in [one.variable for one in found.joint]
