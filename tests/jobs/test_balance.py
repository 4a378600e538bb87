"""The balance of a job's grams, against rows worked by hand and published figures."""

from datetime import UTC, datetime, timedelta

import pytest

from jobs.balance import Balance, Before, Flow, balance_of, share_of
from jobs.balance_told import heading, rows, sentences

G = 1000
T0 = datetime(2026, 5, 4, 8, tzinfo=UTC)
ROOM = 273.15 + 21


def flow(hour: float, grams: float, out: str, into: str, kind: str = "") -> Flow:
    """So many grams at an hour of the day; the hour is the work."""
    at = T0 + timedelta(hours=hour)
    return Flow(at, round(grams * G), out, into, kind, f"{hour}")


def out(hour: float, grams: float) -> Flow:
    return flow(hour, grams, "car", "cylinder")


def into(hour: float, grams: float, kind: str = "refillable") -> Flow:
    return flow(hour, grams, "cylinder", "car", kind)


def told(flows: list[Flow], label: int | None = 520, share: float | None = 0.95) -> Balance:
    """With the same machine for every piece of work."""
    mg = None if label is None else label * G
    return balance_of(flows, mg, {one.work: share for one in flows})


WHOLE = [out(1, 385), into(2, 385), into(2, 130, "new"), flow(2, 13, "cylinder", "hose", "new")]


def test_rows_are_those_of_the_drawing_worked_by_hand():
    """385 / 0.95 - 385 = 20.3; 520 - 405.3 = 114.7; 385 + 143 - 13 = 515."""
    assert [(row.words, row.number) for row in rows(told(WHOLE))] == [
        ("Label charge", "520\xa0g"),
        ("Recovered", "385\xa0g"),
        ("Unknown remainder", "up to 20\xa0g"),
        ("Missing", "at least 115\xa0g"),
        ("Charged, from a refillable cylinder", "385\xa0g"),
        ("Charged, new", "143\xa0g"),
        ("Left in the hose", "−\xa013\xa0g"),
        ("Charged into the car", "515\xa0g"),
    ]
    assert heading(told(WHOLE)) == "Every gram: 515\xa0g charged, label 520\xa0±\xa015\xa0g"


def test_each_row_begins_where_the_one_before_ended():
    ends = {row.code: (row.start, row.end) for row in rows(told(WHOLE))}  # of alike ones the last
    assert ends["recovered"] == (0, 385_000)
    assert ends["unknown"] == (385_000, 405_263)
    assert ends["missing"] == (405_263, 520_000)
    assert ends["drawn"] == (385_000, 528_000)
    assert ends["hose"] == (515_000, 528_000)
    assert ends["charged"] == (0, 515_000)


@pytest.mark.parametrize(
    ("grams", "machine", "celsius", "against"),
    [  # published bands: SAE J2762 on the older class (82 of 100 at 21 C), J2788:2020 (95 of 100)
        (290, "older", 21, "low"),
        (290, "newer", 21, "low"),
        (560, "older", 21, "perhaps"),  # 560 / 0.82 = 683 of 650
        (560, "newer", 21, "low"),  # 560 / 0.95 = 589
        (410, "older", 10, "low"),  # 410 / 0.70 = 586
        (700, "older", 21, "above"),
    ],
)
def test_what_is_missing_is_told_only_as_far_as_the_machine_lets_it_be(
    grams, machine, celsius, against
):
    share = share_of(machine, 273.15 + celsius, "R-134a")
    missing = told([out(1, grams)], 650, share).missing
    assert missing is not None
    assert missing.against == against


@pytest.mark.parametrize(
    ("machine", "kelvin", "gas"),
    [
        ("", ROOM, "R-134a"),
        ("older", None, "R-134a"),
        ("older", 275.0, "R-134a"),  # below 10 C no test is known
        ("older", ROOM, "R-744"),
        ("older", ROOM, ""),
    ],
)
def test_without_machine_temperature_or_known_gas_the_remainder_is_not_known(machine, kelvin, gas):
    assert share_of(machine, kelvin, gas) is None
    balance = told([out(1, 385)], share=share_of(machine, kelvin, gas))
    numbers = {row.code: row.number for row in rows(balance)}
    assert numbers["unknown"] == "not known"
    assert numbers["missing"] == "up to 135\xa0g"
    assert "at least" not in " ".join(numbers.values())


def test_a_second_pull_adds_to_the_first_and_has_its_own_row():
    balance = told([out(1, 370), out(1.5, 15)])
    assert [cycle.recovered for cycle in balance.cycles] == [385_000]
    named = [(row.words, row.start) for row in rows(balance) if row.code == "recovered"]
    assert named == [("Recovered, pull 1", 0), ("Recovered, pull 2", 370_000)]


def test_two_pulls_of_one_entry_are_told_apart_as_well():
    one = Flow(T0, 370 * G, "car", "cylinder", "", "r")
    other = Flow(T0, 15 * G, "car", "unnamed", "", "r")
    assert balance_of([one, other], None, {"r": 0.95}).cycles[0].pulls == (370_000, 15_000)


def test_of_two_machines_the_worse_one_bounds_what_is_left():
    balance = balance_of([out(1, 370), out(2, 15)], 520 * G, {"1": 0.95, "2": 0.82})
    assert balance.cycles[0].remainder == 84_512  # 385 / 0.82 - 385
    unknown = balance_of([out(1, 370), out(2, 15)], 520 * G, {"1": 0.95})
    assert unknown.cycles[0].remainder is None


def test_what_was_taken_out_after_a_charge_is_another_cycle_and_says_nothing_of_the_arrival():
    balance = told([*WHOLE, out(5, 500), into(6, 520, "new")])
    assert [cycle.into_car for cycle in balance.cycles] == [515_000, 520_000]
    assert [row.code for row in rows(balance)].count("missing") == 1
    assert balance.missing is not None
    assert balance.missing.most == 135_000


def test_a_car_charged_without_recovery_says_nothing_of_what_is_in_it():
    balance = told([into(1, 200)])
    assert balance.missing is None
    assert balance.charged is None
    assert "not known" in sentences(balance)[0]


def test_a_service_machine_that_does_all_at_one_moment_is_one_cycle():
    put_in = Flow(T0, 400 * G, "cylinder", "car", "machine", "m")
    taken_out = Flow(T0, 385 * G, "car", "cylinder", "", "m")
    (cycle,) = balance_of([put_in, taken_out], None, {"m": 0.95}).cycles
    assert (cycle.recovered, cycle.into_car) == (385_000, 400_000)


def test_what_flowed_back_into_the_hose_is_not_in_the_car():
    balance = told([out(1, 385), into(2, 528), flow(2, 13, "car", "hose")])
    assert balance.cycles[0].hose == 13_000
    assert balance.charged == 515_000


def test_missing_grams_are_never_called_a_leak():
    words = " ".join(sentences(told(WHOLE)))
    assert "it leaked out or was not in it; we cannot tell which" in words
    assert "it is not booked as lost" in words


def test_a_comeback_is_told_as_grams_a_day_between_both_ends():
    """650 g charged, 550 out 28 days later: 100 / 28 = 3.57; (650 - 550 / 0.95) / 28 = 2.54."""
    flows = [out(1, 550)]
    before = Before(650 * G, flows[0].at - timedelta(days=28))
    back = balance_of(flows, 650 * G, {"1": 0.95}, before).comeback
    assert back is not None
    assert (back.least, back.most) == (2538, 3571)
    balance = balance_of(flows, 650 * G, {"1": 0.95}, before)
    assert "2.5 to 3.6\xa0g a day" in sentences(balance)[1]


def test_a_comeback_with_an_unknown_machine_has_no_lower_end():
    before = Before(650 * G, T0 - timedelta(days=10))
    back = balance_of([out(0, 550)], None, {}, before).comeback
    assert back is not None
    assert (back.least, back.most) == (0, 10_000)


def test_a_comeback_with_more_out_than_was_charged_is_not_told_as_a_loss():
    before = Before(500 * G, T0 - timedelta(days=10))
    back = balance_of([out(0, 550)], None, {}, before).comeback
    assert back is not None
    assert (back.least, back.most) == (None, None)
    assert "More came out than was charged" in back.why


def test_nothing_moved_has_no_rows_and_no_sentences():
    empty = told([])
    assert (rows(empty), sentences(empty)) == ([], [])


def test_a_missing_label_is_said_and_held_against_nothing():
    balance = told(WHOLE, None)
    assert balance.missing is None
    assert "label not noted" in heading(balance)


def test_numbers_are_told_in_the_unit_of_the_shop():
    assert rows(told(WHOLE), "oz")[1].number == "13.6\xa0oz"


@pytest.mark.parametrize("grams", [0, 12])
def test_where_next_to_nothing_came_out_nothing_is_said_to_be_missing(grams):
    """A coupler that does not open the port's valve recovers nothing of a full loop either."""
    balance = told([out(1, grams), into(2, 520, "new")])
    assert balance.missing is not None
    assert balance.missing.against == "perhaps"
    assert "what was in the car is not known by this" in sentences(balance)[0]
    assert "at least" not in " ".join(row.number for row in rows(balance))


def test_a_loop_that_was_evacuated_and_charged_holds_what_went_in():
    flows = [into(3, 520, "new")]
    balance = balance_of(flows, 520 * G, {}, evacuated=[T0 + timedelta(hours=2)])
    assert balance.charged == 520_000
    assert "nobody weighed" in sentences(balance)[0]


def test_a_vacuum_before_an_earlier_charge_empties_no_later_one():
    flows = [into(3, 500, "new"), out(5, 480), into(6, 520)]
    balance = balance_of(flows, None, {}, evacuated=[T0 + timedelta(hours=2)])
    assert [one.evacuated for one in balance.cycles] == [True, False]
