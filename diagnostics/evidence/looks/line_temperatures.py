"""Temperatures along the running loop: a step where liquid only passes is a restriction there.

The drop at the expansion device is as it should be, so a blocked device shows no step before it.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

TRADE = "trade articles: a temperature drop across the part shows where it is blocked"

LOOKS = Looks(
    kind="line_temperatures",
    outcomes=(
        "step_drier", "step_liquid", "step_exchanger", "frost_early", "no_drop", "frost_suction",
        "no_step", "recorded",
    ),
    normal=("no_step", "recorded"),
    alarms=0.002,  # one thermometer at several places, frost seen: our judgement
    direct={"flow": ("device_blocked", "device_open", "drier_hose")},
    vague=("recorded",),
    rows=Rows(
        ("pumps", "amount", "flow"),
        (
            Row({"pumps": ("none",)}, {"no_drop": 0.52, "recorded": 0.30, "no_step": 0.166, "step_exchanger": 0.01, "step_liquid": 0.001, "step_drier": 0.001, "frost_early": 0.001, "frost_suction": 0.001}, "nothing flows, so nothing turns cold", COMMON),
            Row({"amount": ("empty",)}, {"no_drop": 0.42, "recorded": 0.32, "no_step": 0.24, "step_exchanger": 0.012, "step_liquid": 0.003, "step_drier": 0.001, "frost_early": 0.003, "frost_suction": 0.001}, "next to nothing flows", COMMON),
            Row({"flow": ("drier_hose",)}, {"step_drier": 0.31, "step_liquid": 0.18, "frost_early": 0.15, "step_exchanger": 0.05, "no_drop": 0.02, "frost_suction": 0.004, "no_step": 0.14, "recorded": 0.14}, "it expands at the narrow place; one in the suction hose is not read here", TRADE),
            Row({"flow": ("device_blocked",)}, {"no_step": 0.55, "recorded": 0.25, "frost_early": 0.10, "step_liquid": 0.015, "step_drier": 0.003, "step_exchanger": 0.06, "no_drop": 0.018, "frost_suction": 0.004}, "the drop stands at the device, where it belongs; its screen may frost", TRADE),
            Row({"flow": ("device_open",)}, {"frost_suction": 0.26, "no_drop": 0.12, "no_step": 0.34, "recorded": 0.20, "step_exchanger": 0.05}, "too much goes through: cold up to the compressor, or little drop", COMMON),
            Row({"amount": ("low",)}, {"no_step": 0.525, "recorded": 0.272, "no_drop": 0.10, "step_exchanger": 0.07, "step_liquid": 0.012, "step_drier": 0.002, "frost_early": 0.008, "frost_suction": 0.011}, "gas in the liquid line can cool on its way", COMMON),
            Row({"amount": ("too_much",)}, {"frost_suction": 0.04, "no_step": 0.564, "recorded": 0.30, "step_exchanger": 0.07, "no_drop": 0.015, "step_liquid": 0.006, "step_drier": 0.002, "frost_early": 0.003}, "liquid can come back", COMMON),
            Row({"flow": ("condenser_blocked", "other")}, {"no_step": 0.50, "recorded": 0.28, "step_exchanger": 0.08, "step_liquid": 0.045, "step_drier": 0.008, "frost_early": 0.027, "no_drop": 0.04, "frost_suction": 0.02}, "inside the condenser no step is read here", JUDGED),
            Row({"pumps": ("weak",)}, {"no_drop": 0.10, "no_step": 0.53, "recorded": 0.295, "step_exchanger": 0.065, "step_liquid": 0.003, "step_drier": 0.002, "frost_early": 0.002, "frost_suction": 0.003}, "little flows, little turns cold", COMMON),
            Row({}, {"no_step": 0.592, "recorded": 0.30, "step_exchanger": 0.07, "no_drop": 0.012, "frost_suction": 0.020, "step_liquid": 0.003, "step_drier": 0.0015, "frost_early": 0.0015}, "liquid that only passes keeps its temperature; a heat exchanger cools it on purpose; behind weak air inside it frosts on", COMMON),
        ),
    ),
)  # fmt: skip
