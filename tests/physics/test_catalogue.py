"""All computations: every table is merged, names are unique, each description is whole."""

import math
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from diagnostics.physics import computations
from diagnostics.physics.computations import catalogue
from diagnostics.physics.computations.answer import OURS, answer
from diagnostics.physics.computations.catalogue import COMPUTATIONS
from diagnostics.physics.computations.computation import Computation, Input
from diagnostics.physics.units import UNITS, to_si

FOLDER = Path(computations.__path__[0])
TABLES = sorted(
    path.stem
    for path in FOLDER.glob("*.py")
    if path.stem != "catalogue" and re.search(r"^COMPUTATIONS\b", path.read_text(), re.MULTILINE)
)
EACH = pytest.mark.parametrize("computation", COMPUTATIONS.values(), ids=COMPUTATIONS)


def test_there_are_tables_of_subjects():
    assert {"units", "saturation", "humid_air"} <= set(TABLES)


@pytest.mark.parametrize("subject", TABLES)
def test_every_table_beside_the_catalogue_is_merged(subject):
    table = getattr(catalogue, subject, None)
    assert table is not None, f"catalogue.py does not import {subject}"
    assert all(COMPUTATIONS.get(one.name) is one for one in table.COMPUTATIONS)


def test_no_two_computations_share_a_name():
    names = [one.name for name in TABLES for one in getattr(catalogue, name).COMPUTATIONS]
    assert sorted(names) == sorted(set(names))


@EACH
def test_a_computation_describes_itself_whole(computation: Computation):
    assert re.fullmatch(r"[a-z][a-z0-9_]*", computation.name)
    assert computation.words
    assert computation.source
    assert computation.unit == "" or computation.unit in UNITS
    names = [one.name for one in computation.inputs]
    assert len(names) == len(set(names))
    assert not {"name", "inputs"} & set(names)  # what a line of JSON calls otherwise


@EACH
def test_an_input_has_words_and_a_range_and_says_gauge_or_absolute(computation: Computation):
    for one in computation.inputs:
        assert one.words
        assert one.unit == "" or one.unit in UNITS
        assert not one.unit or (one.low is not None or one.high is not None)
        pressure = bool(one.unit) and UNITS[one.unit].quantity == "pressure"
        assert one.reference in (("", "gauge", "absolute") if pressure else ("",))
        if one.answers and one.default not in (None, ""):
            assert one.default in one.answers


def value_of(one: Input) -> st.SearchStrategy[Any]:
    """A value inside the range, in SI; what may be left out, left out now and then."""
    if one.answers:
        values: st.SearchStrategy[Any] = st.sampled_from(one.answers)
    elif one.low is None and one.high is None:
        values = st.sampled_from(("1", "20 °C", "5 psi", "kPa", "0.5", "max", 3.5))
    else:
        low, high = (one.low or 0.0, one.high if one.high is not None else 1e6)
        edges = [to_si(edge, one.unit) if one.unit else edge for edge in (low, high)]
        values = st.floats(min(edges), max(edges))
    return values if one.default is None else st.one_of(st.none(), values)


@EACH
@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_whatever_is_told_comes_back_as_an_answer_or_as_a_sentence(computation, data):
    told = {one.name: data.draw(value_of(one), one.name) for one in computation.inputs}
    found = answer(computation.name, told)
    if "error" in found:
        assert found["error"] != "not_computed", found["sentence"]
        assert found["sentence"].endswith(".")
        return
    assert math.isfinite(found["value"])
    assert found["meaning"].endswith(".")
    assert found["uncertainty"] is None or found["uncertainty"] >= 0


@EACH
@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_nonsense_comes_back_as_a_sentence_and_never_as_a_fault_of_ours(computation, data):
    nonsense = st.one_of(
        st.floats(), st.text(max_size=12), st.integers(), st.none(), st.booleans(), st.just([1])
    )
    told = {one.name: data.draw(nonsense, one.name) for one in computation.inputs}
    found = answer(computation.name, told)
    assert OURS not in found.get("sentence", "")
    assert found.get("error", "") != "not_computed"
