"""Air doors and heater: what follows the control, and whether pinched hoses turn it colder.

Valve and door from warm to cold let in the same heat: pinching alone does not tell them apart.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="air_doors",
    outcomes=("heater", "blend_stays", "other_stays", "sides_differ", "not_heater", "follow"),
    normal=("follow", "not_heater"),
    # "ok" is not among them: whether each door closes to the end no vent tells.
    direct={"cabin": ("door", "heater")},
    alarms=0.003,  # felt at the vents by hand, or by a thermometer: our judgement
    rows=Rows(
        ("cabin", "amount"),
        (
            Row({"cabin": ("heater",)}, {"heater": 0.50, "follow": 0.32, "not_heater": 0.045, "sides_differ": 0.045, "blend_stays": 0.08}, "hot coolant in the heater warms what was cold; a valve that stays does not follow either", COMMON),
            Row({"cabin": ("door",)}, {"blend_stays": 0.34, "heater": 0.18, "other_stays": 0.13, "sides_differ": 0.09, "follow": 0.16, "not_heater": 0.10}, "a door stays, or does not close to the end", COMMON),
            Row({"cabin": ("other",)}, {"follow": 0.44, "not_heater": 0.30, "other_stays": 0.08, "sides_differ": 0.08, "blend_stays": 0.05, "heater": 0.05}, "anything", JUDGED),
            Row({"amount": ("low",)}, {"follow": 0.461, "not_heater": 0.39, "sides_differ": 0.13, "other_stays": 0.012, "blend_stays": 0.003, "heater": 0.004}, "too little cools one side of the evaporator first", COMMON),
            Row({}, {"follow": 0.506, "not_heater": 0.46, "sides_differ": 0.018, "other_stays": 0.010, "blend_stays": 0.003, "heater": 0.003}, "doors in order follow", COMMON),
        ),
    ),
)  # fmt: skip
