"""What is asked before refrigerant goes into a cylinder or out of it."""

from datetime import date

from jobs.cylinder_limits import (
    SENTENCES,
    Held,
    Limit,
    asked_between,
    asked_into,
    asked_out_of,
    fill,
)

TODAY = date(2026, 11, 30)
WC = 12_000_000  # µL: 12 kg of water
FIGURES: dict[str, int | str] = {
    "holds_mg": 1_000,
    "limit_mg": 1_000,
    "out_mg": 1_000,
    "day": "2026-03-03",
    "stands": "R-12",
    "gas": "R-134a",
    "rule": "water",
}


def codes(limits):
    return [one.code for one in limits]


def refillable(mg=0, gas="R-134a", **more):
    return Held("refillable", gas, WC, by_gas={gas: mg} if mg else {}, **more)


def test_the_lower_of_the_two_rules_is_used_and_named():
    """Liquid at 25 °C: R-134a 1206.7 kg/m³, R-152a 899.5 (property tables, from memory)."""
    heavy, light = fill("R-134a", WC), fill("R-152a", WC)
    assert (heavy.rule, heavy.most) == ("water", 9_600_000)
    assert abs((heavy.by_density or 0) - 0.8 * 12_000_000 * 1.2067) < 5_000
    assert light.rule == "density"
    assert abs((light.most or 0) - 0.8 * 12_000_000 * 0.8995) < 5_000


def test_without_a_water_capacity_or_for_carbon_dioxide_no_limit_is_made_up():
    assert fill("R-134a", None).most is None
    assert fill("R-744", WC).most is None
    assert fill("", WC).most == 9_600_000


def test_the_last_gram_that_fits_is_not_asked_about_and_the_next_is():
    held = refillable(9_000_000)
    assert asked_into(held, 600_000, "R-134a", TODAY) == []
    (limit,) = asked_into(held, 600_001, "R-134a", TODAY)
    assert limit.code == "cylinder_overfull"
    assert "9600" in limit.sentence().replace("\u202f", "").replace("\u00a0", "").replace(",", "")
    assert "0.8 × water capacity" in limit.sentence()


def test_one_refrigerant_to_a_cylinder_by_its_word_and_by_what_is_in_it():
    assert codes(asked_into(refillable(), 1, "R-12", TODAY)) == ["cylinder_second_gas"]
    untold = Held("refillable", by_gas={"R-134a": 5})
    assert codes(asked_into(untold, 1, "R-1234yf", TODAY)) == ["cylinder_second_gas"]
    assert asked_into(Held("refillable"), 1, "R-12", TODAY) == []
    assert codes(asked_into(untold, 1, "", TODAY)) == ["cylinder_gas_unknown"]


def test_contaminated_refrigerant_takes_anything_and_is_never_charged():
    mixed = Held("contaminated", by_gas={"R-134a": 5, "": 3})
    assert asked_into(mixed, 10, "R-12", TODAY) == []
    assert codes(asked_out_of(mixed, 8, TODAY, into_car=True)) == ["cylinder_never_charged"]
    assert asked_out_of(mixed, 8, TODAY) == []
    assert "cylinder_contaminates" in codes(asked_between(mixed, refillable(), 5, TODAY))


def test_past_its_test_it_is_not_filled_but_may_be_emptied():
    old = refillable(100, tested_until=date(2026, 11, 29))
    assert codes(asked_into(old, 1, "R-134a", TODAY)) == ["cylinder_past_test"]
    assert asked_out_of(old, 100, TODAY) == []
    assert asked_into(refillable(tested_until=TODAY), 1, "R-134a", TODAY) == []


def test_more_out_than_in_and_a_cylinder_that_is_gone_are_asked():
    assert codes(asked_out_of(refillable(200), 201, TODAY)) == ["cylinder_below_zero"]
    gone = refillable(200, gone_since=TODAY)
    assert codes(asked_out_of(gone, 1, TODAY)) == ["cylinder_gone"]


def test_what_cannot_be_refilled_and_what_holds_nitrogen_take_none():
    assert codes(asked_into(Held("new", "R-12"), 1, "R-12", TODAY)) == ["cylinder_not_refillable"]
    assert codes(asked_into(Held("nitrogen"), 1, "R-12", TODAY)) == ["cylinder_no_refrigerant"]


def test_every_code_has_a_sentence_without_gaps():
    for code in SENTENCES:
        assert "{" not in Limit(code, FIGURES).sentence("oz")
