"""The words of what was last seen of the loop, by the code of the event."""

GASES = {
    "nitrogen": "dry nitrogen",
    "tracer": "tracer gas",
    "air": "air or oxygen",
    "": "a gas that was not told",
}
HEADS = {
    "opened": "opened {at}, closing not noted",
    "taken_open": "taken as opened {at} ({what}), closing not noted",
    "open": "open when it was looked into, {at}, closing not noted",
    "closed": "closed or capped {at}, evacuating since not noted",
    "liquid": "pressure in it as a loop with liquid rests, seen {at}",
    "pressure": "pressure in it, seen {at}",
    "little": "pressure in it, less than a loop with liquid rests at, seen {at}",
    "none": "no pressure seen, {at}",
    "low": "under vacuum by the gauge when last read, {at}",
    "side_low": "one side under vacuum by the gauge, the other not, when last read, {at}",
    "vacuum": "under vacuum when last read, {at}",
    "risen": "pumped down, and its pressure rose again, {at}",
    "pumped": "pumped on {at}, how deep is not told",
    "gas": "under {what} when last read, {at}",
    "put_in": "{what} put in, {at}; its pressure at the end was not read",
    "spent": "{what} put in, next to no pressure left when last read, {at}",
    "recovered": "refrigerant recovered {at}",
    "recovery": "recovery entered {at}, what came out is not told",
    "nothing_came": "next to nothing came out at a recovery, {at}",
    "ran": "pressure in it while it ran, seen {at}",
    "ran_low": "pressure on the high side, by running pressures, seen {at}",
    "dry": "next to no pressure on the high side, by running pressures, seen {at}",
    "sucks": "low side under the air’s pressure, by running pressures, seen {at}",
}
_NO_OIL = "nothing carries oil to the compressor"
_RECOVERED = "no charge is shown since"
_NO_REFRIGERANT = "what was put in is no refrigerant"
_OPEN = "the loop is open, as far as is noted"
MUST_NOT = {
    "opened": _OPEN,
    "taken_open": _OPEN,
    "open": _OPEN,
    "closed": "nothing since shows that air is out of it and refrigerant in",
    "little": f"hardly any liquid can be in it, and {_NO_OIL}",
    "none": f"without refrigerant {_NO_OIL}",
    "low": f"under vacuum {_NO_OIL}",
    "side_low": f"under vacuum {_NO_OIL}",
    "vacuum": f"under vacuum {_NO_OIL}",
    "risen": "nothing since shows refrigerant in it",
    "pumped": "it may be under vacuum",
    "gas": _NO_REFRIGERANT,
    "put_in": _NO_REFRIGERANT,
    "spent": _NO_REFRIGERANT,
    "recovered": _RECOVERED,
    "recovery": _RECOVERED,
    "nothing_came": _RECOVERED,
    "dry": f"without refrigerant {_NO_OIL}",
    "sucks": "no oil comes back, and air can be drawn in",
}
# Of what takes the charge out, or tells that it is out, where pressure was seen since.
LAST = {
    "opened": "opened {at}",
    "taken_open": "taken as opened {at}",
    "open": "open {at}",
    "closed": "closed or capped {at}",
    "low": "under vacuum {at}",
    "vacuum": "under vacuum {at}",
    "risen": "pumped down {at}",
    "pumped": "pumped on {at}",
    "gas": "under {what} {at}",
    "put_in": "{what} put in {at}",
    "spent": "{what} put in {at}",
    "recovered": "recovered {at}",
    "recovery": "recovery entered {at}",
    "nothing_came": "next to nothing came out {at}",
}
