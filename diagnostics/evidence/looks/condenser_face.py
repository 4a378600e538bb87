"""The condenser's face: what lies in the way, and what water on it does.

Water helps wherever heat is hard to give off: too much in the loop shows so as well.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="condenser_face",
    outcomes=("blocked", "colder_wet", "some", "falls_wet", "no_colder", "oily", "clear"),
    normal=("clear",),
    # "ok" is not among them: how much goes through is not told where nothing is seen.
    direct={"outside": ("face",)},
    tries=(("colder_wet", "falls_wet", "no_colder"),),
    rows=Rows(
        ("outside", "pumps", "amount"),
        (
            Row({"outside": ("face",)}, {"blocked": 0.59, "some": 0.15, "colder_wet": 0.09, "falls_wet": 0.015, "no_colder": 0.02, "oily": 0.01, "clear": 0.125}, "dirt on it is seen, between it and the radiator it is not", COMMON),
            Row({"pumps": ("none",)}, {"clear": 0.649, "some": 0.23, "oily": 0.045, "no_colder": 0.065, "blocked": 0.007, "colder_wet": 0.002, "falls_wet": 0.002}, "nothing pumps, so water does nothing", COMMON),
            Row({"outside": ("fan",)}, {"colder_wet": 0.20, "some": 0.20, "falls_wet": 0.05, "clear": 0.50, "no_colder": 0.02, "oily": 0.02, "blocked": 0.01}, "water does what the fan should", COMMON),
            Row({"outside": ("engine_heat", "other")}, {"colder_wet": 0.16, "some": 0.32, "falls_wet": 0.05, "clear": 0.40, "no_colder": 0.03, "oily": 0.02, "blocked": 0.02}, "gaps in the guides are seen; hot air round it is not", JUDGED),
            Row({"amount": ("too_much",)}, {"colder_wet": 0.08, "some": 0.22, "falls_wet": 0.06, "clear": 0.573, "no_colder": 0.04, "oily": 0.02, "blocked": 0.007}, "water takes off heat that too full a condenser cannot", COMMON),
            Row({}, {"clear": 0.585, "some": 0.23, "oily": 0.045, "no_colder": 0.07, "falls_wet": 0.045, "colder_wet": 0.018, "blocked": 0.007}, "some insects and leaves lie on any; a little water helps on any", COMMON),
        ),
    ),
)  # fmt: skip
