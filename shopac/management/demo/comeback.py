"""A car of the demo that was here four weeks ago and comes back with the same trouble."""

from shopac.management.demo.told import CONSENT, Fields, Line, key_of

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
)
