"""How each thing to show stands: by the last test that speaks of it, and by nothing else."""

from typing import Any

from diagnostics.evidence.showable import Cold
from diagnostics.evidence.shown import Shown, Tapped, Tried, stand
from diagnostics.evidence.to_show import CAPS, ITEMS

BY_CODE = {one.code: one for one in ITEMS}
COLD = Cold(282.15, "9\u00a0°C", ("Cold.",), 288.15, "15\u00a0°C")


def made(kind: str, outcome: str = "", step: int = 5, **more: Any) -> Tried:
    return Tried(step, more.pop("state", 2), kind, "What it found.", outcome, **more)


def of(code: str, *tests: Tried, cold: Cold | None = None, **tapped: Tapped) -> Shown:
    changed = {"": 2, "clutch": 1, "charge": 2}
    [found] = stand([BY_CODE[code]], tests, changed, tapped, cold)
    return found


def test_what_no_test_spoke_of_is_not_shown_yet():
    assert of("fans").stands == "not_yet"


def test_a_test_that_found_nothing_wrong_shows_it_and_is_named():
    found = of("fans", made("condenser_fan", "runs"))
    assert (found.stands, found.step, found.because) == ("shown", 5, "Step 5: What it found.")


def test_a_test_that_found_something_is_not_in_order():
    assert of("fans", made("condenser_fan", "one_stands")).stands == "not_fine"


def test_the_last_test_counts():
    tests = made("condenser_fan", "runs", 5), made("condenser_fan", "backwards", 6)
    assert of("fans", *tests).stands == "not_fine"
    assert of("fans", *reversed(tests)).stands == "shown"


def test_a_test_that_told_nothing_shows_nothing():
    assert of("fans", made("condenser_fan", "nothing_told", tells=False)).stands == "not_yet"


def test_one_that_could_not_be_made_is_no_pass_and_says_why():
    found = of("fans", made("condenser_fan", not_done="No access. That is no result."))
    assert (found.stands, found.because) == ("could_not", "No access. That is no result.")


def test_what_was_made_before_the_last_change_counts_no_more_and_it_says_so():
    found = of("fans", made("condenser_fan", "runs", state=1))
    assert found.stands == "not_yet"
    assert "that counts no more" in found.because


def test_a_gap_counts_since_the_clutch_was_changed_whatever_was_done_to_the_loop_since():
    assert of("gap", made("air_gap", "inside", state=1)).stands == "shown"


def test_a_vent_under_other_conditions_is_made_but_not_comparable():
    told = made("vent_temperature", "colder", told={"branch": "front"}, unlike="Not alike.")
    found = of("vent_front", told)
    assert found.stands == "not_compared"
    assert found.because.endswith("Not alike.")
    alike = made("vent_temperature", "colder", told={"branch": "front"})
    assert of("vent_front", alike).stands == "shown"


def test_one_vent_shows_nothing_of_another_branch():
    assert of("vent_rear", made("vent_temperature", "colder", told={"branch": "front"})).stands == (
        "not_yet"
    )


def test_a_leak_search_without_a_pressure_shows_it_in_part_only():
    without = of("leak", made("leak_search", "none_found"))
    assert without.stands == "in_part"
    assert "pressure in the loop was not told" in without.because
    at_pressure = made("leak_search", "none_found", read=frozenset({"pressure"}))
    assert of("leak", at_pressure).stands == "shown"
    assert of("leak", made("leak_search", "part_searched")).stands == "in_part"


def test_cycling_is_shown_either_way_once_it_was_watched():
    for answer in ("yes", "no"):
        told = made("running_pressures", "inside", told={"cycles": answer})
        assert of("cycling", told).stands == "shown"
    assert of("cycling", made("running_pressures", "inside")).stands == "not_yet"


def test_the_clutch_takes_hold_by_what_was_seen_and_a_shaft_that_turns_shows_a_part():
    assert of("takes_hold", made("complaint_seen", told={"engages": "yes"})).stands == "shown"
    turns = made("running_pressures", told={"shaft": "yes"})
    assert of("takes_hold", turns).stands == "in_part"  # nobody looked at the plug
    engages = made("complaint_seen", told={"engages": "yes"})
    assert of("takes_hold", engages, turns).stands == "shown"
    seen = of("takes_hold", made("complaint_seen", told={"engages": "no"}))
    assert (seen.stands, seen.because) == (
        "not_fine",
        "Step 5: the compressor does not engage.",
    )
    unsure = made("complaint_seen", told={"engages": "cannot_tell"})
    assert of("takes_hold", unsure).stands == "not_yet"


def test_in_the_cold_what_needs_warmth_could_not_be_and_the_rest_may_still_be_shown():
    assert of("vent_front", cold=COLD).stands == "could_not"
    assert of("vent_front", cold=COLD).because == "Too cold: 9\u00a0°C."
    assert of("fans", cold=COLD).stands == "not_yet"
    assert of("gap", made("air_gap", "inside"), cold=COLD).stands == "shown"


def test_no_click_in_the_cold_is_no_fault():
    found = of("takes_hold", made("complaint_seen", told={"engages": "no"}), cold=COLD)
    assert found.stands == "could_not"
    assert "does not engage" in found.because


def test_what_takes_hold_in_the_cold_all_the_same_is_shown():
    seen = made("complaint_seen", told={"engages": "yes"})
    assert of("takes_hold", seen, cold=COLD).stands == "shown"


def test_caps_stand_as_tapped_until_the_loop_is_worked_on_again():
    on = Tapped("shown", "Both on.", 2)
    assert of(CAPS, caps=on).stands == "shown"
    assert of(CAPS, caps=Tapped("shown", "Both on.", 1)).stands == "not_yet"
    assert of(CAPS).stands == "not_yet"
    assert of(CAPS, caps=Tapped("not_fine", "One is missing.", 2)).stands == "not_fine"
