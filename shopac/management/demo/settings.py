"""What the owner of the demo's shop set."""

from shopac.management.demo.told import Fields

# (name in this list, entry kind, fields).
SETTINGS: tuple[tuple[str, str, Fields], ...] = (
    ("rate", "price", {"what": "labor", "name": "Bay", "price": "96.00"}),
    (
        "clutch set",
        "price",
        {"what": "part", "name": "Clutch set", "part_number": "TY-2204", "price": "286.00"}
        | {"unit": "piece"},
    ),
    (
        "compressor",
        "price",
        {"what": "part", "name": "Compressor, new", "part_number": "TY-2310", "price": "512.00"}
        | {"unit": "piece"},
    ),
    ("gas", "price", {"what": "refrigerant", "name": "R-134a", "price": "42", "unit": "kg"}),
    ("oil", "price", {"what": "oil", "name": "PAG 46", "price": "0.12", "unit": "mL"}),
    (
        "evacuate",
        "price",
        {"what": "operation", "name": "Recover, evacuate, recharge", "hours": "1.25"},
    ),
    (
        "tax",
        "tax",
        {"name": "Sales tax", "share": "8.25", "taken_on": ["parts", "refrigerant"]},
    ),
    (
        "phrases",
        "shop_change",
        {
            "part": "phrases",
            "phrases_complaint": "Blows warm\nWarm when standing still\nNoise with A/C on",
            "phrases_handover": "Soaking\nPart ordered\nHoses still on",
            "phrases_not_done": "Cover bolts seized\nCustomer waits for the car",
            "phrases_waiting": "Customer calls back\nPart from the depot",
        },
    ),
    ("keep", "shop_change", {"part": "keep", "record_years": "7", "comeback_days": "90"}),
)
