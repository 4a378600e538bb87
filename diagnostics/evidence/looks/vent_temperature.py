"""The air at a vent beside the air that goes in: colder at all, or not. How much is judged nowhere.

It names no part: whatever is wrong with the loop, its air or its doors ends here.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="vent_temperature",
    outcomes=("no_colder", "warmer", "cannot_tell", "colder"),
    normal=("colder",),
    direct={},
    vague=("cannot_tell",),
    rows=Rows(
        ("pumps", "amount", "cabin"),
        (
            Row({"pumps": ("none",), "cabin": ("heater", "door")}, {"no_colder": 0.38, "warmer": 0.45, "cannot_tell": 0.12, "colder": 0.05}, "no cold, and heat comes in", COMMON),
            Row({"pumps": ("none",)}, {"no_colder": 0.60, "warmer": 0.20, "cannot_tell": 0.14, "colder": 0.06}, "nothing pumps, so nothing turns cold; warm ducts warm the air", COMMON),
            Row({"amount": ("empty",)}, {"no_colder": 0.60, "warmer": 0.16, "cannot_tell": 0.13, "colder": 0.11}, "nothing in it, no cold", COMMON),
            Row({"cabin": ("heater", "door")}, {"no_colder": 0.14, "warmer": 0.16, "cannot_tell": 0.12, "colder": 0.58}, "cold air is warmed again behind the evaporator", COMMON),
            Row({"amount": ("low",)}, {"no_colder": 0.13, "warmer": 0.03, "cannot_tell": 0.12, "colder": 0.72}, "too little cools, by how little is in it", COMMON),
            Row({"cabin": ("iced",)}, {"no_colder": 0.08, "warmer": 0.02, "cannot_tell": 0.10, "colder": 0.80}, "ice keeps the air back, not the cold", JUDGED),
            Row({"cabin": ("rear",)}, {"no_colder": 0.07, "warmer": 0.02, "cannot_tell": 0.09, "colder": 0.82}, "one vent is not the other, and mostly the front one is read", JUDGED),
            Row({"pumps": ("weak",)}, {"no_colder": 0.17, "warmer": 0.03, "cannot_tell": 0.13, "colder": 0.67}, "it cools a little", COMMON),
            Row({}, {"no_colder": 0.03, "warmer": 0.01, "cannot_tell": 0.08, "colder": 0.88}, "a car that pumps gives colder air, in great heat not much", COMMON),
        ),
    ),
)  # fmt: skip
