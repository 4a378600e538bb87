"""Strips as they are drawn: everything inside, labels that do not run out of the drawing."""

import re

import pytest
from django.template import Context, Template
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.evidence.findings import Strip
from diagnostics.evidence.strips import range_strip, strip
from diagnostics.templatetags.drawings import side, tick_words
from tests.evidence.cases import number, readings


def drawn(one: Strip) -> str:
    return Template("{% load drawings %}{% strip one %}").render(Context({"one": one}))


def places(svg: str) -> list[float]:
    return [float(found) for found in re.findall(r'c?x[12]?="([-\d.]+)%"', svg)]


AMPS = st.floats(0, 100)


@given(AMPS, AMPS, AMPS, st.floats(0, 5))
def test_whatever_is_drawn_lies_inside_the_drawing(point, one, other, error):
    svg = drawn(strip("A", point, "x", error, (min(one, other), max(one, other))))
    assert all(0 <= place <= 100 for place in places(svg))


def test_a_strip_is_read_aloud_with_value_and_band():
    svg = drawn(strip("A", 3.05, "3.05\u00a0A", 0.1, (2.93, 3.28), 2))
    assert 'role="img" aria-label="3.05\u00a0A, expected 2.93–3.28"' in svg


def test_a_strip_without_a_band_draws_none():
    assert "band" not in drawn(strip("A", 3.05, "3.05\u00a0A"))


def test_a_value_off_the_scale_stands_past_a_break():
    volts = number("volts")
    told = readings(volts="123.8")["volts"]
    assert not isinstance(told, str)
    svg = drawn(range_strip(volts, told, {}))
    assert 'x1="79%"' in svg
    assert 'class="point" cx="97.0%"' in svg


@pytest.mark.parametrize(
    ("ticks", "words"),
    [
        ((0.0, 4.0, 8.0), ["0", "4", "8"]),
        ((2.8, 2.9, 3.0), ["2.8", "2.9", "3.0"]),
        ((0.05, 0.1), ["0.05", "0.10"]),
    ],
)
def test_ticks_have_as_many_decimals_as_their_neighbors_need(ticks, words):
    assert [tick_words(tick, ticks) for tick in ticks] == words


@pytest.mark.parametrize(("place", "hangs"), [(5, "start"), (50, "middle"), (97, "end")])
def test_a_label_near_an_end_hangs_inwards(place, hangs):
    assert side(place) == hangs
