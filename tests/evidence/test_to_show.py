"""What is to be shown after a repair, by the work and by how the car is built."""

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.system import System
from diagnostics.evidence.to_show import (
    CAPS,
    CODES,
    COMMAND,
    COMPRESSOR,
    DIRT,
    GAP,
    ITEMS,
    LABEL,
    OPENED,
    PORTS,
    REPAIRED,
    again,
    to_show,
)

ALL = (REPAIRED, OPENED, PORTS, DIRT, GAP, COMMAND, COMPRESSOR, CODES)
# Every way of driving a compressor: what such a car must be shown to do, and must not be asked.
DRIVES: list[tuple[System, set[str], set[str]]] = [
    (
        {"drive": "belt_clutch", "displacement": "fixed", "branches": ["front"]},
        {"takes_hold", "voltage", "gap", "cycling"},
        {"taken_along", "valve", "motor", "insulation", "vent_rear", "battery"},
    ),
    (
        {"drive": "belt_clutch", "displacement": "variable_outer", "branches": ["front", "rear"]},
        {"takes_hold", "gap", "valve", "vent_front", "vent_rear"},
        {"cycling", "taken_along", "motor", "battery"},
    ),
    (
        {"drive": "belt_clutchless", "displacement": "variable_outer", "branches": ["front"]},
        {"taken_along", "valve"},
        {"takes_hold", "voltage", "gap", "cycling", "motor", "insulation"},
    ),
    (
        {"drive": "electric_hv", "displacement": "speed", "branches": ["front", "battery"]},
        {"motor", "insulation", "battery"},
        {"takes_hold", "voltage", "gap", "cycling", "taken_along", "valve"},
    ),
    (
        {"drive": "electric_48", "displacement": "speed", "branches": ["front"]},
        {"motor"},
        {"takes_hold", "gap", "cycling", "taken_along", "insulation"},
    ),
    (
        {"drive": "belt_electric", "clutch": "magnetic", "branches": ["front"]},
        {"takes_hold", "gap", "motor", "insulation"},
        {"taken_along"},
    ),
    (
        {"drive": "belt_electric", "clutch": "none", "branches": ["front"]},
        {"taken_along", "motor"},
        {"takes_hold", "gap", "voltage"},
    ),
    (
        {},
        {"takes_hold", "gap", "cycling", "vent_front"},
        {"taken_along", "motor", "insulation", "vent_rear", "battery", "valve"},
    ),
]
EVERYWHERE = {
    "complaint",
    "fans",
    "pressures",
    "vent_front",
    "leak",
    "filter",
    "codes",
    CAPS,
    LABEL,
}


def codes(*done: str, system: System | None = None) -> set[str]:
    return {one.code for one in to_show(done, system or DRIVES[0][0])}


@pytest.mark.parametrize(("system", "asked", "not_asked"), DRIVES)
def test_each_drive_is_asked_for_what_it_has_and_for_nothing_else(system, asked, not_asked):
    found = codes(*ALL, system=system)
    assert asked <= found
    assert not not_asked & found
    assert found >= EVERYWHERE


@pytest.mark.parametrize(("system", "asked", "not_asked"), DRIVES)
def test_the_test_that_is_linked_is_never_barred_on_such_a_car(system, asked, not_asked):
    for one in to_show(ALL, system):
        if one.by:
            assert not KINDS[one.by[0].kind].forbids(system), one.code


def test_a_car_on_which_nothing_was_repaired_has_nothing_to_show():
    assert codes() == codes(OPENED, PORTS, DIRT) == set()


def test_a_fuse_asks_for_the_command_and_for_nothing_of_the_loop():
    assert codes(REPAIRED, COMMAND) == {
        *("complaint", "takes_hold", "voltage", "cycling", "fans", "vent_front")
    }


def test_gauges_ask_for_the_caps_and_no_more():
    assert codes(REPAIRED, PORTS) - codes(REPAIRED) == {CAPS}


def test_an_opened_loop_asks_for_pressures_leak_search_caps_and_label():
    assert codes(REPAIRED, OPENED) - codes(REPAIRED) == {"pressures", "leak", CAPS, LABEL}


def test_debris_asks_for_a_second_look_at_the_filter():
    assert codes(REPAIRED, DIRT) - codes(REPAIRED) == {"filter"}


def test_what_shows_it_is_in_the_catalogue_with_that_outcome_and_that_answer():
    for item in ITEMS:
        for by in item.by:
            kind = KINDS[by.kind]
            outcomes = {one.code for one in kind.outcomes}
            assert {*by.outcomes, *by.part} <= outcomes
            assert all(kind.asked(name) for name in by.needs)
            for name, answers in {by.asked: tuple(by.says), **by.only}.items():
                choices = {one.name: {each.code for each in one.answers} for one in kind.choices}
                assert not name or {*answers} <= choices[name]
            assert {*by.told} <= {*by.says}


def test_what_is_shown_by_an_outcome_is_shown_by_a_normal_one_only():
    for item in ITEMS:
        for by in item.by:
            assert all(KINDS[by.kind].is_normal(one) for one in (*by.outcomes, *by.part)), item.code


def test_power_straight_at_the_coil_never_shows_that_the_command_is_cured():
    """It bypasses relay, fuse, switches and wiring (common practice)."""
    assert all(by.kind != "coil_power" for item in ITEMS for by in item.by)


def test_held_vacuum_never_shows_that_it_is_tight():
    leak = next(one for one in ITEMS if one.code == "leak")
    assert [by.kind for by in leak.by] == ["leak_search"]
    assert "no proof of tightness" in leak.why


def test_what_had_found_something_is_to_be_made_again():
    one = again("hub_turn", "Hub turned by hand", "compressor", ["free"])
    assert (one.code, one.words) == ("again_hub_turn", "Hub turned by hand, again")
    assert one.by[0].outcomes == ("free",)


def test_each_has_a_code_of_its_own():
    assert len({one.code for one in ITEMS}) == len(ITEMS)
