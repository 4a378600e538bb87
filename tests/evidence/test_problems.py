"""Odd readings and broken orders: asked about or marked, never refused."""

import pytest

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Choice
from diagnostics.evidence.readings import parse
from tests.evidence.cases import GOOD, HOLDS, KIND, SPECIFIED, code, meaning, number, readings


def problems(system=SPECIFIED, kept=None, /, **typed):
    return KIND.problems(readings(**typed), Circumstances(system), kept)


def test_a_slipped_point_asks_and_a_reason_turns_it_into_a_mark():
    (asked,) = problems(**(HOLDS | {"volts": "17.2"}))["volts"]
    assert (asked.code, asked.weight) == ("outside", "ask")
    assert asked.sentence == "Outside what a 12 V car shows."
    assert asked.asks == "Type it again, or keep it and say why."
    (kept,) = problems(SPECIFIED, {"volts": "charger on"}, **(HOLDS | {"volts": "17.2"}))["volts"]
    assert kept.weight == "mark"


def test_what_is_outside_a_12_volt_car_is_usual_in_a_24_volt_vehicle():
    assert "volts" not in problems({"voltage": "24"}, **(HOLDS | {"volts": "26.4"}))
    assert "volts" in problems({"voltage": "12"}, **(HOLDS | {"volts": "26.4"}))


@pytest.mark.parametrize(
    ("name", "typed", "words"),
    [
        ("volts", "123.8", "Above 60 V"),
        ("amps", "305", "mA read as A"),
        ("temperature", "-300", "No car is colder"),
        ("temperature", "480", "a winding has burnt"),
    ],
)
def test_what_cannot_be_names_the_physical_fault_and_feeds_no_computation(name, typed, words):
    (found,) = problems(**(HOLDS | {name: typed}))[name]
    assert found.code == "impossible"
    assert words in found.sentence
    with_it, without = meaning(**(HOLDS | {name: typed})), meaning(**(HOLDS | {name: ""}))
    assert (with_it.outcome.code, with_it.strip) == (without.outcome.code, without.strip)
    standings = [
        [(mark.subject, mark.standing) for mark in one.outcome.marks] for one in (with_it, without)
    ]
    assert standings[0] == standings[1]
    assert with_it.notes[0].endswith("kept as typed, not used.")


def test_every_problem_is_found_at_once_by_field():
    found = problems(volts="123.8", amps="11", engine="running", holds="slips", lets_go="yes")
    assert set(found) == {"volts", "amps", "hub", "lets_go"}


def test_slipping_with_the_engine_off_cannot_be_and_counts_for_nothing():
    (found,) = problems(**GOOD, holds="slips")["holds"]
    assert found.code == "not_offered"
    assert "engine running" in found.sentence
    assert code(**GOOD, holds="slips") == "current_only"


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"holds": "no", "lets_go": "yes"}, "lets_go"),
        ({"holds": "yes", "pushed": "yes"}, "pushed"),
        ({"holds": "no", "pushed": "yes", "engine": "running", "hub": "free"}, "pushed"),
        ({"hub": "free"}, "hub"),
        ({"holds": "yes", "fuse": "yes"}, "fuse"),
    ],
)
def test_an_answer_to_what_was_not_asked_is_said_so_and_counts_for_nothing(typed, name):
    (found,) = problems(**(GOOD | typed))[name]
    assert found.code == "not_asked"
    without = {key: told for key, told in typed.items() if key != name}
    assert meaning(**(GOOD | typed)).outcome == meaning(**(GOOD | without)).outcome


def test_an_answer_that_is_not_in_the_list_is_marked_and_not_asked_about():
    (found,) = KIND.problems({"magnet": "maybe"}, Circumstances(SPECIFIED))["magnet"]
    assert (found.code, found.weight) == ("unknown_answer", "mark")
    assert found.sentence == (
        "Typed on an older or newer page: “maybe” is not among the answers to “Magnet felt at the"
        " pulley face?”; it is kept as typed and used for nothing."
    )


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"holds": "perhaps", "lets_go": "yes"}, "lets_go"),
        ({"engine": "coasting", "holds": "slips"}, "holds"),
    ],
)
def test_nothing_is_asked_of_what_hangs_on_an_answer_that_is_not_in_the_list(typed, name):
    (found,) = problems(**(GOOD | typed))[name]
    assert found.weight == "mark"
    without = {key: told for key, told in typed.items() if key == "engine"}
    assert meaning(**(GOOD | typed)).outcome == meaning(**(GOOD | without)).outcome


@pytest.mark.parametrize("hub", ["not_free", "not_done", ""])
def test_power_with_the_engine_running_before_a_free_hub_is_marked_not_refused(hub):
    found = problems(**HOLDS, engine="running", hub=hub)
    assert [(one.code, one.weight) for one in found["hub"]] == [("gate", "mark")]
    assert code(**HOLDS, engine="running", hub=hub) == "takes_hold"


def test_with_a_free_hub_the_engine_may_run():
    assert problems(**HOLDS, engine="running", hub="free") == {}
    assert not KIND.gates[0].is_broken(readings(**HOLDS))


def test_slips_is_offered_only_with_the_engine_running():
    holds = KIND.asked("holds")
    assert isinstance(holds, Choice)
    assert [answer.code for answer in holds.answers if answer.when] == ["slips"]


def test_a_value_typed_with_its_unit_reads_as_one_without():
    units = number("volts").units
    assert parse("12,4 V", units, "V").si == parse("12.4", units, "V").si
