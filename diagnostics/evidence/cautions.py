"""Cautions that several kinds of test share. Trade articles and common practice, no source."""

KEY_AWAY = "Engine off; key away: a hybrid or stop-start engine can start by itself."
RUNS_BY_ITSELF = "A hybrid or stop-start engine can start or stop by itself; so can fans."
CLEAR_OF_BELT = "Hands, sleeves and tools clear of belt and fan."
HOT = "Hot pipes and engine parts."
EYES_AND_HANDS = "Goggles and gloves: liquid refrigerant freezes eyes and skin."
NO_FLAME = "No flame or hot work near refrigerant; ventilate pits."
UV_GLASSES = "UV glasses under the lamp."
NEVER_DRY = "Never run it locked, empty, under vacuum or without oil."
HIGH_VOLTAGE = (
    "High voltage (above 60 V, orange cables): never a 12 V test, no cover or plug opened; only by"
    " a person qualified for it."
)
LOCAL = "Local codes and licensed practice come first."
# Said to the customer, not to the bay.
STOP_DRIVING = (
    "Tell the customer to stop driving: a pulley that seizes can throw the belt, and that belt may"
    " drive the steering or the water pump."
)
