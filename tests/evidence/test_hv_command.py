"""An electric compressor by scan data: a refusal is no fault, and a speed is no pumping.

A refusal is a finding: trade articles. The 10 % are our judgement, no source.
"""

import pytest

from diagnostics.evidence.kinds.hv_command import HV_COMMAND
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

DATA = Trial("hv_command")
HV: System = {"drive": "electric_hv", "displacement": "speed"}
ASKED = {"asked": "yes", "refusal": "none", "warning": "none"}
RUNS = ASKED | {"commanded": "4000", "actual": "3960"}

PATTERNS = [
    (RUNS, "as_commanded"),
    (RUNS | {"actual": "2500"}, "slower"),
    (RUNS | {"actual": "5500"}, "faster"),
    (RUNS | {"commanded": "0"}, "faster"),
    (RUNS | {"actual": "3600"}, "at_the_edge"),
    (RUNS | {"actual": "0"}, "stands"),
    (ASKED | {"commanded": "0", "actual": "0"}, "not_commanded"),
    (ASKED | {"commanded": "0"}, "not_commanded"),
    ({"asked": "yes", "refusal": "pressure", "commanded": "0", "actual": "0"}, "refused"),
    ({"asked": "yes", "refusal": "battery"}, "refused"),
    ({"refusal": "own"}, "reports_itself"),
    ({"refusal": "link"}, "no_answer"),
    (RUNS | {"warning": "shown"}, "insulation_warning"),
    ({"refusal": "insulation"}, "insulation_warning"),
    (ASKED, "nothing_told"),
    ({"commanded": "0", "actual": "0"}, "nothing_told"),
    ({"asked": "no", "commanded": "0", "actual": "0", "refusal": "none"}, "nothing_told"),
    ({"power": "2"}, "nothing_told"),
    ({"codes": "some code"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert DATA.code(HV, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in DATA.kind.outcomes}


@pytest.mark.parametrize("reason", ["pressure", "temperature", "battery", "other"])
def test_a_refusal_is_a_finding_and_no_fault(reason):
    result = DATA.meaning(HV, **ASKED | {"refusal": reason})
    assert standing(result, "Permission") == "open"
    assert "a finding, not a fault" in result.outcome.marks[0].sentence


def test_no_part_is_ever_pointed_at_by_scan_data_alone():
    for typed, _outcome in PATTERNS:
        assert subjects(DATA.meaning(HV, **typed), "likely", "proved") == []


def test_an_insulation_warning_stops_everything_whatever_else_was_read():
    result = DATA.meaning(HV, **RUNS | {"warning": "shown"})
    assert result.onward[0].startswith("Stop:")
    assert "prove dead first" in result.onward[0]


def test_running_as_commanded_does_not_say_that_it_pumps():
    assert "Whether it pumps: not told by its speed." in DATA.meaning(HV, **RUNS).outcome.not_tested


def test_nothing_commanded_is_judged_only_when_it_was_asked_for_and_no_reason_was_given():
    result = DATA.meaning(HV, commanded="0", actual="0")
    assert not result.outcome.carries
    assert "was not told" in result.outcome.sentence


def test_the_share_of_the_commanded_speed_is_shown():
    (value,) = DATA.meaning(HV, **RUNS).values
    assert value.shown == "99\u00a0%"


@pytest.mark.parametrize("drive", ["belt_clutch", "belt_clutchless"])
def test_it_is_barred_on_a_belt(drive):
    assert DATA.kind.forbids({"drive": drive})
    assert DATA.code({"drive": drive}, **RUNS) == "nothing_told"


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48", "belt_electric"])
def test_it_is_offered_where_there_is_a_motor(drive):
    assert DATA.kind.forbids({"drive": drive}) is None


def test_48_volts_have_a_sentence_of_their_own():
    assert any("48 V class" in words for words in DATA.kind.remarks_for({"drive": "electric_48"}))
    assert DATA.kind.remarks_for(HV) == ()


def test_nothing_is_touched_and_never_12_volts():
    words = " ".join(DATA.kind.cautions)
    assert "nothing is opened, unplugged or touched" in words
    assert "never a 12 V test" in words


def test_a_refusal_that_was_read_is_no_running_before_the_charge_was_known():
    assert DATA.kind.orders_broken({"refusal": "battery"}, [], HV) == ()
    (order,) = DATA.kind.orders_broken(DATA.readings(**RUNS), [], HV)
    assert order.code == "charge_first"


def test_no_answer_and_a_speed_do_not_fit():
    assert "actual" in DATA.asks(HV, refusal="link", actual="3000")


@pytest.mark.parametrize("number", HV_COMMAND.numbers, ids=lambda one: one.name)
def test_any_number_alone_says_something_sensible(number):
    for typed in ("0", "-3", "4000", "90000"):
        assert DATA.meaning(HV, **{number.name: typed}).outcome.sentence


def test_a_reason_for_not_running_and_a_speed_do_not_fit():
    assert "refusal" in DATA.asks(HV, **RUNS | {"refusal": "pressure"})
    assert DATA.asks(HV, **RUNS | {"refusal": "own"}) == {}


def test_power_taken_while_it_stands_does_not_fit():
    assert "power" in DATA.asks(HV, **RUNS | {"actual": "0", "power": "2.5"})
    assert DATA.asks(HV, **RUNS | {"actual": "0", "power": "0.1"}) == {}


def test_running_although_nobody_asked_for_cold_is_told():
    notes = DATA.meaning(HV, **RUNS | {"asked": "no"}).notes
    assert any("battery’s cooling" in note for note in notes)


@pytest.mark.parametrize("power", ["0", "0.0", "0.04", "-0.2"])
def test_a_speed_without_power_does_not_fit_and_rules_nothing_out(power):
    typed = RUNS | {"power": power}
    assert any("our judgement" in one for one in DATA.asks(HV, **typed)["power"])
    assert subjects(DATA.meaning(HV, **typed), "ruled_out") == []


@pytest.mark.parametrize("power", ["", "0.2", "1.8"])
def test_a_speed_with_its_power_or_without_a_reading_of_it_fits(power):
    assert DATA.asks(HV, **RUNS | {"power": power}) == {}
    assert DATA.code(HV, **RUNS | {"power": power}) == "as_commanded"


@pytest.mark.parametrize(("typed", "_outcome"), PATTERNS)
def test_nothing_found_on_48_volts_is_called_high_voltage(typed, _outcome):
    for text in words_of(DATA.meaning({"drive": "electric_48"}, **typed)):
        assert "high voltage" not in text.lower().replace("-", " ")


@pytest.mark.parametrize("warned", [{"warning": "shown"}, {"refusal": "insulation"}])
@pytest.mark.parametrize("odd", [{"power": "0"}, {"actual": "0", "power": "2"}])
def test_an_insulation_warning_stands_though_the_speeds_do_not_fit(warned, odd):
    assert DATA.code(HV, **RUNS | odd | warned) == "insulation_warning"
