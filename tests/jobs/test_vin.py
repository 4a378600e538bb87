"""What is odd about a VIN as read."""

import json
from pathlib import Path

import pytest

from jobs.vin import VALID, calls_for_another_look, check_digit, mark, verdict

# [{"vin", "expected", "source"}]: shared with the page's own script (tests/browser).
SAMPLES = json.loads((Path(__file__).parent / "vins.json").read_text())


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda sample: sample["vin"])
def test_the_verdict_on_published_samples(sample):
    assert verdict(sample["vin"]) == sample["expected"], sample["source"]


def test_the_regulation_s_own_sample_has_check_digit_4():
    # 49 CFR 565, the table that calculates a check digit: sum 411, remainder 4.
    assert check_digit("1G4AH59H45G118341") == "4"


def test_lower_case_blanks_and_dashes_are_folded_for_the_check_only():
    assert verdict(" 1g4ah59h-45g 118341 ") == VALID
    assert mark("1g4ah59h45g118341") == ""


@pytest.mark.parametrize(
    ("vin", "sentence"),
    [
        ("1J9RP1A36A164434", "16 characters; a VIN has 17. Read it again."),
        ("1", "1 character; a VIN has 17. Read it again."),
        ("1J9RP1A36AI644345", "“I” is in no VIN (no I, O or Q). Read it again."),
        ("1J9RP1A36A16443４5", "“４” is in no VIN (no I, O or Q). Read it again."),
        (
            "1G4AH59H54G118341",
            "Its check digit does not fit: one character may be misread. Read it again.",
        ),
        (
            "WG4AH59H54G118341",
            "Its ninth character is no check digit; outside North America it need not be one.",
        ),
        ("", ""),
    ],
)
def test_the_sentence_says_what_is_odd(vin, sentence):
    assert mark(vin) == sentence


def test_outside_north_america_a_check_digit_calls_for_nothing():
    assert not calls_for_another_look("WG4AH59H54G118341")
    assert calls_for_another_look("1G4AH59H54G118341")
    assert calls_for_another_look("WG4AH59H")
    assert not calls_for_another_look("")
