"""Strips as they are drawn: everything inside, labels that do not run out of the drawing."""

import re

import pytest
from django.template import Context, Template
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.evidence.findings import Axis, Line, Plot, Spot, Strip, tick_words
from diagnostics.evidence.strips import range_strip, strip
from diagnostics.templatetags.drawings import side
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
    assert 'x1="79.0%"' in svg
    assert 'class="point" cx="97.0%"' in svg


def test_a_value_below_all_that_it_can_be_stands_past_a_break_at_the_left():
    told = readings(volts="-3")["volts"]
    assert not isinstance(told, str)
    svg = drawn(range_strip(number("volts"), told, {}))
    assert 'class="point" cx="3.0%"' in svg
    assert 'class="band" x="22.0%"' in svg
    assert 'x1="21.0%"' in svg


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


LINE = Axis("temperature", "°C", 10, 40, (10, 20, 30, 40))
DEPTH = Axis("depth", "micron", 100, 10_000, (100, 1_000, 10_000), log=True)


def plotted(lines=(), spots=(), x=LINE, y=DEPTH) -> str:
    one = Plot(x, y, tuple(lines), tuple(spots), "what it shows", "its limit")
    return Template("{% load drawings %}{% plot one %}").render(Context({"one": one}))


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6), st.floats(0, 1e6))
def test_whatever_is_plotted_lies_inside_the_plot(x, y, error):
    svg = plotted([Line(((x, y), (y, x)), "curve")], [Spot(x, y, "read", error, error)])
    assert all(0 <= place <= 100 for place in places(svg))
    corners = re.search(r'points="([^"]+)"', svg)
    assert corners
    assert all(0 <= float(one) <= 100 for one in re.split("[ ,]", corners[1]))


def test_each_power_of_ten_takes_the_same_room_on_a_log_axis():
    assert [DEPTH.percent(tick) for tick in DEPTH.ticks] == pytest.approx([0, 50, 100])


def test_a_plot_is_read_aloud_and_says_its_limit():
    svg = plotted([Line(((10, 100), (40, 200)), "water")], [Spot(20, 500, "500 micron")])
    assert 'aria-label="what it shows"' in svg
    assert "<figcaption" in svg
    assert "its limit" in svg
