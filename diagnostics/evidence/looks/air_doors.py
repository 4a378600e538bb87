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
    tries=(("heater", "not_heater"),),
    alarms=0.002,  # felt at the vents by hand, or by a thermometer: our judgement
    rows=Rows(
        ("cabin", "amount"),
        (
            Row({"cabin": ("heater",)}, {"heater": 0.40, "follow": 0.43, "not_heater": 0.045, "sides_differ": 0.05, "blend_stays": 0.065}, "hot coolant in the heater warms what was cold; a valve that stays does not follow either", COMMON),
            Row({"cabin": ("door",)}, {"blend_stays": 0.32, "heater": 0.13, "other_stays": 0.12, "sides_differ": 0.07, "follow": 0.25, "not_heater": 0.11}, "a door stays, or does not close to the end", COMMON),
            Row({"cabin": ("other",)}, {"follow": 0.45, "not_heater": 0.32, "other_stays": 0.08, "sides_differ": 0.08, "blend_stays": 0.03, "heater": 0.04}, "anything", JUDGED),
            Row({"amount": ("low",)}, {"follow": 0.464, "not_heater": 0.39, "sides_differ": 0.13, "other_stays": 0.012, "blend_stays": 0.001, "heater": 0.003}, "too little cools one side of the evaporator first", COMMON),
            Row({}, {"follow": 0.508, "not_heater": 0.46, "sides_differ": 0.018, "other_stays": 0.010, "blend_stays": 0.001, "heater": 0.003}, "doors in order follow", COMMON),
        ),
    ),
)  # fmt: skip
