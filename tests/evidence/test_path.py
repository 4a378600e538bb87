"""The command's way: what fills a link, what stops it, and which links a car has."""

from dataclasses import replace

import pytest

from diagnostics.evidence import path
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.concluded import Concluded, ToWeigh, conclude, plain_system
from diagnostics.evidence.inference import told
from diagnostics.evidence.path import Link, LinkShown, path_of
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.verdict_words import BY_NAME

CLUTCHED = System(drive="belt_clutch", displacement="fixed", voltage="12")
CLUTCHLESS = System(drive="belt_clutchless", displacement="variable_outer", voltage="12")
ELECTRIC = System(drive="electric_hv", displacement="speed")


def found(system: System, *outcomes: tuple[str, str]) -> Concluded:
    tests = tuple(
        told.Test(number, kind, outcome, "yes")
        for number, (kind, outcome) in enumerate(outcomes, start=1)
    )
    return conclude(ToWeigh(plain_system(system), tests), KINDS, TABLES)


def links(system: System, *outcomes: tuple[str, str]) -> dict[str, LinkShown]:
    groups = path_of(system, found(system, *outcomes))
    return {one.words: one for group in groups for one in group.links}


@pytest.mark.parametrize("system", [CLUTCHED, CLUTCHLESS, ELECTRIC, System()])
def test_nothing_is_filled_before_a_test_showed_it(system):
    assert {one.state for one in links(system).values()} == {"open"}


@pytest.mark.parametrize(
    ("system", "has", "has_not"),
    [
        (CLUTCHED, ("Relay", "Coil", "Air gap", "Hub"), ("Control valve", "Inverter")),
        (CLUTCHLESS, ("Control valve", "Limiter"), ("Coil", "Air gap", "Inverter")),
        (ELECTRIC, ("Commanded", "Isolation", "Inverter"), ("Belt", "Relay", "Coil")),
        (System(), ("Relay", "Coil", "Air gap"), ("Inverter",)),
    ],
)
def test_a_car_has_the_links_of_its_drive_and_ends_with_the_shaft(system, has, has_not):
    there = links(system)
    assert {*has} <= {*there}
    assert not {*has_not} & {*there}
    assert [*there][-1] == "Shaft turns"


def test_power_straight_at_the_coil_fills_nothing_upstream():
    told_by_coil = links(CLUTCHED, ("coil_power", "takes_hold"), ("coil_power", "takes_hold"))
    for words in ("A/C asked for", "Allowed", "Relay", "Fuse", "Feed wire", "Ground"):
        assert told_by_coil[words].state == "open", words


def test_a_shaft_that_was_turned_is_filled_with_the_step_that_showed_it():
    shaft = links(CLUTCHED, ("hub_turn", "free"))["Shaft turns"]
    assert shaft.state in ("passes", "likely")
    assert shaft.steps == (1,)


def test_a_shaft_nobody_turned_is_never_filled():
    others = ("coil_power", "takes_hold"), ("air_gap", "inside"), ("clutch_face", "even")
    assert links(CLUTCHED, *others)["Shaft turns"].state == "open"


def test_a_locked_shaft_stops_the_command_and_says_by_what():
    shaft = links(CLUTCHED, ("hub_turn", "locked"))["Shaft turns"]
    assert shaft.state in ("stops", "may_stop")
    assert shaft.why == "locked"


def test_a_link_that_is_ruled_out_without_a_look_at_it_is_not_filled():
    """As a relay is where the fuse was found blown: one answer of a variable leaves no other."""
    looked_at = found(CLUTCHED, ("hub_turn", "free"))
    left_over = replace(looked_at, spoken=frozenset())
    states = {
        link.words: link.state for group in path_of(CLUTCHED, left_over) for link in group.links
    }
    assert states["Shaft turns"] == "open"


def test_every_link_names_answers_that_some_car_can_have():
    named = [
        link
        for groups in (path.BY_CLUTCH, path.WITHOUT_CLUTCH, path.ELECTRIC)
        for _words, group in groups
        for link in group
    ]
    assert all(isinstance(link, Link) for link in named)
    for link in named:
        assert {*link.codes} <= {one.code for one in BY_NAME[link.variable].answers}


def test_a_fuse_without_a_look_at_it_says_that_current_flows_through_it():
    fuse = links(CLUTCHED, ("feed_voltage", "full"))["Fuse"]
    assert (fuse.state, fuse.by) == ("passes", "current flows through it: step 1")


def test_a_gap_that_was_measured_and_settles_nothing_is_not_called_untested():
    gap = links(CLUTCHED, ("air_gap", "far_wide"))["Air gap"]
    assert (gap.state, gap.by) == ("open", "tested, not settled: step 1")
    assert gap.said == "tested, not settled"
    assert links(CLUTCHED, ("air_gap", "inside"))["Air gap"].by == "step 1"


def test_a_face_that_was_looked_at_is_not_called_untested():
    face = links(CLUTCHED, ("clutch_face", "overheated"))["Friction face"]
    assert (face.state, face.by) == ("open", "tested, not settled: step 1")
