"""A car of the demo that was here four weeks ago and comes back with the same trouble."""

from shopac.management.demo.cylinders import charged, recovered
from shopac.management.demo.told import (
    CONSENT,
    QUIST,
    SAND,
    Fields,
    Line,
    entry,
    fails,
    key_of,
    step,
    taken_in,
)

TILIA: Fields = {
    "customer_name": "Runa Osterby",
    "phone": "555 010 0172",
    "plate": "MV.2864H",
    "make_model": "Corvane Tilia 1.4",
    "model_year": "2019",
    "vin": "ZZ9CT4HL9KT002864",
    "drive": "belt_clutch",
    "displacement": "fixed",
    "voltage": "12",
    "switched_side": "feed",
    "refrigerant": "R-134a",
    "label_charge": "450 g",
    "label_charge_source": "label",
    "branches": ["front"],
}
VENT: Fields = {
    "test_kind": "vent_temperature",
    "test_version": "1",
    "branch": "front",
    "humidity": "45",
    "recirculation": "fresh",
    "blower": "high",
    "doors": "open",
    "rpm": "1500",
    "minutes": "10",
}
# (name in this list, hours ago, who, entry kind, job, fields)
BEFORE: tuple[Line, ...] = (
    (
        "tilia",
        680,
        "Noor Abanti",
        "intake",
        "tilia",
        {**TILIA, "odometer": "41 300 mi", "complaint": "Not cold any more.", **CONSENT},
    ),
    (
        "tilia fitted",
        676,
        "R. Sand",
        "change",
        "tilia",
        {"what": "fitted", "part": "condenser", "source": "new", "serial": "TC-20418"},
    ),
    ("tilia shut", 675, "R. Sand", "change", "tilia", {"what": "closed"}),
    charged("tilia", 674, "450"),
    (
        "tilia pressure",
        673,
        "R. Sand",
        "step",
        "tilia",
        {
            "test_kind": "static_pressure",
            "test_version": "1",
            "low": "478 kPa",
            "high": "480 kPa",
            "temperature": "21 °C",
            "where": "places",
            "soaked": "yes",
        },
    ),
    (
        "tilia vent",
        672,
        "R. Sand",
        "step",
        "tilia",
        {**VENT, "vent": "9", "intake": "28"},
    ),
    (
        "tilia closed then",
        671,
        "Noor Abanti",
        "close",
        "tilia",
        {
            "came_from": "repairing",
            "closing_kind": "repaired_not_verifiable",
            "air": "28 °C",
            "come_back": "When the leak detector is back.",
            "reason": "No leak search after the condenser: the detector is away for its check.",
            "picked_up": "customer",
            "odometer_out": "41 304 mi",
        },
    ),
)
AGAIN: tuple[Line, ...] = (
    (
        "tilia again",
        3,
        "Noor Abanti",
        "intake",
        "tilia again",
        {
            **TILIA,
            "odometer": "52 800 mi",
            "complaint": "Warm again, like four weeks ago.",
            "follows": str(key_of("tilia")),
            "before": "comeback",
        },
    ),
    (
        "tilia vent again",
        2.5,
        "E. Quist",
        "step",
        "tilia again",
        {**VENT, "vent": "22", "intake": "29"},
    ),
    recovered("tilia again", 1.5, "350", QUIST),
)

# It loses a little each year; only weighing twice tells how much.
SLOW: Fields = {
    "customer_name": "Cassia Rowntree", "phone": "555 010 0128", "plate": "SW.1377P",
    "make_model": "Brenloh Ilex 1.4", "model_year": "2019", "vin": "ZZ9BX2SL9KT001377",
    "label_charge": "430 g",
}  # fmt: skip
WEIGHED: tuple[Line, ...] = (
    taken_in("slow", 7200, **SLOW, odometer="51 900 mi", complaint="Less cold each summer.",
             since="last_season", warm_when=["hot"]),
    fails("slow", 7199),
    step("slow", "gas_identity", 7198.5, how="instrument", result="as_label"),
    recovered("slow", 7198, "322"),
    entry("slow", "evacuation", 7197, SAND, gauge="system", depth="420", pumped="30",
          temperature="22"),
    charged("slow", 7196, "430", dye="7", leak="not_found"),
    entry("slow", "close", 7195, SAND, came_from="repairing", closing_kind="tested_only",
          picked_up="customer", reason="Weighed in with dye. Come back in a year to be weighed."),
)  # fmt: skip
WEIGHED_AGAIN: tuple[Line, ...] = (
    taken_in("slow again", 4, **SLOW, odometer="60 200 mi", complaint="Here to be weighed again.",
             follows=str(key_of("slow")), before="comeback"),
    step("slow again", "gas_identity", 3.5, how="instrument", result="as_label"),
    recovered("slow again", 3, "398"),
)  # fmt: skip
