"""What the repair of the story told in full costs: typed by way of repair, and as lines."""

from shopac.management.demo.told import Fields

PRICES: Fields = {
    "hours_clutch_in_car": "2",
    "hours_unbolt": "1.25",
    "hours_clutch_beside": "1",
    "hours_hoses_off": "1",
    "hours_recover": "0.5",
    "hours_evacuate": "0.75",
    "hours_charge": "0.25",
    "hours_sweep": "0.5",
    "hours_drier": "0.5",
    "hours_device": "0.75",
    "hours_shaft_seal": "2.5",
    "hours_oil": "0.25",
    "hours_find_again": "0.5",
    "hours_find_place": "0.5",
    "hours_leak_place": "1",
    "hours_gap": "0.75",
    "part_clutch": "268.00",
    "source_clutch": "new",
    "part_compressor": "489.00",
    "source_compressor": "new",
    "part_seals": "18.00",
    "part_shaft_seal": "74.00",
    "part_drier": "58.00",
    "source_drier": "new",
    "part_device": "36.50",
    "source_device": "new",
    "amount_oil": "90",
    "amount_refrigerant": "650",
    "keep_months": "4 years",
    "shop_months": "12",
    "shop_pays": ["labor", "parts"],
    "seller_months": "24",
    "seller_pays": ["parts"],
    "aside_gap_set": "No shim is left to take out, and the face is worn.",
}
# Each line with what its form asks, in the order of `lines`.
LINES = (
    ("labor", "Refrigerant recovered", "0.5", "96.00", "h", ""),
    ("labor", "Compressor unbolted, new one fitted", "2.25", "96.00", "h", ""),
    ("labor", "Drier and expansion device", "1.25", "96.00", "h", ""),
    ("labor", "Evacuated, held, charged by weight, searched", "1.5", "96.00", "h", ""),
    ("part", "Compressor, complete with clutch", "1", "489.00", "piece", "new"),
    ("part", "Receiver-drier", "1", "58.00", "piece", "new"),
    ("part", "Expansion device", "1", "36.50", "piece", "new"),
    ("part", "Seals and valve cores", "1", "18.00", "piece", "new"),
    ("fluid", "R-134a", "650 g", "42.00", "kg", ""),
    ("fluid", "Oil PAG 46", "90 mL", "0.12", "mL", ""),
    ("sundry", "Cleaning and caps", "1", "6.00", "piece", ""),
)


def lines() -> Fields:
    """The estimate's lines as its form names them."""
    names = ("sort", "words", "quantity", "price", "per", "source")
    return {
        f"{name}_{at}": text
        for at, row in enumerate(LINES, 1)
        for name, text in zip(names, row, strict=True)
    }
