"""Air behind a cooling coil, held to a published example (cooled_air.json names each source)."""

import json
import math
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.cooled_air import cooling, wettest
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.humid_air import by_relative_humidity
from diagnostics.physics.pressure import Absolute

ROWS: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent / "cooled_air.json").read_text("utf-8")
)
SEA = Absolute(101_325)
WARM = by_relative_humidity(303.15, 0.5, SEA)
COLD = by_relative_humidity(283.15, 1, SEA)


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_the_published_coil_is_found(row):
    found = getattr(cooling(WARM, COLD, 5), row["quantity"])
    assert found == pytest.approx(row["expected"], **{row["tolerance_kind"]: row["tolerance"]})


def test_sensible_and_latent_heat_are_all_that_the_air_lost():
    found = cooling(WARM, COLD, 5)
    assert found.air == pytest.approx(found.dry_air * (WARM.enthalpy - COLD.enthalpy))
    assert found.sensible_share + found.latent_share == pytest.approx(1)
    # 1.006 kJ/(kg K) of dry air over 20 K, and 2501 kJ/kg of vapor: rules of thumb from memory
    assert found.sensible == pytest.approx(5.7 * 1.02e3 * 20, rel=0.01)
    assert found.latent == pytest.approx(found.condensate * 2.5e6, rel=0.03)


@given(st.floats(283.15, 318.15), st.floats(0.1, 1), st.floats(0.5, 40), st.floats(0.01, 1))
def test_what_the_coil_leaves_is_never_more_than_came_in(kelvin, share, cooled, flow):
    entering = by_relative_humidity(kelvin, share, SEA)
    found = cooling(entering, wettest(entering, kelvin - cooled), flow)
    assert found.condensate >= 0
    assert found.sensible > 0
    assert 0 < found.sensible_share <= 1
    assert found.latent_share == pytest.approx(found.latent / found.air, abs=1e-9)


@given(st.floats(0.01, 10))
def test_the_shares_do_not_depend_on_the_flow(flow):
    assert cooling(WARM, COLD, flow).sensible_share == pytest.approx(
        cooling(WARM, COLD, 5).sensible_share
    )


def test_above_the_dew_point_nothing_drips():
    found = cooling(WARM, wettest(WARM, WARM.dew_point() + 1), 0.1)
    assert found.condensate == 0
    assert found.latent_share == 0


def test_colder_leaving_air_drips_more():
    drips = [cooling(WARM, wettest(WARM, kelvin), 0.1).condensate for kelvin in (288, 283, 278)]
    assert drips == sorted(drips)
    assert drips[0] > 0


@pytest.mark.parametrize(
    ("leaving", "flow", "fault", "words"),
    [
        (COLD, math.nan, Malformed, "no number"),
        (COLD, -1, Impossible, "exchanged"),
        (by_relative_humidity(283.15, 1, Absolute(90e3)), 1, Impossible, "one pressure"),
        (by_relative_humidity(310, 0.2, SEA), 1, OutOfRange, "heating"),
        (by_relative_humidity(300, 0.9, SEA), 1, OutOfRange, "gives it back"),
    ],
)
def test_what_no_cooling_coil_does_is_said_to_be_so(leaving, flow, fault, words):
    with pytest.raises(fault, match=words):
        cooling(WARM, leaving, flow)


def test_no_cooling_has_no_shares():
    with pytest.raises(OutOfRange, match="No heat"):
        cooling(WARM, WARM, 1).sensible_share  # noqa: B018 - asking is what fails
