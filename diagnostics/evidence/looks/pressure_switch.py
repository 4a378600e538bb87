"""The pressure switch or sensor: open rightly, open wrongly, or telling what is not there."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

# What only a switch or sensor that reads wrong looks like.
SELDOM = {
    "open_no_reason": 0.0004,
    "sensor_off": 0.0006,
    "closed_empty": 0.0002,
    "closed_untold": 0.0002,
    "bridged_on_full": 0.0004,
}
UNRIGHT = {"open_cold": 0.0004, "open_low": 0.0006}  # open: then no power goes on from it

LOOKS = Looks(
    kind="pressure_switch",
    outcomes=(
        "closed", "closed_empty", "closed_untold", "open_cold", "open_low", "open_no_reason",
        "open_untold", "sensor_agrees", "sensor_off", "sensor_unsure", "bridged_on",
        "bridged_on_full", "bridged_nothing",
    ),
    normal=("closed", "sensor_agrees"),
    direct={"command": ("refused_low", "switch_false")},
    vague=("closed_untold", "open_untold", "sensor_unsure"),
    rows=Rows(
        ("command", "amount"),
        (
            Row({"command": ("switch_false",), "amount": ("empty",)}, {"closed_empty": 0.26, "closed_untold": 0.05, "sensor_off": 0.17, "open_low": 0.24, "open_untold": 0.06, "sensor_agrees": 0.07, "closed": 0.08, "sensor_unsure": 0.03, "bridged_nothing": 0.02, "bridged_on": 0.01, "bridged_on_full": 0.0002, "open_cold": 0.0003}, "an empty loop shows a switch that is stuck or bridged; another sensor may lie", COMMON),
            Row({"command": ("switch_false",)}, {"open_no_reason": 0.25, "sensor_off": 0.20, "bridged_on": 0.02, "bridged_on_full": 0.05, "open_untold": 0.08, "closed": 0.22, "sensor_agrees": 0.10, "sensor_unsure": 0.04, "open_low": 0.008, "open_cold": 0.004, "bridged_nothing": 0.02}, "it is open, or tells a pressure, that the gauge does not show; or another sensor lies", COMMON),
            Row({"command": ("refused_low",), "amount": ("empty",)}, {**SELDOM, "open_low": 0.53, "sensor_agrees": 0.21, "open_untold": 0.11, "open_cold": 0.0002, "closed": 0.10, "sensor_unsure": 0.03, "bridged_on": 0.004}, "too little pressure opens it, as it should; a high-pressure cut-out stays closed", COMMON),
            Row({"command": ("refused_low",), "amount": ("low",)}, {**SELDOM, "open_low": 0.48, "sensor_agrees": 0.21, "open_untold": 0.12, "open_cold": 0.012, "closed": 0.10, "sensor_unsure": 0.03, "bridged_on": 0.03}, "too little pressure opens it, as it should", COMMON),
            Row({"command": ("refused_low",)}, {**SELDOM, "open_cold": 0.34, "open_low": 0.09, "open_untold": 0.17, "sensor_agrees": 0.20, "closed": 0.10, "sensor_unsure": 0.04, "bridged_on": 0.05}, "a full loop has too little pressure only in the cold", COMMON),
            Row({"command": ("refused_cold",)}, {**SELDOM, "open_cold": 0.38, "open_low": 0.02, "open_untold": 0.14, "closed": 0.18, "sensor_agrees": 0.20, "sensor_unsure": 0.03, "bridged_on": 0.03, "bridged_nothing": 0.015}, "a full R-134a loop rests at 202 kPa at 1 °C: the switch stays open, or the outside sensor refuses", "property library"),
            Row({"command": ("ok",), "amount": ("empty",)}, {"closed_empty": 0.38, "closed_untold": 0.06, "closed": 0.12, "bridged_on_full": 0.0002, "open_low": 0.09, "sensor_agrees": 0.20, "sensor_off": 0.06, "open_untold": 0.03, "open_cold": 0.0002, "open_no_reason": 0.0004, "sensor_unsure": 0.03}, "power with an empty loop: the switch does not open", COMMON),
            Row({"amount": ("empty",)}, {"closed": 0.11, "bridged_on_full": 0.0002, "open_low": 0.48, "sensor_agrees": 0.22, "open_untold": 0.09, "closed_empty": 0.03, "closed_untold": 0.005, "sensor_unsure": 0.03, "sensor_off": 0.003, "open_cold": 0.0002, "open_no_reason": 0.0004, "bridged_on": 0.002, "bridged_nothing": 0.02}, "an empty loop opens it whatever else is wrong", COMMON),
            Row({"command": ("ok", "relay_stuck", "feed_resistance", "ground_resistance")}, {**SELDOM, **UNRIGHT, "closed": 0.63, "sensor_agrees": 0.27, "open_untold": 0.006, "sensor_unsure": 0.05, "bridged_nothing": 0.02, "bridged_on": 0.001}, "where power comes through it is closed", COMMON),
            Row({"command": ("refused_high",)}, {**SELDOM, "open_cold": 0.0006, "open_low": 0.002, "closed": 0.56, "sensor_agrees": 0.30, "open_untold": 0.05, "sensor_unsure": 0.05, "bridged_nothing": 0.02, "bridged_on": 0.002}, "at rest a cut-out is closed again", COMMON),
            Row({"amount": ("low",)}, {**SELDOM, "open_low": 0.05, "open_cold": 0.004, "closed": 0.53, "sensor_agrees": 0.26, "open_untold": 0.04, "sensor_unsure": 0.05, "bridged_nothing": 0.05, "bridged_on": 0.002}, "a loop that is low can be near where it switches", JUDGED),
            Row({}, {**SELDOM, "open_low": 0.004, "open_cold": 0.008, "closed": 0.58, "sensor_agrees": 0.26, "open_untold": 0.02, "sensor_unsure": 0.05, "bridged_nothing": 0.06, "bridged_on": 0.002}, "it is closed; a cold bay opens it besides another fault", COMMON),
        ),
    ),
)  # fmt: skip
