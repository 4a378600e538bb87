import pytest

from diagnostics.evidence.options.lines import OPERATIONS, PARTS
from diagnostics.evidence.options.option import in_words
from diagnostics.evidence.options.prices import (
    KINDS,
    MILLION,
    PartPrice,
    Tax,
    Typed,
    cost_now,
    rounded,
)
from diagnostics.evidence.options.repairs import OPTIONS
from tests.evidence.options.there import there

COIL = Typed(rate=12_000, minutes={"clutch_in_car": 95}, parts={"coil": PartPrice(8_640, "new")})
FILLED = {"refrigerant": 650_000, "oil": 60_000, "dye": 5_000}
FULL = Typed(
    rate=12_000,
    minutes=dict.fromkeys(OPERATIONS, 30),
    parts={code: PartPrice(10_000, "new") for code in PARTS},
    fluid_price={"refrigerant": 9_000, "oil": 4_000, "dye": 20_000},
    fluids=FILLED,
)


def chosen(*codes):
    return [OPTIONS[code] for code in codes]


def test_hours_at_the_rate_and_parts_come_to_a_total():
    assert cost_now(chosen("coil"), COIL).total == 95 * 12_000 // 60 + 8_640


def test_refrigerant_is_priced_by_the_kilogram_and_oil_by_the_liter():
    lines = {line.code: line for line in cost_now(chosen("charge_dye"), FULL).lines}
    assert lines["refrigerant"].amount == 650 * 9_000 // 1000
    assert lines["oil"].amount == 60 * 4_000 // 1000


def test_an_operation_that_two_repairs_share_is_paid_once():
    clutch, compressor = (
        cost_now(chosen(code), FULL) for code in ("clutch_unbolted", "compressor")
    )
    both = cost_now(chosen("clutch_unbolted", "compressor"), FULL)
    assert [line.code for line in both.lines].count("unbolt") == 1
    assert there(both.total) == there(clutch.total) + there(compressor.total) - 30 * 12_000 // 60


def test_two_repairs_of_the_loop_are_filled_once():
    both = cost_now(chosen("leak_hose", "condenser"), FULL)
    codes = [(line.kind, line.code) for line in both.lines]
    assert len(codes) == len(set(codes))
    assert {("labor", "recover"), ("labor", "charge"), ("refrigerant", "oil")} <= set(codes)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        (Typed(rate=12_000, minutes={"clutch_in_car": 95}), "Price of “Clutch coil” not typed."),
        (Typed(minutes={"clutch_in_car": 95}, parts=COIL.parts), "Price of an hour not typed."),
        (
            Typed(rate=12_000, parts=COIL.parts),
            "Hours of “Clutch parts off and on, compressor in its place” not typed.",
        ),
    ],
)
def test_what_was_not_typed_is_missing_and_never_zero(typed, sentence):
    cost = cost_now(chosen("coil"), typed)
    assert cost.total is None
    assert cost.missing == (sentence,)


@pytest.mark.parametrize("option", OPTIONS.values(), ids=OPTIONS)
def test_with_nothing_typed_only_nothing_costs_nothing(option):
    cost = cost_now([option], Typed())
    assert (cost.total is None) == bool(option.operations)
    assert len(cost.missing) == len(cost.lines)


@pytest.mark.parametrize("option", OPTIONS.values(), ids=OPTIONS)
def test_leaving_out_any_one_price_leaves_no_total(option):
    assert cost_now([option], FULL).total is not None
    for line in cost_now([option], FULL).lines:
        fields = {"labor": "minutes", "parts": "parts", "refrigerant": "fluids"}
        name = fields[line.kind]
        kept = {code: much for code, much in getattr(FULL, name).items() if code != line.code}
        typed = Typed(**{**vars(FULL), name: kept})
        assert cost_now([option], typed).total is None


def test_a_price_of_zero_that_was_typed_is_a_price():
    typed = Typed(rate=0, minutes={"clutch_in_car": 95}, parts={"coil": PartPrice(0, "used")})
    assert cost_now(chosen("coil"), typed).total == 0


def test_a_part_of_which_two_are_needed_is_paid_twice():
    typed = Typed(rate=0, minutes={"clutch_in_car": 1}, parts={"coil": PartPrice(8_640, "new", 2)})
    assert cost_now(chosen("coil"), typed).total == 17_280


def test_a_part_that_the_customer_brings_is_not_in_the_sum_and_said_so():
    typed = Typed(
        rate=12_000, minutes={"clutch_in_car": 60}, parts={"coil": PartPrice(None, "customer")}
    )
    cost = cost_now(chosen("coil"), typed)
    assert cost.total == 12_000
    assert cost.notes == ("Clutch coil: brought by the customer, its price is not in this sum.",)


def test_taxes_are_taken_on_what_they_are_for():
    typed = Typed(**{**vars(COIL), "taxes": (Tax(82_500, ("parts",)),)})
    cost = cost_now(chosen("coil"), typed)
    assert cost.total == 19_000 + 8_640 + rounded(8_640 * 82_500, MILLION)
    assert sum(there(cost.of(kind)) for kind in KINDS) == cost.total


def test_halves_are_rounded_up_in_whole_numbers():
    assert [rounded(number, 2) for number in range(4)] == [0, 1, 1, 2]


def test_a_set_of_answers_is_read_in_words():
    assert in_words({"clutch": ("coil_open", "oily")}) == (
        "Clutch and hub: coil open, oil on the friction face"
    )
