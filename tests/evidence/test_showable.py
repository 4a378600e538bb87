"""Too cold to show that it cools: why, and from which temperature on it can be shown."""

import pytest

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.showable import Switch, too_cold
from diagnostics.evidence.system import System
from diagnostics.physics.pressure import Gauge
from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.units import to_si

R134A: System = {"refrigerant": "R-134a"}


def cold(degrees: float, system: System | None = None, switch: Switch | None = None, **more):
    return too_cold(to_si(degrees, "°C"), Circumstances(system or R134A, **more), switch)


@pytest.mark.parametrize(("degrees", "kpa"), [(1, 202), (9, 300)])
def test_it_says_at_which_pressure_a_loop_with_liquid_rests_then(degrees, kpa):
    """R-134a rests at 202 kPa at 1 °C and 327 kPa at 11 °C (open property library)."""
    found = cold(degrees)
    assert found is not None
    said = " ".join(found.reasons)
    assert f"rests at {kpa}\u00a0kPa" in said
    assert "327\u00a0kPa, stands for its switch" in said
    assert "our judgement" in said
    assert "normal, and no fault" in said


def test_between_the_switch_and_the_vent_only_the_vent_is_the_reason():
    found = cold(12)
    assert found is not None
    assert not any("rests at" in one for one in found.reasons)
    assert found.words == "Not showable at 12\u00a0°C"
    assert (
        found.come_back == "On a day with at least 15\u00a0°C in the shade, or in a bay that warm."
    )


def test_air_that_is_warm_enough_is_no_reason():
    assert cold(15) is None
    assert cold(30) is None


def test_the_switchs_own_figure_goes_before_the_usual_one():
    own = Switch(Gauge(420e3), 7)
    found = cold(16, switch=own)
    assert found is not None
    [said] = found.reasons
    assert "the switch closes at 420\u00a0kPa, as noted in step 7" in said
    assert found.from_shown == "18\u00a0°C"
    assert cold(18, switch=own) is None


def test_a_switch_that_closes_early_leaves_the_vent_as_the_reason():
    found = cold(9, switch=Switch(Gauge(150e3), 2))
    assert found is not None
    assert not any("rests at" in one for one in found.reasons)


def test_of_a_refrigerant_nobody_noted_it_says_that_it_is_not_known():
    found = cold(9, system={"drive": "belt_clutch"})
    assert found is not None
    assert "R-134a, if it is that," in " ".join(found.reasons)


def test_r744_has_no_usual_figure():
    found = cold(5, system={"refrigerant": "R-744"})
    assert found is not None
    assert not any("rests at" in one for one in found.reasons)


def test_below_freezing_no_air_is_cooled():
    found = cold(-4)
    assert found is not None
    assert "air below freezing is cooled by nothing" in " ".join(found.reasons)


def test_it_is_told_in_the_shops_unit():
    found = cold(9, units=ShownIn({"temperature": "°F", "pressure": "psi"}))
    assert found is not None
    assert found.words == "Not showable at 48\u00a0°F"
    assert found.from_shown == "59\u00a0°F"
    assert "rests at 43\u00a0psi" in " ".join(found.reasons)
