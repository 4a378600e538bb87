"""One part tried in several ways, or looked at again and closer: more is told, not less."""

from itertools import combinations

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.orders import Made
from diagnostics.evidence.plan import Asked, plan
from diagnostics.evidence.tables import TABLES
from tests.evidence.inference.cars import CLUTCHED, made, one_made, verdict_after, verdict_on

WAYS = [looks for looks in TABLES.values() if looks.tries or looks.vague or looks.less]


def share(variable: str, code: str, *told: tuple[str, str]) -> float:
    return verdict_after(*told).weighed.share(variable, (code,))


@pytest.mark.parametrize("looks", WAYS, ids=lambda looks: looks.kind)
def test_ways_and_what_tells_less_are_outcomes_of_the_table_and_ways_share_none(looks: Looks):
    more = [code for codes in looks.less.values() for code in codes]
    told = [*looks.vague, *looks.less, *more, *(code for way in looks.tries for code in way)]
    assert {*told} <= {*looks.outcomes}
    assert not any({*one} & {*other} for one, other in combinations(looks.tries, 2))


@pytest.mark.parametrize("looks", WAYS, ids=lambda looks: looks.kind)
def test_what_tells_less_does_not_tell_more_of_what_tells_more_of_it(looks: Looks):
    for less, more in looks.less.items():
        assert less not in looks.vague
        assert not any(less in looks.less.get(code, ()) for code in more)


@pytest.mark.parametrize(
    ("variable", "code", "one", "other"),
    [
        ("command", "relay_open", ("relay", "no_output"), ("relay", "bridge_works")),
        ("outside", "face", ("condenser_face", "blocked"), ("condenser_face", "colder_wet")),
        ("belt", "slips", ("belt_drive", "loose"), ("belt_drive", "slips")),
        ("cabin", "heater", ("air_doors", "heater"), ("air_doors", "follow")),
    ],
)
def test_two_ways_that_point_at_one_fault_tell_more_than_either(variable, code, one, other):
    both = share(variable, code, one, other)
    assert both > max(share(variable, code, one), share(variable, code, other))
    assert both == pytest.approx(share(variable, code, other, one))


@pytest.mark.parametrize(
    ("kind", "less", "more"),
    [
        ("static_pressure", "unsoaked_some", "above"),
        ("recovered_share", "cannot_tell", "clearly_low"),
        ("shaft_seal", "wet", "loop_oil_again"),
        ("coil_power", "does_not_hold", "holds_when_pushed"),
        ("fuse", "whole", "open"),
        ("leak_search", "part_searched", "found"),
    ],
)
def test_a_closer_look_stands_as_if_the_first_had_not_been_made(kind, less, more):
    both, alone = verdict_after((kind, less), (kind, more)), verdict_after((kind, more))
    assert [one.share for one in both.stands] == pytest.approx([one.share for one in alone.stands])


@pytest.mark.parametrize(
    "told",
    [
        (("relay", "no_output"), ("relay", "bridge_works")),
        (("condenser_face", "blocked"), ("condenser_face", "colder_wet")),
        (("shaft_seal", "trace"), ("shaft_seal", "loop_oil")),
    ],
)
def test_two_ways_or_a_closer_look_do_not_disagree(told):
    pairs = [one for one in verdict_after(*told).disagree if len(one.kinds) == 2]
    assert not pairs


def test_five_readings_of_one_way_still_count_little_more_than_one():
    once = share("command", "relay_open", ("relay", "no_output"), ("relay", "bridge_works"))
    often = share("command", "relay_open", *[("relay", "no_output")] * 5, ("relay", "bridge_works"))
    assert often == pytest.approx(once, abs=0.03)


def test_a_coil_found_open_while_it_fails_now_and_then_may_fail_hot():
    tests = [
        one_made("complaint_seen", "at_times", 4, "yes"),
        one_made("coil_resistance", "inside", 1, "no"),
        one_made("coil_resistance", "open", 2, "yes"),
        one_made("coil_power", "no_current", 3, "yes"),
    ]
    stands = {(one.variable, one.code): one.standing for one in verdict_on(tests).stands}
    assert stands["clutch", "fails_hot"] == "likely"
    assert stands["clutch", "not_ok"] == "proved"


@pytest.mark.parametrize("touched", [False, True])
def test_no_gas_is_identified_in_a_loop_that_is_still_without_pressure(touched):
    weighed = verdict_on(made(("static_pressure", "empty"))).weighed
    done = frozenset({"static_pressure"})
    made_so = (Made("static_pressure", "empty", touched=touched),)
    found = plan(weighed, Asked(CLUTCHED, made_so, done), KINDS, TABLES)
    there = {one.kind for one in (found.best, *found.others) if one and not one.leads_to}
    assert ("gas_identity" in there) is touched


def test_what_is_proved_out_of_order_is_not_open_to_be_in_order():
    told = (("noise", "knock_on"), ("hub_turn", "rough"), ("debris", "metal"))
    stands = {
        one.code: one.standing for one in verdict_after(*told).stands if one.variable == "mechanics"
    }
    assert (stands["not_ok"], stands["ok"]) == ("proved", "ruled_out")
