"""Anything that a technician, an old page or a slip of the hand can bring to any kind of test."""

from typing import Any

from hypothesis import strategies as st

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Choice, Field, Number, Text
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Reading, parse
from diagnostics.evidence.system import System
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.pressure import Absolute

ODD_TEXTS = ("0", "-0", "0.0", "1e3", "-1", "0.001", "999999", "-999999", "7,5", "1 000")
SYSTEM_KEYS: dict[str, tuple[Any, ...]] = {
    "drive": ("belt_clutch", "belt_clutchless", "electric_hv", "electric_48", "belt_electric", ""),
    "clutch": ("magnetic", "none", ""),
    "displacement": ("fixed", "variable_inner", "variable_outer", "speed", ""),
    "voltage": ("12", "24", ""),
    "switched_side": ("feed", "ground", ""),
    "refrigerant": ("R-134a", "R-1234yf", "R-12", "R-152a", "R-744", "other", ""),
    "branches": ([], ["front"], ["front", "rear"], ["front", "rear", "battery"], ["battery"]),
    "label_charge_kg": (0.0, 0.03, 0.52, 2.4),
    "coil_ohm": (0.0, 3.6, 14.0),
    "coil_ohm_source": ("", "workshop data"),
    "gap_low_m": (0.0, 0.0003),
    "gap_high_m": (0.0006,),
    "gap_source": ("", "label"),
}
SYSTEMS = st.fixed_dictionaries(
    {}, optional={key: st.sampled_from(values) for key, values in SYSTEM_KEYS.items()}
)


@st.composite
def arounds(draw: st.DrawFn) -> Circumstances:
    """Any system, any place of the switch, the air of any place where people drive."""
    system: System = draw(SYSTEMS)  # type: ignore[assignment]
    failing = draw(st.sampled_from(("", "yes", "no", "cannot_tell")))
    air = Absolute(draw(st.floats(50_000, 108_000)))
    return Circumstances(system, failing, air, "where the shop stands")


@st.composite
def typed(draw: st.DrawFn, number: Number, around: Circumstances) -> Reading | None:
    """A number inside, at the edge, outside, or one that cannot be, in any unit it takes."""
    span = number.span_for(around.system)
    edges = (span.low, span.high, span.least, span.most)
    beyond = (span.most * 10 + 1, span.least - abs(span.least) - 1)
    value = draw(
        st.one_of(
            st.floats(span.low, span.high),
            st.floats(span.least, span.most),
            st.sampled_from((*edges, *beyond)),
        )
    )
    text = f"{value:.{draw(st.integers(0, 4))}f}"
    text = draw(st.one_of(st.just(text), st.sampled_from(ODD_TEXTS)))
    unit = draw(st.sampled_from(number.units))
    try:
        return parse(text, number.units, unit)
    except PhysicsError:
        return None  # the form asks again and keeps it as typed


def told(field: Field, around: Circumstances) -> st.SearchStrategy[Reading | str | None]:
    """What may come for one field; None: nothing."""
    if isinstance(field, Number):
        return st.one_of(st.none(), typed(field, around))
    if isinstance(field, Choice):
        codes = [answer.code for answer in field.answers]
        return st.sampled_from([None, *codes, *codes, "of_another_page"])
    assert isinstance(field, Text)
    return st.sampled_from([None, "P0645", "behind the bumper"])


@st.composite
def readings_of(draw: st.DrawFn, kind: Kind, around: Circumstances) -> dict[str, Reading | str]:
    """Readings of a kind, each field told or not."""
    found = {field.name: draw(told(field, around)) for field in kind.fields}
    return {name: one for name, one in found.items() if one is not None}
