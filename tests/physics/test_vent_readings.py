"""Vent temperatures: which two may be compared. The trade's list of conditions, limits ours."""

import math
from dataclasses import fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.physics.uncertainty import Measured
from diagnostics.physics.vent_readings import (
    HUMIDITY_WORDS,
    NAMES,
    VentConditions,
    compare_conditions,
    vent_change,
)

BEFORE = VentConditions(303.15, 0.6, 25.0, "max", "closed", "recirculated", 900.0)


def compared(**changed):
    return compare_conditions(BEFORE, replace(BEFORE, **changed))


def test_every_condition_has_a_name_in_words():
    assert set(NAMES) == {one.name for one in fields(VentConditions)}


def test_the_same_conditions_are_comparable():
    found = compared()
    assert found.verdict == "comparable"
    assert found.why == ()


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"ambient": 295.15}, "Ambient temperature: 30\u00a0°C and 22\u00a0°C."),
        ({"humidity": 0.45}, "Humidity: 60\u00a0% and 45\u00a0%."),
        ({"humidity": "muggy"}, "Humidity: 60\u00a0% and muggy."),
        ({"speed": 13.0}, "Engine speed: 1\u00a0500\u00a0rpm and 780\u00a0rpm."),
        ({"fan": "2"}, "Fan step: max and 2."),
        ({"doors": "open"}, "Doors and windows: closed and open."),
        ({"recirculation": "fresh"}, "Recirculation: recirculated and fresh."),
        ({"run": 180.0}, "Minutes run: 15\u00a0min and 3\u00a0min."),
    ],
)
def test_one_condition_that_differs_is_enough_and_is_named(changed, words):
    found = compared(**changed)
    assert found.verdict == "not_comparable"
    assert found.why == (words,)


@pytest.mark.parametrize("name", NAMES)
def test_a_condition_that_was_not_noted_is_not_a_condition_kept(name):
    found = compared(**{name: None})
    assert found.verdict == "cannot_tell"
    assert found.why == (f"{NAMES[name]}: not noted for the second.",)
    nothing = replace(BEFORE, **{name: None})
    assert compare_conditions(nothing, nothing).why == (f"{NAMES[name]}: noted for neither.",)


@pytest.mark.parametrize(
    "changed",
    [
        {"ambient": 305.9}, {"humidity": 0.69}, {"humidity": "normal"}, {"speed": 27.0},
        {"fan": "MAX "}, {"run": 3_600.0},
    ],
)  # fmt: skip
def test_small_differences_count_as_the_same(changed):
    assert compared(**changed).verdict == "comparable"


def test_dry_and_muggy_are_not_the_same_air():
    dry, muggy = (replace(BEFORE, humidity=word) for word in ("dry", "muggy"))
    assert compare_conditions(dry, muggy).verdict == "not_comparable"
    assert compare_conditions(dry, dry).verdict == "comparable"


humidities = st.one_of(st.floats(0, 1), st.sampled_from(tuple(HUMIDITY_WORDS)))
CONDITIONS = st.builds(
    VentConditions,
    st.one_of(st.none(), st.floats(250, 330)),
    st.one_of(st.none(), humidities),
    st.one_of(st.none(), st.floats(0, 100)),
    st.sampled_from((None, "", "1", "max")),
    st.sampled_from((None, "open", "closed")),
    st.sampled_from((None, "fresh", "recirculated")),
    st.one_of(st.none(), st.floats(0, 4_000)),
)


@given(CONDITIONS, CONDITIONS)
def test_comparing_goes_both_ways_alike(one, other):
    there, back = compare_conditions(one, other), compare_conditions(other, one)
    assert there.verdict == back.verdict
    assert (len(there.differs), len(there.missing)) == (len(back.differs), len(back.missing))


@given(CONDITIONS)
def test_a_reading_never_differs_from_itself(one):
    assert compare_conditions(one, one).differs == ()


@pytest.mark.parametrize(
    ("changed", "fault"),
    [
        ({"ambient": -1.0}, Impossible), ({"humidity": 1.3}, Impossible),
        ({"speed": -1.0}, Impossible), ({"run": -1.0}, Impossible),
        ({"ambient": math.nan}, Malformed), ({"humidity": "wet"}, Malformed),
    ],
)  # fmt: skip
def test_conditions_that_cannot_be_are_refused(changed, fault):
    with pytest.raises(fault):
        replace(BEFORE, **changed)


@pytest.mark.parametrize(
    ("before", "after", "way"),
    [(285.15, 280.15, "colder"), (280.15, 285.15, "warmer"), (283.15, 281.65, "no_change")],
)
def test_a_change_smaller_than_the_thermometers_is_none(before, after, way):
    assert vent_change(Measured(before, 1.15), Measured(after, 1.15))[1] == way
