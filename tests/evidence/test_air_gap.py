"""The air gap: held to the vehicle's limits, too small as much a fault as too wide.

0.3 to 0.8 mm plausible, three to six points, too wide works cold and quits hot, too small drags:
trade articles. Sums of shims are done by hand. Feeler gauge ±0.025 mm: our judgement.
"""

import pytest

from diagnostics.evidence.fields import Number
from diagnostics.evidence.gap_read import GAPS
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

GAP = Trial("air_gap")
GENERAL: System = {"drive": "belt_clutch", "voltage": "12"}
OWN: System = GENERAL | {"gap_low_m": 0.00035, "gap_high_m": 0.00065, "gap_source": "label"}


def points(*read: str) -> dict[str, str]:
    return dict(zip(GAPS, read, strict=False))


WIDE = points("0.80", "0.85", "0.92")
PATTERNS: list[tuple[System, dict[str, str], str]] = [
    (OWN, points("0.45", "0.50", "0.55"), "inside"),
    (OWN, points("0.018 in", "0.019 in", "0.020 in"), "inside"),  # 0.457 to 0.508 mm
    (GENERAL, points("0.50", "0.50", "0.50", "0.50", "0.50", "0.50"), "inside"),
    (OWN, WIDE, "too_wide"),
    (OWN, points("0.90"), "too_wide"),  # one point outside is outside
    (OWN, points("1.20", "1.20", "1.25"), "far_wide"),  # beyond 1.5 x 0.65
    (OWN, points("0.10", "0.15", "0.15"), "too_small"),
    (OWN, points("0", "0.1", "0.1"), "too_small"),
    (OWN, points("0.20", "0.50", "0.80"), "uneven"),
    (OWN, points("0.50", "0.60", "0.90"), "uneven"),  # 0.4 mm of wobble, limits 0.3 mm apart
    (OWN, points("0.36", "0.50", "0.50"), "cannot_tell"),  # 0.33 to 0.39 about the edge of 0.35
    (OWN, points("0.50", "0.50"), "nothing_told"),
    (OWN, {"shims": "none"}, "nothing_told"),
]


@pytest.mark.parametrize(("system", "typed", "outcome"), PATTERNS)
def test_each_gap_has_its_outcome(system, typed, outcome):
    assert GAP.code(system, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for *_rest, outcome in PATTERNS} == {one.code for one in GAP.kind.outcomes}


def test_the_vehicles_own_limits_go_before_what_clutches_usually_have():
    typed = points("0.70", "0.70", "0.70")
    assert GAP.code(GENERAL, **typed) == "inside"
    own = GAP.meaning(OWN, **typed)
    assert (own.outcome.code, own.outcome.basis) == ("too_wide", "vehicle")
    assert own.band.startswith("This vehicle’s own, label: 0.35–0.65\u00a0mm")
    assert "trade articles; not a limit" in GAP.meaning(GENERAL, **typed).band


def test_by_what_clutches_usually_have_a_gap_just_outside_points_at_nothing():
    result = GAP.meaning(GENERAL, **points("0.90", "0.90", "0.90"))
    assert subjects(result, "likely", "proved") == []
    assert any("Look up this vehicle’s own limits" in note for note in result.notes)
    far = GAP.meaning(GENERAL, **points("1.40", "1.40", "1.40"))
    assert standing(far, "Gap too wide") == "likely"


def test_inside_of_what_clutches_usually_have_rules_nothing_out():
    result = GAP.meaning(GENERAL, **points("0.45", "0.50", "0.55"))
    assert subjects(result, "ruled_out") == []
    assert standing(result, "Gap too wide or too small") == "open"
    assert "this vehicle’s own limits are not known" in result.outcome.marks[0].sentence
    own = GAP.meaning(OWN, **points("0.45", "0.50", "0.55"))
    assert standing(own, "Gap too wide or too small") == "ruled_out"


@pytest.mark.parametrize("read", [("0.90", "0.95", "1.00"), ("0.10", "0.15", "0.15")])
def test_without_the_vehicles_own_limits_no_shim_figure_is_told(read):
    result = GAP.meaning(GENERAL, **points(*read), **shims(fitted_1="0.30", spare_1="0.30"))
    assert result.notes[0] == "Look up this vehicle’s own limits before any shim is moved."
    said = [one for one in (*result.notes, *result.onward) if "him" in one]
    assert said == [result.notes[0]]
    assert any("to this vehicle’s own limits" in one for one in result.onward)


def test_only_the_vehicles_own_limits_are_called_limits_of_a_gap_that_differs():
    typed = points("0.20", "0.50", "0.90")
    assert GAP.code(GENERAL, **typed) == "uneven"
    words = GAP.words(GENERAL, **typed)
    assert "its limits allow" not in words
    assert "the limits are apart" not in words
    assert "the 0.30–0.80\u00a0mm that clutches usually have" in words
    assert "its limits allow" in GAP.words(OWN, **typed)


def test_a_gap_outside_the_vehicles_limits_is_shown_by_measuring_it():
    result = GAP.meaning(OWN, **WIDE)
    assert standing(result, "Gap too wide") == "proved"
    assert "measured 0.92\u00a0mm, allowed 0.35–0.65\u00a0mm." in result.outcome.marks[0].sentence
    assert any("works cold and quits hot" in note for note in result.notes)


def test_wear_is_what_widens_a_gap():
    assert "wear is what widens a gap" in GAP.words(OWN, **WIDE)


def test_too_small_is_a_fault_too_and_names_the_bearing():
    result = GAP.meaning(OWN, **points("0.10", "0.15", "0.15"))
    assert standing(result, "Gap too small") == "proved"
    words = " ".join(words_of(result))
    assert "may not release" in words
    assert "bearing loses its grease" in words


# Mistake: shims removed below the minimum gap.


def shims(**typed: str) -> dict[str, str]:
    return {"shims": "fitted"} | typed


def test_how_much_comes_out_is_told_with_what_remains():
    # 0.92 - 0.65 = 0.27 at least; 0.80 - 0.35 = 0.45 at most. 0.30 out leaves 0.50 to 0.62.
    notes = GAP.meaning(OWN, **WIDE, **shims(fitted_1="0.30", fitted_2="0.10")).notes
    assert notes[0] == "Shims to take out: 0.27–0.45\u00a0mm in all, never more."
    assert notes[1] == (
        "Take out 0.30\u00a0mm: 0.50–0.62\u00a0mm remains, at least 0.35\u00a0mm allowed."
    )


def test_no_shim_is_taken_out_below_the_smallest_gap():
    words = GAP.words(OWN, **WIDE, **shims(fitted_1="0.50", fitted_2="0.60"))
    assert "Take out" not in words
    assert "none is taken out below the smallest gap" in words


def test_a_thick_shim_may_be_changed_for_a_thinner_one():
    # 0.60 out and 0.20 in: 0.40 less, 0.40 to 0.52 remains
    words = GAP.words(OWN, **WIDE, **shims(fitted_1="0.60", spare_1="0.20"))
    assert "Take out 0.60\u00a0mm, put in 0.20\u00a0mm: 0.40–0.52\u00a0mm remains" in words


def test_a_small_gap_gets_shims_put_in():
    typed = points("0.10", "0.15", "0.15") | {"shims": "none", "spare_1": "0.30"}
    words = GAP.words(OWN, **typed)
    assert "Shims to put in: 0.25–0.50\u00a0mm in all." in words
    assert "Put in 0.30\u00a0mm: 0.40–0.45\u00a0mm remains" in words


def test_with_no_shim_left_the_wear_is_in_the_parts():
    result = GAP.meaning(OWN, **WIDE, shims="none")
    assert "No shim is left to take out" in result.onward[0]


def test_a_gap_inside_says_nothing_of_shims():
    assert "him" not in " ".join(GAP.meaning(OWN, **points("0.45", "0.5", "0.55")).notes)


def test_limits_that_a_gap_cannot_have_are_not_used():
    turned: System = GENERAL | {"gap_low_m": 0.00065, "gap_high_m": 0.00035}
    assert GAP.meaning(turned, **WIDE).outcome.basis == "general"


# Wobble, and how many points.


def test_a_wobble_wider_than_the_limits_is_no_matter_of_shims():
    result = GAP.meaning(OWN, **points("0.50", "0.60", "0.90"))
    assert standing(result, "Hub bent, or pulley’s bearing") == "likely"
    assert any("No shim brings all points inside" in note for note in result.notes)


def test_a_wobble_is_told_and_held_to_no_limit():
    [note] = GAP.meaning(OWN, **points("0.45", "0.50", "0.55")).notes
    assert note.startswith("It differs by 0.10\u00a0mm around")
    assert "no limit is held to that" in note


def test_fewer_than_three_points_are_never_inside():
    result = GAP.meaning(OWN, **points("0.50", "0.50"))
    assert not result.outcome.carries
    assert "Wobble: not told by fewer than 3 points." in result.outcome.not_tested


def test_smallest_largest_and_wobble_show_from_the_third_point_on():
    shown = [(one.words, one.shown) for one in GAP.meaning(OWN, **WIDE).values]
    assert shown == [
        ("Smallest", "0.80\u00a0mm"),
        ("Smallest", "0.0315\u00a0in"),
        ("Largest", "0.92\u00a0mm"),
        ("Largest", "0.0362\u00a0in"),
        ("Wobble", "0.12\u00a0mm"),
    ]
    assert GAP.meaning(OWN, **points("0.80", "0.85")).values == ()


def test_points_show_up_one_after_another_and_the_third_is_not_kept_for_the_hub():
    asked = [one for one in GAP.kind.numbers if one.name in GAPS]
    assert [one.after for one in asked] == ["", *GAPS[:-1]]
    assert all(one.compact and one.others == ("in",) for one in asked)


def test_shims_are_asked_only_where_it_is_set_by_them():
    assert GAP.asks(OWN, fitted_1="0.3", shims="other") != {}
    assert GAP.asks(OWN, fitted_1="0.3", shims="fitted") == {}
    assert GAP.asks(OWN, spare_1="0.3", shims="none") == {}


@pytest.mark.parametrize("typed", ["-0.1", "12"])
def test_a_gap_no_clutch_has_is_kept_as_typed_and_not_used(typed):
    result = GAP.meaning(OWN, **points("0.50", typed, "0.50", "0.50"))
    assert result.outcome.code == "inside"
    assert any("kept as typed, not used" in one for one in result.outcome.not_tested)


def test_millimeters_typed_for_inches_are_asked_about():
    number = GAP.kind.asked("gap_1")
    assert isinstance(number, Number)
    assert "inches" in GAP.asks(OWN, gap_1="5")["gap_1"][0]


@pytest.mark.parametrize(
    ("read", "asked"),
    [
        (("0.088", "0.85", "0.90"), ["gap_1"]),
        (("0.85", "8.8", "0.90"), ["gap_2"]),
        (("0.85", "0.90", "0.085", "0.85"), ["gap_3"]),
        (("0.088", "0.85"), ["gap_1", "gap_2"]),  # which of two slipped is not known
        (("0.20", "0.50", "0.80"), []),  # a bent hub
        (("0.18", "0.90", "0.90"), []),  # a fifth of 0.90 is not less than a fifth
        (("0", "0.1", "0.1"), []),  # no slipped point makes nothing of a gap
    ],
)
def test_a_slipped_decimal_beside_the_other_points_is_asked_about(read, asked):
    told = GAP.asks(OWN, **points(*read))
    assert [name for name in told if any("our judgement" in one for one in told[name])] == asked


def test_of_a_gap_with_a_slipped_decimal_nothing_is_made():
    result = GAP.meaning(OWN, **points("0.088", "0.85", "0.90"))
    assert not result.outcome.carries
    assert "0.088\u00a0mm" in result.notes[0]


@pytest.mark.parametrize("drive", ["belt_clutchless", "electric_hv", "electric_48"])
def test_it_is_barred_without_a_clutch_and_says_nothing_there(drive):
    assert GAP.kind.forbids({"drive": drive})
    assert not GAP.meaning({"drive": drive}, **WIDE).outcome.carries


def test_a_gap_is_as_it_is_whether_the_car_fails_or_not():
    typed = points("0.50", "0.50", "0.50")
    assert GAP.meaning(OWN, **typed).outcome.carries
    assert GAP.meaning(OWN, failing="no", **typed).outcome.carries


def test_the_new_part_is_measured_before_it_is_fitted():
    assert "Measure the gap of a new part before it is fitted." in GAP.meaning(OWN, **WIDE).onward


def test_it_is_measured_with_the_engine_off_and_no_power_at_the_coil():
    words = " ".join(GAP.kind.cautions)
    assert "Engine off" in words
    assert "No power at the coil" in words
