"""How answers stand, by hand on small tables: what carries them, what one test holds up."""

import pytest

from diagnostics.evidence.inference.joint import not_alone
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.inference.rows import Row, Rows
from diagnostics.evidence.inference.told import Test as Made
from diagnostics.evidence.inference.verdict import LIKELY, odds
from diagnostics.evidence.weigh import Verdict, weigh
from tests.evidence.inference.cars import CLUTCHED, made, verdict_on

BELT = model_of(CLUTCHED).answers["belt"]
FIRST = dict(zip(BELT, verdict_on([]).weighed.now.of(["belt"])[0].tolist(), strict=True))


def table(kind: str, speaks: tuple[str, ...] = ("ok", "slips"), **shares: float) -> Looks:
    """A test with two outcomes, never slipped: how often "bad" is read at each answer."""
    rows = [
        Row({"belt": (code,)}, {"bad": share, "good": 1 - share}, "by hand")
        for code, share in shares.items()
    ]
    return Looks(
        kind,
        Rows(("belt",), tuple(rows)),
        ("bad", "good"),
        ("good",),
        {"belt": speaks},
        misses=0.0,
        alarms=0.0,
    )


ONE = table("one", ok=0.01, slips=0.9, off=0.01, other=0.01)
TWO = table("two", ok=0.002, slips=0.8, off=0.002, other=0.002)
SURE = table("sure", ok=0.0005, slips=0.99, off=0.0005, other=0.0005)
FAINT = table("faint", ok=0.3, slips=0.5, off=0.3, other=0.3)
HEARD = table("heard", (), ok=0.0005, slips=0.99, off=0.0005, other=0.0005)
BY_HAND = {one.kind: one for one in (ONE, TWO, SURE, FAINT, HEARD)}


def after(*told: str, outcome: str = "bad") -> Verdict:
    tests = [Made(number, kind, outcome, "yes") for number, kind in enumerate(told, 1)]
    return weigh(CLUTCHED, tests, (), BY_HAND)


def bayes(*strengths: dict[str, float]) -> dict[str, float]:
    """The shares after tests of these strengths, by Bayes' rule."""
    found = dict(FIRST)
    for strength in strengths:
        found = {code: share * strength[code] for code, share in found.items()}
    return {code: share / sum(found.values()) for code, share in found.items()}


def strengths(looks: Looks, weaker: bool = False) -> dict[str, float]:
    """How often "bad" is read at each answer; weaker: three times that, never above the largest."""
    found = {row.where["belt"][0]: row.shares["bad"] for row in looks.rows.rows}
    most = max(found.values())
    return {code: min(most, 3 * one) if weaker else one for code, one in found.items()}


def test_one_test_is_bayes_rule():
    slips = FIRST["slips"]
    share = 0.9 * slips / (0.9 * slips + 0.01 * (1 - slips))
    assert after("one").of("belt", "slips").share == pytest.approx(share, abs=1e-9)


def test_two_kinds_multiply():
    found = bayes(strengths(ONE), strengths(TWO))
    for code, share in found.items():
        assert after("one", "two").of("belt", code).share == pytest.approx(share, abs=1e-9)


def test_counting_for_a_third_triples_what_speaks_less_and_leaves_the_most():
    slips = FIRST["slips"]
    share = 0.9 * slips / (0.9 * slips + 0.03 * (1 - slips))
    assert after("one").weighed.weak.of(["belt"])[0][1] == pytest.approx(share, abs=1e-9)


def test_each_kind_counts_for_a_third_by_itself():
    found = bayes(strengths(ONE, weaker=True), strengths(TWO, weaker=True))
    weak = after("one", "two").weighed.weak.of(["belt"])[0]
    assert weak.tolist() == pytest.approx(list(found.values()), abs=1e-9)


def test_what_two_tests_tell_alike_is_told_though_each_alone_is_not_missed():
    """Without either one the other says as much, so neither carries it by itself."""
    found = verdict_on(made(("static_pressure", "empty"), ("pressure_switch", "open_low")))
    refused = found.of("command", "refused_low")
    assert refused.share > LIKELY
    assert refused.standing == "likely"


def test_the_weaker_standing_is_that_of_the_weaker_shares():
    proved = after("sure", "one").of("belt", "slips")
    assert (proved.standing, proved.weaker) == ("proved", "proved")
    likely = after("sure").of("belt", "slips")
    assert (likely.standing, likely.weaker) == ("likely", "likely")
    weak = bayes(strengths(TWO, weaker=True))["slips"]
    alone = after("two").of("belt", "slips")
    assert alone.share == pytest.approx(bayes(strengths(TWO))["slips"], abs=1e-9)
    assert (alone.standing, alone.weaker) == ("likely", "open")
    assert weak < 0.8 < alone.share


def test_what_one_test_carries_rests_on_it():
    found = after("sure", "faint").of("belt", "slips")
    assert found.standing == "likely"
    assert found.alone == "sure"


def test_what_two_tests_carry_rests_on_neither():
    found = after("sure", "two").of("belt", "slips")
    assert found.standing == "proved"
    assert found.alone == ""


def test_what_is_open_rests_on_nothing():
    assert after("faint").of("belt", "slips").alone == ""


def test_a_tests_weight_is_by_how_much_it_changes_the_odds():
    found = after("one", "two").of("belt", "slips")
    assert [one.kind for one in found.carried] == ["two", "one"]
    assert found.carried[0].odds == pytest.approx(400)
    assert found.carried[1].odds == pytest.approx(90)
    before = odds(FIRST["slips"])
    assert odds(found.share) / before == pytest.approx(400 * 90)


def test_what_hardly_changes_the_odds_is_not_named():
    table = BY_HAND | {"hardly": TWO_SIDES}
    tests = [Made(1, "sure", "bad"), Made(2, "hardly", "bad")]
    found = weigh(CLUTCHED, tests, (), table).of("belt", "slips")
    assert [one.kind for one in found.carried] == ["sure"]


TWO_SIDES = table("hardly", ok=0.5, slips=0.6, off=0.5, other=0.5)


def test_a_share_of_099_without_a_test_that_names_it_is_likely_only():
    found = after("heard", "one").of("belt", "slips")
    assert found.standing == "proved"  # the other one names it
    only = weigh(CLUTCHED, [Made(1, "heard", "bad"), Made(2, "again", "bad")], (), {
        "heard": HEARD, "again": table("again", (), ok=0.01, slips=0.9, off=0.01, other=0.01),
    }).of("belt", "slips")  # fmt: skip
    assert only.share > 0.99
    assert only.standing == "likely"


def test_not_in_order_is_proved_by_any_test_that_names_one_of_the_faults():
    assert after("sure", "one").of("belt", "not_ok").standing == "proved"


def test_a_rival_is_ruled_out_by_what_is_proved():
    verdict = after("sure", "one")
    assert verdict.of("belt", "off").standing == "ruled_out"
    assert verdict.of("belt", "ok").standing == "ruled_out"
    assert verdict.of("belt", "other").standing == "open"


def test_a_set_that_one_option_cures_is_proved_where_its_answers_are_not():
    verdict = verdict_on(made(("coil_power", "holds_when_pushed"), ("air_gap", "far_wide")))
    wide, worn = (verdict.of("clutch", code).standing for code in ("gap_wide", "worn"))
    both = verdict.weighed.of_set({"clutch": ("gap_wide", "worn")})
    assert "proved" not in (wide, worn)
    assert both.standing == "proved"
    assert both.share == pytest.approx(
        verdict.of("clutch", "gap_wide").share + verdict.of("clutch", "worn").share
    )


def test_a_set_over_two_variables_counts_each_of_them_once():
    verdict = verdict_on(made(("coil_power", "holds_when_pushed")))
    one, two = {"clutch": ("gap_wide",)}, {"seal": ("wet",)}
    some = verdict.weighed.of_set({**one, **two}).share
    both = verdict.weighed.joint({**one, **two})
    alone = verdict.weighed.of_set(one).share + verdict.weighed.of_set(two).share
    assert some == pytest.approx(alone - both, abs=1e-9)


def test_after_power_at_the_coil_without_pull_in_the_command_is_open_but_not_alone_at_fault():
    """The trial's figures: a command fault 0.39, a command fault with the clutch in order 0.015."""
    weighed = verdict_on(made(("coil_power", "holds_when_pushed"))).weighed
    faults = {"command": weighed.plain.answers["command"][1:]}
    assert weighed.of_set(faults).share > 0.25
    assert weighed.of_set(faults).standing == "open"
    assert weighed.joint({**faults, "clutch": ("ok",)}) < 0.02
    told = not_alone(weighed)
    assert ("command", "clutch") in [(one.variable, one.beside) for one in told]


def test_nothing_is_said_jointly_where_nothing_was_tested():
    assert verdict_on([]).joint == ()
