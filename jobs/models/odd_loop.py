"""What is odd about oil and vacuum and kept all the same: {code: (what it is about, sentence)}."""

OIL_ODD = {
    "dye_out": ("Dye", "A loop takes up to 30 mL of dye."),
    "oil_arrived_without": (
        "Oil in the new part",
        "Told above: dry, or no new compressor. One of the two is wrong.",
    ),
    "oil_counted_twice": (
        "Oil put in",
        (
            "The new compressor came with the whole loop’s oil: what goes in on top counts twice,"
            " unless it was drained first."
        ),
    ),
    "oil_below_floor": ("Maker’s floor", "Less went in than the maker’s floor."),
    "oil_high_voltage": (
        "Oil of a high-voltage compressor",
        (
            "A high-voltage compressor takes only the oil that its maker names: one part in 100 of"
            " another can spoil its insulation."
        ),
    ),
    "oil_injected_high_voltage": (
        "How the oil went in",
        (
            "Injecting through a machine or its hoses can bring other oil into a high-voltage"
            " compressor."
        ),
    ),
    "oil_second_type": ("Oil", "Another oil was told before on this job: two types do not mix."),
    "oil_told_by_recovery": (
        "Oil out with the refrigerant",
        ("A recovery of this job told it already and booked it: type only what is not in it."),
    ),
}
VACUUM_ODD = {
    "vacuum_out": ("Depth of the vacuum", "A pumped loop shows 20 to 5000 micron."),
    "vacuum_read_out": ("Reading of the vacuum", "A pumped loop shows 20 to 30 000 micron."),
    "vacuum_above_air": ("Pressure while pumping", "Above the air’s own pressure: no vacuum."),
    "needle_out": ("Needle", "A needle at a pumped loop shows 20 to 30 inHg."),
    "needle_deeper": (
        "Needle",
        ("Deeper than perfect vacuum, as the air presses here: check zero and altitude."),
    ),
    "pumped_out": ("Minutes pumped", "A usual evacuation takes 5 to 300 minutes."),
    "minute_out": ("Minute of a reading", "A usual hold is watched for up to 180 minutes."),
    "minutes_back": (
        "Minute of a reading",
        "Each reading is later than the one before, and later than the shut valve.",
    ),
    "loop_temperature_out": ("Temperature of the loop", "A bay has 0 to 60 °C."),
}
