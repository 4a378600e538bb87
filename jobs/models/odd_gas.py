"""What is odd about refrigerant moved and kept all the same: {code: (about, sentence)}."""

GAS_ODD = {
    "grams_out": ("Grams", "More than a car holds (up to 3000 g): check the unit, g or kg."),
    "scale_out": ("Scale", "No cylinder of a shop weighs that: check the unit, g or kg."),
    "scale_turned": ("Scale", "The scale went the other way: look at both readings."),
    "scale_far": ("Scale", "The scale changed by more than any car holds: look at both readings."),
    "scale_differs": ("Grams", "{said} are told, and the scale changed by {scale}."),
    "scale_off_book": (
        "Scale",
        (
            "It showed {scale} before; by the book this cylinder had {book} then, its tare of"
            " {tare} included. Is it that cylinder, hoses off? Weigh it."
        ),
    ),
    "oil_amount_out": (
        "Oil or dye",
        "More than a car’s loop holds (up to 500 mL): check the unit.",
    ),
    "dye_high_voltage": (
        "Dye",
        (
            "A high-voltage compressor takes only what its maker names: the carrier of a dye can"
            " spoil its insulation."
        ),
    ),
    "bay_out": ("Temperature in the bay", "Outside what a bay has (0 to 45 °C)."),
    "came_back_out": ("Pressure that came back", "More than a loop comes back to while empty."),
    "hose_out": ("Length of the hose", "Hoses here have 0.3 to 5 m."),
    "machine_depth_out": ("Depth", "A vacuum has 10 to 30 000 micron: check the unit."),
    "machine_minutes_out": ("Minutes", "More than ten hours, or less than a minute."),
    "off_label": ("Grams", "{said} go in, and the label says {label}: more than ±15 g apart."),
    "charge_other_gas": ("Cylinder", "The cylinder holds {gas}, and the label says {label}."),
}
