"""The hub or torque limiter of a running belt drive: does it go along with the pulley?"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="limiter",
    outcomes=(
        "sheared_locked", "sheared", "slips", "torn", "shaft_not_free", "whole", "goes_along",
    ),
    normal=("whole", "goes_along"),
    direct={"clutch": ("ok", "hub_broken")},  # the shaft is turned with the pulley, not felt alone
    less={"goes_along": ("whole", "torn"), "sheared": ("sheared_locked",)},
    alarms=0.002,  # a pulley that turns while its hub stands is hardly mistaken
    rows=Rows(
        ("clutch", "mechanics"),
        (
            Row({"clutch": ("hub_broken",), "mechanics": ("locked",)}, {"sheared_locked": 0.72, "sheared": 0.20, "torn": 0.04}, "a shaft that locks shears the limiter", COMMON),
            Row({"clutch": ("hub_broken",), "mechanics": ("stiff",)}, {"sheared": 0.45, "sheared_locked": 0.30, "torn": 0.10, "slips": 0.08}, "a stiff shaft strains it", COMMON),
            Row({"clutch": ("hub_broken",)}, {"sheared": 0.70, "torn": 0.14, "slips": 0.10, "whole": 0.025, "goes_along": 0.015, "sheared_locked": 0.01}, "pulley turns, hub stands", COMMON),
            Row({"mechanics": ("locked",)}, {"shaft_not_free": 0.76, "slips": 0.08, "whole": 0.08, "goes_along": 0.05, "torn": 0.02, "sheared_locked": 0.004}, "the drive holds, the shaft does not turn", COMMON),
            Row({"mechanics": ("stiff",)}, {"shaft_not_free": 0.36, "whole": 0.34, "goes_along": 0.22, "slips": 0.06, "torn": 0.014, "sheared_locked": 0.002}, "turned by the pulley a stiff shaft comes along; felt at the hub alone", COMMON),
            Row({"clutch": ("other",)}, {"goes_along": 0.44, "whole": 0.28, "slips": 0.16, "torn": 0.06, "shaft_not_free": 0.03, "sheared": 0.02, "sheared_locked": 0.005}, "anything", JUDGED),
            Row({}, {"whole": 0.60, "goes_along": 0.385, "torn": 0.006, "slips": 0.003, "sheared": 0.0004, "sheared_locked": 0.0002, "shaft_not_free": 0.003}, "a whole drive goes along", COMMON),
        ),
    ),
)  # fmt: skip
